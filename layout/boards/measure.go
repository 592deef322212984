package boards

import (
	"slices"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/wiring"
)

// What air lines take: sums and sizes as many carriers have them; carriers
// differ. A checked bag of 158 cm in all and 23 kg, a carry-on of 56 x 36 x 23 cm.
const (
	CheckedSum  = 1580 * layout.Millimetre
	CheckedMass = 23 * layout.Kilogram
)

// CarryOn is the size of a carry-on bag; carriers differ.
var CarryOn = layout.Size{W: 560 * layout.Millimetre, D: 360 * layout.Millimetre, H: 230 * layout.Millimetre}

// feet is how far a board's rubber feet stand out below where the plan does not
// say: common practice, no source.
const feet = 10 * layout.Millimetre

// everywhere lists the findings that are so on any board: they come from the
// chain and the supplies, and not from places.
var everywhere = []string{
	check.AcIntoDc, check.DcIntoAc, check.OverVoltage, check.UnderVoltage, check.ReversedPolarity, check.Overload,
	check.LittleHeadroom, check.NoOutput, check.NoSupply, check.NoLink, check.ReversingLeadNeeded, check.TourMains, check.PowerUndecided,
	check.FeedbackLoop, check.UsedTwice,
}

// anyBoard returns what is at fault on any board.
func (t *trial) anyBoard() []string {
	t.same = map[string]bool{}
	var out []string
	for _, r := range check.WithCables(check.All(t.p), wiring.Wire(t.p), nil) {
		for _, f := range r.Findings {
			if f.Level == check.Fault && slices.Contains(everywhere, f.Code) && !t.same[f.Text] {
				t.same[f.Text] = true
				out = append(out, f.Text)
			}
		}
	}
	return out
}

// measure fills in what is known of a board on which the plan fits.
func (t *trial) measure(b *Board, p *layout.Plan) {
	b.Plan, b.Faults, b.Spare = p, nil, spare(p)
	w := wiring.Wire(p)
	seen := map[string]bool{}
	for _, r := range check.WithCables(check.All(p), w, nil) {
		for _, f := range r.Findings {
			if f.Level == check.Fault && !slices.Contains(everywhere, f.Code) && !seen[f.Text] {
				seen[f.Text] = true
				b.Faults = append(b.Faults, f.Text)
			}
		}
	}
	b.Cable, b.Longest = 0, 0
	for _, k := range w.Kit {
		b.Cable += k.Cut
	}
	for i := range w.Wirings {
		b.Longest = max(b.Longest, wiring.Total(w.Wirings[i].Cables))
	}
	b.Mass, b.Rig = p.Board.TotalMass(), 0
	for i := range p.Lineups {
		m, _, _ := p.Balance(&p.Lineups[i])
		b.Rig = max(b.Rig, m)
	}
	b.Outside = outside(p)
	b.CarryOn = bag(p, b.Outside)
	b.Checked = checked(p, b)
}

// outside is what the loaded board measures, plugs that travel in place and
// those of cables that leave the board pulled out.
func outside(p *layout.Plan) layout.Size {
	all, top := p.Board.Rect(), layout.Length(0)
	for _, o := range p.Board.Obstacles() {
		top = max(top, o.Box.Z1)
	}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		links := p.ChainLinks(l)
		placed, _ := p.Standings(l)
		for k := range placed {
			for _, b := range placed[k].Boxes {
				if b.Part == layout.BodyPart || b.Part == layout.PlugPart && !layout.PulledOut(links, placed[k].Unit, b.Jack) {
					all, top = all.Union(b.Box.Rect()), max(top, b.Box.Z1)
				}
			}
		}
	}
	return layout.Size{W: all.W(), D: all.D(), H: below(&p.Board) + top}
}

// below is what is under the deck's top.
func below(b *layout.Board) layout.Length {
	if b.Case != nil {
		return b.Case.Below
	}
	return b.Thickness + feet
}

// bag says whether the board goes into a carry-on.
func bag(p *layout.Plan, out layout.Size) Goes {
	switch {
	case goesInto(out, CarryOn):
		return Yes
	case goesInto(layout.Size{W: p.Board.W, D: p.Board.D, H: below(&p.Board)}, CarryOn):
		return NotSo
	}
	return No
}

func goesInto(a, b layout.Size) bool {
	x, y := []layout.Length{a.W, a.D, a.H}, []layout.Length{b.W, b.D, b.H}
	slices.Sort(x)
	slices.Sort(y)
	return x[0] <= y[0] && x[1] <= y[1] && x[2] <= y[2]
}

// checked says whether the board goes as a checked bag. Its mass is the same
// however it is arranged.
func checked(p *layout.Plan, b *Board) Goes {
	switch {
	case b.Rig > CheckedMass || p.Board.W+p.Board.D+below(&p.Board) > CheckedSum:
		return No
	case b.Outside.W+b.Outside.D+b.Outside.H <= CheckedSum:
		return Yes
	}
	return NotSo
}

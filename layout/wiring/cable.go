package wiring

import (
	"cmp"
	"fmt"

	"footplank/layout"
	"footplank/layout/route"
)

// Stock and StockInches are the lengths that ready-made patch cables come in,
// rising: common practice, no source; the inch ones are read.
var Stock = []layout.Length{
	10 * layout.Centimetre, 15 * layout.Centimetre, 20 * layout.Centimetre, 30 * layout.Centimetre,
	45 * layout.Centimetre, 60 * layout.Centimetre, 90 * layout.Centimetre,
}

var StockInches = []layout.Length{6 * layout.Inch, 12 * layout.Inch, 36 * layout.Inch}

// Point3 is a place on or above the board.
type Point3 = route.Point3

// Cable is one audio cable of a line-up.
type Cable struct {
	ID       string
	From, To layout.JackRef
	// Plugs are the forms of the plugs at From and To; "" off the board.
	Plugs [2]string
	// Legs are where the legs of those plugs point, named as at the unit's
	// turn 0; "" for a plug without a leg.
	Legs [2]layout.LegSide
	// Stereo is set for both cables of a stereo link: one from "out" to "in",
	// one beside it from "out2" to "in2".
	Stereo bool
	Path   []Point3      // from plug tip to plug tip
	Run    layout.Length // length of Path
	// Blocked says why there is no way through, "" where there is. Then Path
	// is the straight line.
	Blocked string
	// Bend is the tightest bend of the path, and BendRadius what the cable
	// asks for; zero for straight estimates.
	Bend, BendRadius layout.Length
	Diameter         layout.Length // outside; zero for straight estimates
	// Cut is the length to cut, and Stock the next ready-made length at
	// least as long, zero where none is. Both are zero for a cable that
	// leaves the board: that one is the player's stage cable.
	Cut, Stock layout.Length
	// Kit is the ID of the cable of the kit that is used here, "" for a
	// cable that leaves the board.
	Kit string
}

// OffBoard reports whether the cable leaves the board.
func (c *Cable) OffBoard() bool {
	return layout.OffBoard(c.From.Unit) || layout.OffBoard(c.To.Unit)
}

// units returns the units at the cable's ends.
func (c *Cable) units() []string {
	var out []string
	for _, r := range []layout.JackRef{c.From, c.To} {
		if !layout.OffBoard(r.Unit) {
			out = append(out, r.Unit)
		}
	}
	return out
}

// Estimate returns the line-up's cables in the order of the signal with straight
// lines for runs. Those with an end at a unit that is not placed are left out. A
// cable that leaves the board ends at the nearest of its side and back edges.
func Estimate(p *layout.Plan, l *layout.Lineup) []Cable {
	placed, _ := p.Standings(l)
	return cablesOf(p, l, placed)
}

func cablesOf(p *layout.Plan, l *layout.Lineup, placed []layout.Standing) []Cable {
	at := make(map[string]*layout.Standing, len(placed))
	for i := range placed {
		at[placed[i].Unit.ID] = &placed[i]
	}
	var out []Cable
	links := p.ChainLinks(l)
	for _, k := range links {
		a, aok := tip(at, k.From)
		b, bok := tip(at, k.To)
		switch {
		case aok && bok:
		case aok && layout.OffBoard(k.To.Unit):
			b = edge(&p.Board, a)
		case bok && layout.OffBoard(k.From.Unit):
			a = edge(&p.Board, b)
		default:
			continue
		}
		c := Cable{ID: fmt.Sprintf("c%d", len(out)+1), From: k.From, To: k.To, Path: []Point3{a, b},
			Stereo: stereo(links, k)}
		c.Plugs[0], c.Legs[0] = plugAt(at, k.From)
		c.Plugs[1], c.Legs[1] = plugAt(at, k.To)
		c.setRun(route.Distance(a, b), p.LengthUnit)
		out = append(out, c)
	}
	return out
}

// setRun sets the run and what follows from it.
func (c *Cable) setRun(run layout.Length, unit layout.LengthUnit) {
	c.Run = run
	if !c.OffBoard() {
		c.Cut = route.Cut(run)
		c.Stock = NextStock(c.Cut, unit)
	}
}

// second names the jack beside a jack that carries the other side of a stereo
// signal.
var second = map[string]string{"out": "out2", "in": "in2", "out2": "out", "in2": "in"}

// stereo reports whether another link runs beside k between the same two units.
func stereo(links []layout.Link, k layout.Link) bool {
	from, to := second[k.From.Jack], second[k.To.Jack]
	if from == "" || to == "" || (k.From.Jack == "out") != (k.To.Jack == "in") {
		return false
	}
	for _, m := range links {
		if m.From == (layout.JackRef{Unit: k.From.Unit, Jack: from}) && m.To == (layout.JackRef{Unit: k.To.Unit, Jack: to}) {
			return true
		}
	}
	return false
}

// plugAt returns the plug in a jack and where its leg points.
func plugAt(at map[string]*layout.Standing, r layout.JackRef) (form string, leg layout.LegSide) {
	if s := at[r.Unit]; s != nil {
		if j := s.Unit.Jack(r.Jack); j != nil {
			if j.Plug.Leg > 0 {
				leg = cmp.Or(j.Leg, layout.LegUp)
			}
			return j.Plug.Name, leg
		}
	}
	return "", ""
}

// Total returns the runs of the cables that stay on the board, added up.
func Total(cs []Cable) layout.Length {
	var sum layout.Length
	for i := range cs {
		if !cs[i].OffBoard() {
			sum += cs[i].Run
		}
	}
	return sum
}

// NextStock returns the shortest ready-made length that is at least cut, as sold
// where the player's unit is in use, or zero when none is.
func NextStock(cut layout.Length, unit layout.LengthUnit) layout.Length {
	list := Stock
	if unit == layout.Inches {
		list = StockInches
	}
	for _, s := range list {
		if s >= cut {
			return s
		}
	}
	return 0
}

func tip(at map[string]*layout.Standing, r layout.JackRef) (Point3, bool) {
	s := at[r.Unit]
	if s == nil {
		return Point3{}, false
	}
	j := s.Unit.Jack(r.Jack)
	if j == nil {
		return Point3{}, false
	}
	p, z := s.Unit.Tip(j, s.Place.Turn)
	p = p.Add(s.Place.At)
	return Point3{X: p.X, Y: p.Y, Z: s.Z + z}, true
}

// edge returns the point of the board's side and back edges that is nearest to
// a; cables do not leave over the front, where the player's feet are.
func edge(b *layout.Board, a Point3) Point3 {
	x, y := min(max(a.X, 0), b.W), min(max(a.Y, 0), b.D)
	best := Point3{X: x, Y: b.D, Z: a.Z}
	for _, e := range []Point3{{X: 0, Y: y, Z: a.Z}, {X: b.W, Y: y, Z: a.Z}} {
		if route.Distance(a, e) < route.Distance(a, best) {
			best = e
		}
	}
	return best
}

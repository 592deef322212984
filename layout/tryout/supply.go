package tryout

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// unfed lists the units of a line-up that need an output and have none.
func unfed(p *layout.Plan, l *layout.Lineup) []string {
	var out []string
	for _, u := range p.UnitsIn(l) {
		if _, has := p.Feeds[l.Name][u.ID]; !has && u.Fed() {
			out = append(out, u.ID)
		}
	}
	return out
}

// feed says what feeds the tried unit, or who competes.
func (f *finder) feed(ctx context.Context) {
	p, a := f.t.plan, f.a
	was, held := f.b.unfed()
	u := f.t.unit
	for _, l := range a.Lineups {
		if r, ok := p.Feeds[l][u.ID]; ok {
			a.Power.Outputs[l] = r
		}
	}
	lost := map[string]bool{}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		for _, id := range unfed(p, l) {
			if !was[feed{l.Name, id}] {
				lost[id] = true
			}
		}
	}
	switch {
	case f.t.power == power.NoSupplies && u.Fed():
		a.Power.Text = "The plan has no supply: what feeds it is left open."
	case len(lost) > 0:
		a.Power.OK = false
		f.rivals(ctx, lost)
	case !u.Fed() && !u.Expander():
		a.Power.Text = "It needs no output."
	case u.Expander() && len(a.Power.Outputs) == 0:
		a.Power.OK, a.Power.Text = false, "No link of a supply is left for it."
	default:
		a.Power.Text = f.outputs()
		if f.t.power == power.Tight && held == power.Holds {
			a.Power.Text += " The headroom that the plan asks for is not kept any more."
		}
	}
}

// outputs names what feeds the unit.
func (f *finder) outputs() string {
	text := ""
	var seen []layout.JackRef
	for _, l := range f.a.Lineups {
		r, ok := f.a.Power.Outputs[l]
		if !ok || slices.Contains(seen, r) {
			continue
		}
		seen = append(seen, r)
		if text != "" {
			text += ", or "
		}
		text += fmt.Sprintf("%q of %s", r.Jack, f.t.plan.Unit(r.Unit).Label)
	}
	return fmt.Sprintf("An output is free for it: %s.", text)
}

// rivals says who competes for too few outputs.
func (f *finder) rivals(ctx context.Context, lost map[string]bool) {
	a := f.a
	m, err := power.Map(ctx, f.t.plan)
	if err == nil {
		for _, is := range m.Issues {
			if (is.Code == power.NoOutput || is.Code == power.NoLink) && len(is.Units) > 0 && lost[is.Units[0]] {
				a.Power.Text = is.Text
				for _, id := range is.Units {
					if id != a.Unit && !slices.Contains(a.Power.Rivals, id) {
						a.Power.Rivals = append(a.Power.Rivals, id)
					}
				}
				return
			}
		}
	}
	for i := range f.t.plan.Units {
		if u := &f.t.plan.Units[i]; lost[u.ID] {
			a.Power.Text = fmt.Sprintf("No output is left for %s.", u.Label)
			if u.ID != a.Unit {
				a.Power.Rivals = append(a.Power.Rivals, u.ID)
			}
			return
		}
	}
}

func cableName(c *wiring.Cable) string { return fmt.Sprint(c.From, c.To) }

// cables wires the line-ups as they would be from the kit there is, and lists
// what is missing.
func (f *finder) cables() {
	p := f.a.Plan
	_, blocked := f.b.kit()
	missing := map[[2]string][][]missingCable{}
	var pairs [][2]string
	for i := range p.Lineups {
		l := &p.Lineups[i]
		if f.a.Units == 0 && !slices.Contains(f.a.Lineups, l.Name) {
			continue
		}
		cables := wiring.Cables(p, l)
		for _, c := range cables {
			if c.Blocked != "" && !blocked[cableName(&c)] {
				f.a.Blocked = append(f.a.Blocked, fmt.Sprintf("%s: no way for the cable from %s to %s: %s", l.Name, f.jack(c.From), f.jack(c.To), c.Blocked))
			}
		}
		for _, pair := range plugPairs(cables) {
			lack := f.lacking(l.Name, cables, pair)
			if len(lack) == 0 {
				continue
			}
			if missing[pair] == nil {
				pairs = append(pairs, pair)
			}
			missing[pair] = append(missing[pair], lack)
		}
	}
	for _, pair := range pairs {
		f.a.Cables = append(f.a.Cables, f.together(pair, missing[pair])...)
	}
	slices.SortStableFunc(f.a.Cables, func(a, b Cable) int { return cmp.Compare(b.Cut, a.Cut) })
}

func (f *finder) jack(r layout.JackRef) string {
	if layout.OffBoard(r.Unit) {
		return r.Unit
	}
	return fmt.Sprintf("%q of %s", r.Jack, f.a.Plan.Unit(r.Unit).Label)
}

type missingCable struct {
	cut layout.Length
	use CableUse
}

func pairOf(plugs [2]string) [2]string {
	return [2]string{min(plugs[0], plugs[1]), max(plugs[0], plugs[1])}
}

func plugPairs(cs []wiring.Cable) [][2]string {
	var out [][2]string
	for i := range cs {
		if p := pairOf(cs[i].Plugs); !cs[i].OffBoard() && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// lacking lists the cables of one sort that the kit has none for, as few as can
// be: the longest need takes the longest there is, and what even that is too
// short for is missing; when the kit runs out, so are the shortest.
func (f *finder) lacking(lineup string, cs []wiring.Cable, pair [2]string) []missingCable {
	longest := func(a, b layout.Length) int { return cmp.Compare(b, a) }
	var need []missingCable
	for i := range cs {
		if c := &cs[i]; !c.OffBoard() && pairOf(c.Plugs) == pair {
			need = append(need, missingCable{c.Cut, CableUse{lineup, c.From, c.To}})
		}
	}
	slices.SortStableFunc(need, func(a, b missingCable) int { return longest(a.cut, b.cut) })
	var have []layout.Length
	kit, _ := f.b.kit()
	for _, k := range kit {
		if pairOf(k.Plugs) == pair {
			have = append(have, k.Cut)
		}
	}
	slices.SortFunc(have, longest)
	var lack []missingCable
	for _, m := range need {
		if len(have) > 0 && have[0] >= m.cut {
			have = have[1:]
		} else {
			lack = append(lack, m)
		}
	}
	return lack
}

// together makes one list of what several line-ups lack: the nth longest serves
// the nth longest of each.
func (f *finder) together(pair [2]string, lists [][]missingCable) []Cable {
	var out []Cable
	for _, lack := range lists {
		for n, m := range lack {
			if n == len(out) {
				out = append(out, Cable{Plugs: pair})
			}
			out[n].Cut = max(out[n].Cut, m.cut)
			out[n].Uses = append(out[n].Uses, m.use)
		}
	}
	for n := range out {
		out[n].Cut = wholeCut(out[n].Cut, f.a.Plan.LengthUnit)
		out[n].Stock = wiring.NextStock(out[n].Cut, f.a.Plan.LengthUnit)
	}
	return out
}

// wholeCut rounds a length up to what a rule shows, as the kit's are.
func wholeCut(l layout.Length, unit layout.LengthUnit) layout.Length {
	step := layout.Length(layout.Millimetre)
	if unit == layout.Inches {
		step = layout.Inch / 8
	}
	return (l + step - 1) / step * step
}

func findingKey(lineup string, c *check.Finding) string { return fmt.Sprint(lineup, c.Code, c.Units) }

// findings lists what the check finds that it did not before.
func (f *finder) findings() {
	if f.opt.Brief {
		return
	}
	was := f.b.findings()
	for i, r := range check.All(f.a.Plan) {
		l := f.a.Plan.Lineups[i].Name
		for _, x := range r.Findings {
			known := was[findingKey(l, &x)]
			about := x.Code == power.NoOutput || x.Code == power.NoSupply // said already
			same := slices.ContainsFunc(f.a.Findings, func(y check.Finding) bool { return y.Code == x.Code && slices.Equal(y.Units, x.Units) })
			if !known && !about && !same {
				f.a.Findings = append(f.a.Findings, x)
			}
		}
	}
}

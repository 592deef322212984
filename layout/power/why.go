package power

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
)

// rivals are units that compete for too few outputs.
type rivals struct {
	lineup string
	units  []string
	text   string
}

// explain says why there is no map: who competes for what where the assignment
// of one line-up fails, else which rule is in the way.
func (c *chosen) explain(ctx context.Context, a answer) {
	if len(a.stuck) > 0 {
		set := a.stuck
		if i := slices.IndexFunc(set, func(i int) bool { return c.pr.demands[i].can.size() == 0 }); i >= 0 {
			set = set[i : i+1]
		} else if !c.pr.share {
			set = c.pr.fewest(set)
		}
		v := c.pr.compete(a.in, set)
		c.rivals = append(c.rivals, v)
		c.why = v.text
		return
	}
	c.why = "Every way to share out the outputs was tried, and none keeps all rules in every line-up. " + c.pr.hindrance(ctx)
}

// fewest drops demands from a set that competes for too few outlets as long as
// what is left still does: without any of the rest there would be enough.
func (pr *problem) fewest(set []int) []int {
	set = slices.Clone(set)
	for i := 0; i < len(set); {
		rest := slices.Delete(slices.Clone(set), i, i+1)
		if len(pr.reach(rest)) < len(rest) {
			set = rest
			continue
		}
		i++
	}
	slices.Sort(set)
	return set
}

// reach returns the outlets that some of the demands may take.
func (pr *problem) reach(demands []int) []int {
	all := newSet(len(pr.outlets))
	for _, i := range demands {
		for w := range all {
			all[w] |= pr.demands[i].can[w]
		}
	}
	return all.list()
}

// compete words a set of demands of a line-up and the fewer outlets for them.
func (pr *problem) compete(l int, set []int) rivals {
	v := rivals{lineup: pr.p.Lineups[l].Name}
	var labels []string
	for _, i := range set {
		u := pr.demands[i].unit
		v.units = append(v.units, u.ID)
		labels = append(labels, u.Label)
	}
	var names []string
	for _, o := range pr.reach(set) {
		names = append(names, pr.outletName(pr.outlets[o].ref.Unit, pr.outlets[o].ref.Jack))
	}
	switch {
	case len(names) == 0 && len(set) == 1:
		v.text = fmt.Sprintf("No output suits %s: %s.", labels[0], pr.unsuited(pr.demands[set[0]].unit))
	case pr.share:
		v.text = fmt.Sprintf("In line-up %s these units compete for %s, even where they may share: %s.", v.lineup, layout.And(names), layout.And(labels))
	case len(names) == 1:
		v.text = fmt.Sprintf("In line-up %s %s compete for one output, %s: no other suits any of them.", v.lineup, layout.And(labels), names[0])
	default:
		v.text = fmt.Sprintf("In line-up %s %d units compete for %d outputs. Units: %s. Outputs: %s. No other output suits any of these units.",
			v.lineup, len(labels), len(names), layout.And(labels), layout.And(names))
	}
	return v
}

// needs words what a unit asks of an output.
func (pr *problem) needs(u *layout.Unit) string {
	d := u.Draw
	s := volts(d.Millivolts)
	if d.MaxMillivolts > d.Millivolts {
		s = fmt.Sprintf("%g to %s", float64(d.Millivolts)/1000, volts(d.MaxMillivolts))
	}
	if d.AC {
		s += " AC"
	} else {
		s += " DC"
	}
	return fmt.Sprintf("%s, %d mA", s, d.Milliamps)
}

// unsuited says what every output lacks for a unit: the first of kind, voltage,
// polarity and current at which all of them fail.
func (pr *problem) unsuited(u *layout.Unit) string {
	d := u.Draw
	var kind, voltage, poles, most int
	for o := range pr.outlets {
		out := &pr.outlets[o]
		if out.out.AC != d.AC || d.Feed.Unit != "" && d.Feed != out.ref {
			continue
		}
		kind++
		best := 0
		for _, s := range out.settings {
			if d.Takes(s.Millivolts) {
				best = max(best, s.Milliamps)
			}
		}
		if best == 0 {
			continue
		}
		voltage++
		if _, ok := reversal(d, out.out); ok {
			poles++
			most = max(most, best)
		}
	}
	need := pr.needs(u)
	switch {
	case kind == 0:
		return "it needs " + need + ", and no output gives " + map[bool]string{true: "AC", false: "DC"}[d.AC]
	case voltage == 0:
		return "it needs " + need + ", and no output gives that voltage"
	case poles == 0:
		return "it needs " + need + ", " + polarity(d.CentrePositive) + ", and the lead it has fits no output"
	case !pr.within(int64(d.Milliamps), int64(most)):
		return fmt.Sprintf("it needs %s, and with %d %% kept spare no output gives more than %d mA", need, pr.spare, most*(100-pr.spare)/100)
	}
	return "it needs " + need + ", and outputs that give it are not there in all of its line-ups, or hold what you put there"
}

// hindrance names the rules without which there would be a map, each alone.
func (pr *problem) hindrance(ctx context.Context) string {
	var names []string
	for _, rule := range []struct {
		name string
		lift func(q *problem)
	}{
		{"the supplies gave more watts", func(q *problem) {
			for n := range q.nodes {
				q.nodes[n].unbounded = true
			}
		}},
		{"no unit needed a ground of its own", func(q *problem) {
			for i := range q.demands {
				q.demands[i].alone = make([]bool, len(q.outlets))
			}
		}},
		{"units could change outputs between line-ups", (*problem).apart},
	} {
		q := pr.copy()
		rule.lift(q)
		if q.solve(ctx, false).at != nil {
			names = append(names, rule.name)
		}
	}
	switch len(names) {
	case 0:
		return "No single rule is to blame: outputs, grounds, watts and what stays the same in all line-ups together are."
	case 1:
		return "There would be one if " + names[0] + "."
	}
	return "There would be one if " + strings.Join(names, ", or if ") + "."
}

// copy returns a problem whose rules can be lifted, to ask whether there is a map
// then.
func (pr *problem) copy() *problem {
	q := *pr
	q.asks, q.improve = true, 0
	q.nodes, q.demands = slices.Clone(pr.nodes), slices.Clone(pr.demands)
	return &q
}

// apart lets every demand take an output in each line-up by itself.
func (pr *problem) apart() {
	var out []demand
	for _, d := range pr.demands {
		for k, l := range d.lineups {
			one := d
			one.lineups, one.cost = []int{l}, d.cost[k:k+1]
			out = append(out, one)
		}
	}
	pr.demands, pr.rows = out, make([][]int, len(pr.rows))
	pr.addRows()
}

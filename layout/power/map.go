package power

import (
	"context"
	"math"
	"slices"

	"footplank/layout"
)

// Verdicts of a map.
const (
	Holds      = "holds"       // one map for every line-up
	Tight      = "tight"       // one, but not with the headroom kept
	Impossible = "impossible"  // proved: there is none
	Undecided  = "undecided"   // none found, and none ruled out, within the steps
	NoSupplies = "no supplies" // nothing on the board gives power
)

// Assignment is a unit on an output.
type Assignment struct {
	Lineup         string // "" for every line-up
	Unit           string
	Supply, Output string
	Millivolts     int  // what the output is to be set to
	Switched       bool // the output has other positions or a range
	AC             bool
	Milliamps      int  // what the unit draws
	LimitMA        int  // the most the output gives
	Reversing      bool // the lead must swap the poles
	Chosen         bool // by the player, in the plan
	Link           bool // it feeds an expander
}

// Load is what a supply or an expander gives in a line-up, in watts.
type Load struct {
	Lineup, Supply string
	Watts          float64
	Limit          float64 // 0 where nothing bounds it but its outputs
}

// Result is the power map of a plan.
type Result struct {
	Verdict string
	// Why says, for any verdict but Holds, what is in the way.
	Why string
	// Best is set when no other map on the outputs in use is better.
	Best bool
	// Assignments come by line-up, those of every line-up first, and in the
	// plan's order of units; where not all can be fed, those that are.
	Assignments []Assignment
	Unfed       []Unfed
	Loads       []Load
	Leads       []Lead
	Issues      []Issue
	Tour        []Stop
	// Cautions are for the player's eyes whatever the map is.
	Cautions []string
}

// Unfed is a unit without an output.
type Unfed struct {
	Lineup string // "" for every line-up that the unit is in
	Unit   string
}

// Costs of a map besides the lengths of its leads, in tenths of a millimetre.
const (
	fullLoad = 1000 // an output at its rating, in proportion below it
)

// Map shares out the outputs of the plan's supplies, for all line-ups at once.
// The error is ctx's.
func Map(ctx context.Context, p *layout.Plan) (*Result, error) {
	r := &Result{Tour: tour(p), Cautions: cautions(p)}
	first := choose(ctx, p)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	r.Verdict, r.Why = first.verdict, first.why
	pr := first.pr
	if pr == nil || len(pr.nodes) == 0 {
		r.Issues = append(noSupply(p), tourIssues(r.Tour)...)
		return r, nil
	}
	at, best := first.at, false
	if at != nil {
		pr.keepTo(at)
		pr.priceLeads()
		pr.start = at
		if a := pr.solve(ctx, first.partial); a.at != nil {
			at, best = a.at, a.best
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	r.Best = best
	r.fill(pr, at)
	r.Leads = leads(p, r)
	r.Issues = append(issues(pr, at, r, first), tourIssues(r.Tour)...)
	return r, nil
}

// Apply sets the plan's Feeds from a map made without regard to where units
// stand. It must be done again when units, supplies or line-ups change, not
// when places do. It returns the verdict.
func Apply(p *layout.Plan) string {
	c := choose(context.Background(), p)
	p.Feeds = nil
	if c.pr == nil || len(c.pr.nodes) == 0 {
		return c.verdict
	}
	var r Result
	r.fill(c.pr, c.at)
	p.Feeds = layout.Feeds{}
	for i := range p.Lineups {
		l := p.Lineups[i].Name
		p.Feeds[l] = map[string]layout.JackRef{}
		for _, a := range r.In(p, l) {
			p.Feeds[l][a.Unit] = layout.JackRef{Unit: a.Supply, Jack: a.Output}
		}
	}
	return c.verdict
}

// In returns the assignments that are there in a line-up.
func (r *Result) In(p *layout.Plan, lineup string) (out []Assignment) {
	l := p.LineupNamed(lineup)
	for _, a := range r.Assignments {
		if a.Lineup == lineup || a.Lineup == "" && l != nil && p.Present(l, a.Unit) {
			out = append(out, a)
		}
	}
	return out
}

// chosen is the map made without places.
type chosen struct {
	pr      *problem
	at      []int // nil without one
	partial bool  // some units are left out
	verdict string
	why     string
	rivals  []rivals
}

// choose finds which outputs are used: the first ones in the plan's order, as
// the rules allow.
func choose(ctx context.Context, p *layout.Plan) chosen {
	ways := wirings(p)
	pr, a := firstOf(ctx, p, ways)
	if len(pr.nodes) == 0 {
		return chosen{pr: pr, verdict: NoSupplies, why: "No unit of the plan gives power, so there is nothing to share out."}
	}
	if a.at != nil {
		c := chosen{pr: pr, at: a.at, verdict: Holds}
		c.forcedVerdict()
		return c
	}
	c := chosen{pr: pr, verdict: Undecided, why: "The steps of the search ran out before a map was found or ruled out: say feed for some units to make it smaller."}
	if a.none {
		c.verdict = Impossible
		c.explain(ctx, a)
		if p.Power.Headroom > 0 {
			q := *p
			q.Power.Headroom = 0
			if pr, b := firstOf(ctx, &q, ways); b.at != nil {
				pr.p = p
				c.pr, c.at, c.verdict = pr, b.at, Tight
				return c
			}
		}
	}
	c.partial = true
	c.pr.priceOrder()
	if c.at = c.pr.solve(ctx, true).at; c.at == nil {
		c.at = slices.Repeat([]int{nowhere}, len(c.pr.demands))
	}
	return c
}

// forcedVerdict: a map that the player's own choices spoil does not hold.
func (c *chosen) forcedVerdict() {
	for _, f := range c.pr.forced {
		if _, level, text := c.pr.misfit(f); level == Fault {
			c.verdict, c.why = Impossible, text
			return
		}
	}
}

// firstOf solves for one wiring of the expanders after the other until a map is
// found; without one it returns what the first wiring came to, as proved only
// if all were.
func firstOf(ctx context.Context, p *layout.Plan, ways []map[string]layout.JackRef) (*problem, answer) {
	var first *problem
	var said answer
	none := true
	for i, w := range ways {
		pr := newProblem(p, w)
		pr.priceOrder()
		a := pr.solve(ctx, false)
		if a.at != nil {
			return pr, a
		}
		if i == 0 {
			first, said = pr, a
		}
		none = none && a.none
	}
	said.none = none
	return first, said
}

// priceOrder makes outputs cheap in the plan's order.
func (pr *problem) priceOrder() {
	pr.improve = orderSteps
	for i := range pr.demands {
		d := &pr.demands[i]
		for k := range d.lineups {
			for o := range d.cost[k] {
				d.cost[k][o] = int64(o)
			}
		}
	}
}

// keepTo leaves to each demand the outlets that a map uses in all of the
// demand's line-ups, and none to those that it leaves unfed.
func (pr *problem) keepTo(at []int) {
	used := make([]set, len(pr.rows))
	for l, rows := range pr.rows {
		used[l] = newSet(len(pr.outlets))
		for _, i := range rows {
			if at[i] != nowhere {
				used[l].add(at[i])
			}
		}
	}
	for i := range pr.demands {
		d := &pr.demands[i]
		for w := range d.can {
			for _, l := range d.lineups {
				d.can[w] &= used[l][w]
			}
			if at[i] == nowhere {
				d.can[w] = 0
			}
		}
	}
	pr.classify()
}

// priceLeads makes outputs cheap by short leads and light loads.
func (pr *problem) priceLeads() {
	pr.improve = improveSteps
	places := newPlugs(pr.p)
	for i := range pr.demands {
		d := &pr.demands[i]
		for k, l := range d.lineups {
			for o := range pr.outlets {
				if !d.can.has(o) {
					continue
				}
				run := places.run(l, d.unit, pr.outlets[o].ref)
				most := 0
				for s, st := range pr.outlets[o].settings {
					if d.fit[o]>>s&1 == 1 {
						most = max(most, st.Milliamps)
					}
				}
				d.cost[k][o] = int64(run/(layout.Millimetre/10)) + int64(math.Round(fullLoad*float64(d.unit.Draw.Milliamps)/float64(most)))
			}
		}
	}
}

// fill writes a map into the result.
func (r *Result) fill(pr *problem, at []int) {
	settings, _ := pr.positions(at)
	name := func(lineups []int, u *layout.Unit) string {
		if pr.p.InSlots(u.ID) {
			return pr.p.Lineups[lineups[0]].Name
		}
		return ""
	}
	byUnit := map[*layout.Unit][]Assignment{}
	for i, o := range at {
		d := &pr.demands[i]
		if o == nowhere {
			r.Unfed = append(r.Unfed, Unfed{name(d.lineups, d.unit), d.unit.ID})
			continue
		}
		out := &pr.outlets[o]
		st := out.settings[settings[o]]
		byUnit[d.unit] = append(byUnit[d.unit], Assignment{Lineup: name(d.lineups, d.unit), Unit: d.unit.ID,
			Supply: out.ref.Unit, Output: out.ref.Jack, Millivolts: st.Millivolts, LimitMA: st.Milliamps, AC: out.out.AC,
			Switched: len(out.out.Choices) > 0 || out.out.MaxMillivolts > 0, Milliamps: d.unit.Draw.Milliamps,
			Reversing: d.swapped[o], Chosen: d.unit.Draw.Feed.Unit != ""})
	}
	for _, f := range pr.forced {
		out := &pr.outlets[f.outlet]
		byUnit[f.unit] = append(byUnit[f.unit], Assignment{Lineup: name(f.lineups, f.unit), Unit: f.unit.ID,
			Supply: out.ref.Unit, Output: out.ref.Jack, Millivolts: out.settings[0].Millivolts, LimitMA: out.settings[0].Milliamps,
			AC: out.out.AC, Switched: len(out.settings) > 1, Milliamps: f.unit.Draw.Milliamps, Chosen: true,
			Reversing: f.unit.Draw.Lead == layout.ReversingLead})
	}
	r.fillLoads(pr, at, settings, byUnit)
	for l := -1; l < len(pr.p.Lineups); l++ {
		lineup := ""
		if l >= 0 {
			lineup = pr.p.Lineups[l].Name
		}
		for i := range pr.p.Units {
			for _, a := range byUnit[&pr.p.Units[i]] {
				if a.Lineup == lineup {
					r.Assignments = append(r.Assignments, a)
				}
			}
		}
	}
}

// fillLoads adds what supplies give in each line-up, and the links of
// expanders at the most that any line-up asks of them.
func (r *Result) fillLoads(pr *problem, at, settings []int, byUnit map[*layout.Unit][]Assignment) {
	most := make([]int64, len(pr.nodes))
	for l := range pr.p.Lineups {
		for n, w := range pr.load(at, settings, l) {
			u := pr.nodes[n].unit
			if !pr.p.Present(&pr.p.Lineups[l], u.ID) {
				continue
			}
			most[n] = max(most[n], w)
			r.Loads = append(r.Loads, Load{pr.p.Lineups[l].Name, u.ID, float64(w) / 1000, float64(pr.nodes[n].bound()) / 1000})
		}
	}
	for n := range pr.nodes {
		e := &pr.nodes[n]
		if e.parent < 0 {
			continue
		}
		a := Assignment{Unit: e.unit.ID, Supply: e.link.Unit, Output: e.link.Jack, Link: true, AC: e.unit.Draw.AC,
			Millivolts: e.unit.Draw.Millivolts, LimitMA: e.unit.Draw.Milliamps, Chosen: e.unit.Draw.Feed.Unit != ""}
		if e.rated != nil {
			a.Millivolts, a.LimitMA = e.rated.Millivolts, min(e.rated.Milliamps, a.LimitMA)
		}
		a.Milliamps = int((most[n]*1000 + int64(a.Millivolts) - 1) / int64(a.Millivolts))
		if !pr.p.InSlots(e.unit.ID) {
			byUnit[e.unit] = append(byUnit[e.unit], a)
			continue
		}
		for l := range pr.p.Lineups {
			if pr.p.Present(&pr.p.Lineups[l], e.unit.ID) {
				a.Lineup = pr.p.Lineups[l].Name
				byUnit[e.unit] = append(byUnit[e.unit], a)
			}
		}
	}
}

package power

import (
	"cmp"
	"math/bits"
	"slices"

	"footplank/layout"
)

// outlet is one output of a supply or an expander.
type outlet struct {
	ref      layout.JackRef
	out      *layout.Output
	settings []layout.Setting // the positions that can matter, lowest first
	zone     int              // outputs of one zone share a ground
	node     int              // its supply, in problem.nodes
}

// node is a supply or an expander in the tree of who feeds whom.
type node struct {
	unit   *layout.Unit
	parent int            // the node whose link feeds it, or -1
	link   layout.JackRef // that link
	rated  *layout.Output // nil for a link of unknown rating
	dead   bool           // an expander without a link
	there  []bool         // by line-up
	// unbounded lifts the rule of watts, to see whether it is in the way.
	unbounded bool
}

// demand is a unit that needs one output in each of its line-ups: the same one.
type demand struct {
	unit    *layout.Unit
	lineups []int
	can     set       // outlets it may take
	fit     []uint64  // for each outlet, its settings that suit the unit
	alone   []bool    // for each outlet, whether its zone may feed nothing else
	swapped []bool    // for each outlet, whether a reversing lead is needed
	cost    [][]int64 // for each of its line-ups and each outlet
}

// part returns which of the demand's line-ups that one is.
func (d *demand) part(lineup int) int {
	if len(d.lineups) == 1 {
		return 0
	}
	return slices.Index(d.lineups, lineup)
}

// problem is the whole task: every line-up at once.
type problem struct {
	p       *layout.Plan
	share   bool
	spare   int // percent
	nodes   []node
	outlets []outlet
	demands []demand
	rows    [][]int // for each line-up, its demands
	row     [][]int // for each line-up and demand, its row there, or -1
	forced  []forced
	class   []int // outlets of one class are interchangeable
	start   []int // a map to begin with, nil for none
	improve int   // steps to spend on a better map than the first
	asks    bool  // whether there is a map is all that is asked
}

// forced is a unit that the player put on an output that does not suit it, or
// on which something else hangs that way: it is not the search's to move.
type forced struct {
	unit    *layout.Unit
	lineups []int
	outlet  int
}

// set is a set of outlets.
type set []uint64

func newSet(n int) set       { return make(set, (n+63)/64) }
func (s set) has(i int) bool { return s[i/64]>>(i%64)&1 == 1 }
func (s set) add(i int)      { s[i/64] |= 1 << (i % 64) }
func (s set) drop(i int)     { s[i/64] &^= 1 << (i % 64) }

func (s set) size() (n int) {
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

func (s set) list() (out []int) {
	for w, b := range s {
		for ; b != 0; b &= b - 1 {
			out = append(out, w*64+bits.TrailingZeros64(b))
		}
	}
	return out
}

// within reports whether a load is within a rating with the headroom kept.
func (pr *problem) within(load, rating int64) bool { return load*100 <= rating*int64(100-pr.spare) }

// newProblem gathers the plan's demands and outlets. links tells which link
// feeds which expander.
func newProblem(p *layout.Plan, links map[string]layout.JackRef) *problem {
	pr := &problem{p: p, share: p.Power.Sharing, spare: p.Power.Headroom, rows: make([][]int, len(p.Lineups)), improve: improveSteps}
	pr.addNodes(links)
	pr.addOutlets()
	for i := range p.Units {
		if u := &p.Units[i]; u.Fed() {
			pr.addUnit(u)
		}
	}
	pr.blockForced()
	pr.addRows()
	pr.classify()
	return pr
}

func (pr *problem) addRows() {
	pr.row = make([][]int, len(pr.rows))
	for l := range pr.row {
		pr.row[l] = slices.Repeat([]int{-1}, len(pr.demands))
	}
	for i := range pr.demands {
		for _, l := range pr.demands[i].lineups {
			pr.row[l][i] = len(pr.rows[l])
			pr.rows[l] = append(pr.rows[l], i)
		}
	}
}

func (pr *problem) addNodes(links map[string]layout.JackRef) {
	at := map[string]int{}
	for i := range pr.p.Units {
		if u := &pr.p.Units[i]; u.Supplies() {
			at[u.ID] = len(pr.nodes)
			there := make([]bool, len(pr.p.Lineups))
			for l := range there {
				there[l] = pr.p.Present(&pr.p.Lineups[l], u.ID)
			}
			pr.nodes = append(pr.nodes, node{unit: u, parent: -1, there: there})
		}
	}
	for i := range pr.nodes {
		n := &pr.nodes[i]
		if !n.unit.Expander() {
			continue
		}
		ref, ok := links[n.unit.ID]
		if !ok {
			n.dead = true
			continue
		}
		n.parent, n.link = at[ref.Unit], ref
		n.rated = pr.nodes[n.parent].unit.Output(ref.Jack)
	}
	for i := range pr.nodes { // what hangs on a dead expander is dead too
		for j := i; j >= 0; j = pr.nodes[j].parent {
			pr.nodes[i].dead = pr.nodes[i].dead || pr.nodes[j].dead
		}
	}
}

func (pr *problem) addOutlets() {
	zones := map[[2]string]int{}
	for i := range pr.nodes {
		u := pr.nodes[i].unit
		for j := range u.Outputs {
			o := &u.Outputs[j]
			if o.Link || pr.nodes[i].dead {
				continue
			}
			key := [2]string{u.ID, "ground " + o.Group}
			if o.Isolated {
				key[1] = "jack " + o.Jack
			}
			if _, ok := zones[key]; !ok {
				zones[key] = len(zones)
			}
			pr.outlets = append(pr.outlets, outlet{ref: layout.JackRef{Unit: u.ID, Jack: o.Jack}, out: o,
				settings: pr.settings(o), zone: zones[key], node: i})
		}
	}
}

// settings returns the positions of an output that can matter. Of a range those
// are the voltages at which one of the units starts to work, and the lower end:
// what suits several units at once suits them at one of these.
func (pr *problem) settings(o *layout.Output) []layout.Setting {
	out := []layout.Setting{{Millivolts: o.Millivolts, Milliamps: o.Milliamps}}
	out = append(out, o.Choices...)
	if o.MaxMillivolts > o.Millivolts {
		for i := range pr.p.Units {
			d := pr.p.Units[i].Draw
			if d != nil && d.Millivolts > o.Millivolts && d.Millivolts <= o.MaxMillivolts {
				out = append(out, layout.Setting{Millivolts: d.Millivolts, Milliamps: o.Milliamps})
			}
		}
	}
	slices.SortFunc(out, func(a, b layout.Setting) int {
		return cmp.Or(cmp.Compare(a.Millivolts, b.Millivolts), cmp.Compare(b.Milliamps, a.Milliamps))
	})
	out = slices.CompactFunc(out, func(a, b layout.Setting) bool { return a.Millivolts == b.Millivolts })
	return out[:min(len(out), 64)]
}

// addUnit adds the demand of a unit, or the demands of one that changes.
func (pr *problem) addUnit(u *layout.Unit) {
	var here []int
	for l := range pr.p.Lineups {
		if pr.p.Present(&pr.p.Lineups[l], u.ID) {
			here = append(here, l)
		}
	}
	if len(here) == 0 {
		return
	}
	groups := [][]int{here}
	if pr.p.InSlots(u.ID) {
		groups = nil
		for _, l := range here {
			groups = append(groups, []int{l})
		}
	}
	for _, g := range groups {
		d := pr.newDemand(u, g)
		if feed := u.Draw.Feed; feed.Unit != "" && len(d.can.list()) == 0 {
			if o := slices.IndexFunc(pr.outlets, func(o outlet) bool { return o.ref == feed }); o >= 0 && pr.present(o, g) {
				pr.forced = append(pr.forced, forced{u, g, o})
				continue
			}
		}
		pr.demands = append(pr.demands, d)
	}
}

func (pr *problem) newDemand(u *layout.Unit, lineups []int) demand {
	n := len(pr.outlets)
	d := demand{unit: u, lineups: lineups, can: newSet(n), fit: make([]uint64, n), alone: make([]bool, n), swapped: make([]bool, n)}
	for range lineups {
		d.cost = append(d.cost, make([]int64, n))
	}
	for o := range pr.outlets {
		out := &pr.outlets[o]
		if feed := u.Draw.Feed; feed.Unit != "" && feed != out.ref || !pr.present(o, lineups) {
			continue
		}
		swapped, ok := reversal(u.Draw, out.out)
		d.swapped[o] = swapped
		d.alone[o] = u.Draw.Isolated || swapped
		if !ok {
			continue
		}
		if d.fit[o] = pr.suits(u.Draw, out); d.fit[o] != 0 {
			d.can.add(o)
		}
	}
	return d
}

// present reports whether the outlet's supply is there in all those line-ups.
func (pr *problem) present(o int, lineups []int) bool {
	there := pr.nodes[pr.outlets[o].node].there
	return !slices.ContainsFunc(lineups, func(l int) bool { return !there[l] })
}

// reversal tells whether the unit needs a reversing lead at an output, and
// whether it may be used there: not on AC in the place of DC, not without the
// lead that the player says there is. A unit that the player feeds from an
// output of the other polarity and gives no lead for is refused too.
func reversal(d *layout.Draw, o *layout.Output) (swapped, ok bool) {
	if d.AC != o.AC {
		return false, false
	}
	swapped = !d.AC && d.CentrePositive != o.CentrePositive
	switch {
	case d.AC:
		return false, true
	case d.Lead == layout.PlainLead, d.Lead == layout.AnyLead && d.Feed.Unit != "":
		return swapped, !swapped
	case d.Lead == layout.ReversingLead:
		return swapped, swapped
	}
	return swapped, true
}

// suits returns the positions of an output at which it feeds the unit.
func (pr *problem) suits(d *layout.Draw, o *outlet) (mask uint64) {
	for i, s := range o.settings {
		if d.Takes(s.Millivolts) && pr.within(int64(d.Milliamps), int64(s.Milliamps)) {
			mask |= 1 << i
		}
	}
	return mask
}

// blockForced takes the outlets of forced units from all that meet them.
func (pr *problem) blockForced() {
	for _, f := range pr.forced {
		for i := range pr.demands {
			d := &pr.demands[i]
			if slices.ContainsFunc(d.lineups, func(l int) bool { return slices.Contains(f.lineups, l) }) {
				d.can.drop(f.outlet)
			}
		}
	}
}

// classify puts outlets that no rule and no demand tells apart into classes.
func (pr *problem) classify() {
	pr.class = make([]int, len(pr.outlets))
	for o := range pr.outlets {
		pr.class[o] = o
		for c := range o {
			if pr.class[c] == c && pr.alike(c, o) {
				pr.class[o] = c
				break
			}
		}
	}
}

func (pr *problem) alike(a, b int) bool {
	x, y := &pr.outlets[a], &pr.outlets[b]
	if x.node != y.node || !slices.Equal(x.settings, y.settings) || x.out.Isolated != y.out.Isolated || !x.out.Isolated && x.zone != y.zone {
		return false
	}
	for i := range pr.demands {
		d := &pr.demands[i]
		if d.can.has(a) != d.can.has(b) || d.fit[a] != d.fit[b] || d.alone[a] != d.alone[b] {
			return false
		}
	}
	return true
}

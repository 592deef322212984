package power

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// A plan with a supply of so many outputs and units that draw; what a test
// changes is the rest.
func supplyOf(id string, outputs ...layout.Output) layout.Unit {
	u := layout.Unit{ID: id, Label: id, Body: layout.Size{W: 150 * layout.Millimetre, D: 60 * layout.Millimetre, H: 30 * layout.Millimetre},
		Jacks: []layout.Jack{{ID: "mains", Kind: layout.Mains, Signal: layout.Line, Dir: layout.In}}}
	for i, o := range outputs {
		if o.Jack == "" {
			o.Jack = fmt.Sprintf("o%d", i+1)
		}
		if o.Millivolts == 0 {
			o.Millivolts = 9000
		}
		u.Outputs = append(u.Outputs, o)
		u.Jacks = append(u.Jacks, layout.Jack{ID: o.Jack, Kind: layout.DC, Signal: layout.Power, Dir: layout.Out, Along: layout.Length(i) * 20 * layout.Millimetre})
	}
	return u
}

func drawing(id string, d layout.Draw) layout.Unit {
	if d.Millivolts == 0 {
		d.Millivolts = 9000
	}
	return layout.Unit{ID: id, Label: id, Draw: &d, Body: layout.Size{W: 60 * layout.Millimetre, D: 110 * layout.Millimetre, H: 50 * layout.Millimetre},
		Jacks: []layout.Jack{{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back}}}
}

func planOf(units ...layout.Unit) *layout.Plan {
	return &layout.Plan{Units: units, Lineups: []layout.Lineup{{Name: "one"}}, Slots: []layout.Slot{{Name: "s"}},
		Board: layout.Board{W: 500 * layout.Millimetre, D: 300 * layout.Millimetre}}
}

// small is a random plan that plain search can try in full.
func small(t *rapid.T) *layout.Plan {
	pick := func(name string, of ...int) int { return rapid.SampledFrom(of).Draw(t, name) }
	flag := func(name string, oneIn int) bool { return rapid.IntRange(1, oneIn).Draw(t, name) == 1 }
	output := func() layout.Output {
		o := layout.Output{Millivolts: pick("mV", 9000, 9000, 12000), Milliamps: pick("mA", 100, 200, 300),
			Isolated: flag("isolated", 2), AC: flag("ac", 8), CentrePositive: flag("positive", 6)}
		if !o.Isolated {
			o.Group = rapid.SampledFrom([]string{"", "g"}).Draw(t, "group")
		}
		switch pick("kind", 0, 0, 0, 1, 2) {
		case 1:
			o.Choices = []layout.Setting{{Millivolts: 18000, Milliamps: 100}}
		case 2:
			o.MaxMillivolts = 18000
		}
		return o
	}
	var supplies []layout.Unit
	left := 4
	for s := range pick("supplies", 1, 1, 2) {
		var outs []layout.Output
		for range rapid.IntRange(1, min(3, left)).Draw(t, "outputs") {
			outs = append(outs, output())
			left--
		}
		u := supplyOf(fmt.Sprintf("s%d", s), outs...)
		u.Milliwatts = pick("mW", 0, 0, 2000, 4000, 6000)
		supplies = append(supplies, u)
		if left == 0 {
			break
		}
	}
	if len(supplies) == 2 && flag("expander", 3) {
		supplies[1].Draw = &layout.Draw{Millivolts: 24000, Milliamps: pick("link", 60, 150, 500)}
		supplies[1].Jacks[0] = layout.Jack{ID: "link", Kind: layout.DC, Signal: layout.Power, Dir: layout.In}
		supplies[0].Outputs = append(supplies[0].Outputs, layout.Output{Jack: "l", Millivolts: 24000, Milliamps: 400, Link: true})
		supplies[0].Jacks = append(supplies[0].Jacks, layout.Jack{ID: "l", Kind: layout.DC, Signal: layout.Power, Dir: layout.Out})
	}
	p := planOf(supplies...)
	p.Power = layout.PowerRules{Sharing: flag("sharing", 3), Headroom: pick("headroom", 0, 20)}
	p.Lineups = nil
	for l := range rapid.IntRange(1, 3).Draw(t, "lineups") {
		p.Lineups = append(p.Lineups, layout.Lineup{Name: fmt.Sprint("l", l), Fill: map[string][]string{}})
	}
	demands, most, swaps := 0, 5, 3
	if flag("few that stay", 2) {
		most, swaps = 7, 1
	}
	for n := 0; demands < most && n < rapid.IntRange(1, 5).Draw(t, "units"); n++ {
		d := layout.Draw{Millivolts: pick("draw mV", 9000, 9000, 9000, 12000), Milliamps: pick("draw mA", 40, 80, 120),
			AC: flag("draw ac", 8), CentrePositive: flag("draw positive", 6), Isolated: flag("alone", 5)}
		if flag("wide", 4) {
			d.MaxMillivolts = 18000
		}
		u := drawing(fmt.Sprint("u", n), d)
		fixed := true
		for l := range p.Lineups {
			if demands < most && flag("swap", swaps) {
				p.Lineups[l].Fill["s"] = append(p.Lineups[l].Fill["s"], u.ID)
				fixed = false
				demands++
			}
		}
		if fixed {
			demands++
		}
		p.Units = append(p.Units, u)
	}
	return p
}

// plainRules says whether a whole map keeps the rules, read off the plan alone:
// at gives each demand's outlet. Every position of every switch is tried.
func plainRules(pr *problem, at []int) bool {
	p := pr.p
	settings := make([]int, len(pr.outlets)) // volts of each outlet
	var try func(o int) bool
	try = func(o int) bool {
		if o == len(pr.outlets) {
			return plainHolds(pr, at, settings)
		}
		out := pr.outlets[o].out
		volts := []int{out.Millivolts}
		for _, c := range out.Choices {
			volts = append(volts, c.Millivolts)
		}
		for v := out.Millivolts; v <= out.MaxMillivolts; v += 1000 {
			volts = append(volts, v)
		}
		if !slices.Contains(at, o) {
			volts = volts[:1]
		}
		for _, v := range volts {
			settings[o] = v
			if try(o + 1) {
				return true
			}
		}
		return false
	}
	_ = p
	return try(0)
}

func plainHolds(pr *problem, at, millivolts []int) bool {
	keep := func(load, rating float64) bool { return load <= rating*float64(100-pr.p.Power.Headroom)/100+1e-9 }
	for l := range pr.p.Lineups {
		type fed struct {
			d    *layout.Draw
			o    int
			flip bool
		}
		var all []fed
		for i, o := range at {
			if o != nowhere && slices.Contains(pr.demands[i].lineups, l) {
				d, out := pr.demands[i].unit.Draw, pr.outlets[o].out
				if d.AC != out.AC || millivolts[o] < d.Millivolts || millivolts[o] > max(d.Millivolts, d.MaxMillivolts) {
					return false
				}
				all = append(all, fed{d, o, !d.AC && d.CentrePositive != out.CentrePositive})
			}
		}
		amps, watts := map[int]float64{}, map[string]float64{}
		for x, a := range all {
			amps[a.o] += float64(a.d.Milliamps)
			watts[pr.outlets[a.o].ref.Unit] += float64(a.d.Milliamps) * float64(millivolts[a.o]) / 1e6
			for _, b := range all[:x] {
				if a.o == b.o && !pr.p.Power.Sharing {
					return false
				}
				oa, ob := pr.outlets[a.o], pr.outlets[b.o]
				ground := a.o == b.o || oa.ref.Unit == ob.ref.Unit && !oa.out.Isolated && !ob.out.Isolated && oa.out.Group == ob.out.Group
				if ground && (a.d.Isolated || b.d.Isolated || a.flip || b.flip) {
					return false
				}
			}
		}
		for o, w := range amps {
			out := pr.outlets[o].out
			rating := out.Milliamps
			for _, c := range out.Choices {
				if c.Millivolts == millivolts[o] {
					rating = c.Milliamps
				}
			}
			if !keep(w, float64(rating)) {
				return false
			}
		}
		for i := range pr.p.Units {
			if u := &pr.p.Units[i]; u.Expander() {
				if !keep(watts[u.ID], 24*float64(min(400, u.Draw.Milliamps))/1000) {
					return false
				}
				watts["s0"] += watts[u.ID]
			}
		}
		for id, w := range watts {
			if top := pr.p.Unit(id).Milliwatts; top > 0 && !keep(w, float64(top)/1000) {
				return false
			}
		}
	}
	return true
}

// rank is what makes one map better than another, what counts more first: units
// without an output, further units on an output, reversing leads plugged, further
// outputs of units that change, and outputs' own costs.
type rank [5]int64

// plainRank reads the rank of a map off the plan.
func plainRank(pr *problem, at []int) (r rank) {
	outputs := map[*layout.Unit]map[int]bool{}
	for i, o := range at {
		d := &pr.demands[i]
		if outputs[d.unit] == nil {
			outputs[d.unit] = map[int]bool{}
		}
		for k := range d.lineups {
			if o == nowhere {
				r[0]++
				r[4] += int64(len(at) - i)
				continue
			}
			if !d.unit.Draw.AC && d.unit.Draw.CentrePositive != pr.outlets[o].out.CentrePositive {
				r[2]++
			}
			r[4] += d.cost[k][o]
			outputs[d.unit][o] = true
		}
	}
	for _, of := range outputs {
		r[3] += int64(max(len(of)-1, 0))
	}
	for l := range pr.rows {
		on := map[int]int64{}
		for _, i := range pr.rows[l] {
			if at[i] != nowhere {
				r[1] += on[at[i]]
				on[at[i]]++
			}
		}
	}
	return r
}

// plainBest tries every map, also those that leave units without an output if
// that may be: the least rank, and whether there is one.
func plainBest(pr *problem, leave bool) (best rank, found bool) {
	at := make([]int, len(pr.demands))
	var place func(i int)
	place = func(i int) {
		if i == len(at) {
			r := plainRank(pr, at)
			if (!found || slices.Compare(r[:], best[:]) < 0) && plainRules(pr, at) {
				best, found = r, true
			}
			return
		}
		for o := range pr.outlets {
			if at[i] = o; pr.p.Power.Sharing || !meets(pr, at[:i+1]) {
				place(i + 1)
			}
		}
		if leave {
			at[i] = nowhere
			place(i + 1)
		}
	}
	place(0)
	return best, found
}

// meets reports whether the last demand is on an output that one before it has in
// a line-up of both.
func meets(pr *problem, at []int) bool {
	last := len(at) - 1
	for i, o := range at[:last] {
		if o == at[last] && slices.ContainsFunc(pr.demands[i].lineups, func(l int) bool { return slices.Contains(pr.demands[last].lineups, l) }) {
			return true
		}
	}
	return false
}

// randomCosts gives the outlets of a problem costs of their own.
func randomCosts(t *rapid.T, pr *problem) {
	for i := range pr.demands {
		for k := range pr.demands[i].cost {
			for o := range pr.demands[i].cost[k] {
				pr.demands[i].cost[k][o] = int64(rapid.IntRange(0, 9).Draw(t, "cost"))
			}
		}
	}
}

// The search against trying everything, by rules written a second time.
func TestSearchFindsTheBestMap(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		pr := newProblem(p, wirings(p)[0])
		randomCosts(t, pr)
		want, some := plainBest(pr, false)
		got := pr.solve(context.Background(), false)
		if !some {
			none++
			require.Nil(t, got.at)
			require.True(t, got.none, "and it is proved")
			return
		}
		found++
		require.NotNil(t, got.at)
		require.True(t, got.best)
		require.True(t, plainRules(pr, got.at))
		require.Equal(t, want, plainRank(pr, got.at))
	})
	require.Positive(t, found)
	require.Positive(t, none)
}

// crowded is a random plan of units that come and go on few outputs, so that
// often some of them must change outputs.
func crowded(t *rapid.T) *layout.Plan {
	outs := make([]layout.Output, rapid.IntRange(2, 3).Draw(t, "outputs"))
	for o := range outs {
		outs[o] = layout.Output{Isolated: true, Milliamps: rapid.SampledFrom([]int{100, 100, 300}).Draw(t, "mA")}
	}
	p := planOf(supplyOf("s", outs...))
	p.Lineups = nil
	for n := range 5 {
		p.Units = append(p.Units, drawing(fmt.Sprint("u", n), layout.Draw{Milliamps: rapid.SampledFrom([]int{50, 50, 50, 200}).Draw(t, "draw")}))
	}
	for l := range 3 {
		who := rapid.Permutation([]string{"u0", "u1", "u2", "u3", "u4"}).Draw(t, "who")[:len(outs)]
		p.Lineups = append(p.Lineups, layout.Lineup{Name: fmt.Sprint("l", l), Fill: map[string][]string{"s": who}})
	}
	return p
}

// A unit of a slot keeps its output where any map lets it.
func TestSearchChangesAsFewOutputsAsCanBe(t *testing.T) {
	changing := 0
	rapid.Check(t, func(t *rapid.T) {
		p := crowded(t)
		pr := newProblem(p, nil)
		randomCosts(t, pr)
		want, some := plainBest(pr, false)
		got := pr.solve(context.Background(), false)
		require.Equal(t, !some, got.none)
		if some {
			require.True(t, got.best)
			require.Equal(t, want, plainRank(pr, got.at))
			changing += int(want[3])
		}
	})
	require.Positive(t, changing)
}

// The same where units may be left without an output.
func TestSearchFeedsAsManyAsCanBe(t *testing.T) {
	left := 0
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		pr := newProblem(p, wirings(p)[0])
		if len(pr.demands) > 5 {
			t.Skip("too many maps to try")
		}
		randomCosts(t, pr)
		want, some := plainBest(pr, true)
		require.True(t, some)
		got := pr.solve(context.Background(), true)
		require.NotNil(t, got.at)
		require.True(t, got.best)
		require.True(t, plainRules(pr, got.at))
		require.Equal(t, want, plainRank(pr, got.at))
		if want[0] > 0 {
			left++
		}
	})
	require.Positive(t, left)
}

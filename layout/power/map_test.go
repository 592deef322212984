package power

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

func mapped(t require.TestingT, p *layout.Plan) *Result {
	r, err := Map(context.Background(), p)
	require.NoError(t, err)
	return r
}

// outputs lists who is on what: "a s/o1".
func outputs(r *Result) (out []string) {
	for _, a := range r.Assignments {
		out = append(out, fmt.Sprintf("%s%s %s/%s", map[bool]string{true: a.Lineup + ": "}[a.Lineup != ""], a.Unit, a.Supply, a.Output))
	}
	return out
}

func codes(r *Result) (out []string) {
	for _, i := range r.Issues {
		out = append(out, i.Code)
	}
	return out
}

var nine = layout.Output{Milliamps: 100, Isolated: true}

func TestFixedUnitsKeepTheirOutput(t *testing.T) {
	strong := layout.Output{Milliamps: 500, Isolated: true}
	p := planOf(supplyOf("s", strong, nine, nine), drawing("fix", layout.Draw{Milliamps: 50}),
		drawing("weak", layout.Draw{Milliamps: 50}), drawing("thirsty", layout.Draw{Milliamps: 300}))
	p.Lineups = []layout.Lineup{{Name: "a", Fill: map[string][]string{"s": {"weak"}}}, {Name: "b", Fill: map[string][]string{"s": {"thirsty"}}}}
	p.Power.Headroom = 20
	r := mapped(t, p)
	require.Equal(t, Holds, r.Verdict)
	assert.True(t, r.Best)
	assert.Equal(t, "fix s/o2", outputs(r)[0], "the strong output is for the unit that comes in b")
	assert.Contains(t, outputs(r), "b: thirsty s/o1")
	assert.Empty(t, r.Issues)
	assert.NotEmpty(t, r.Cautions)
	assert.Equal(t, "b", r.Loads[1].Lineup)
	assert.InDelta(t, 3.15, r.Loads[1].Watts, 1e-9, "9 V x 350 mA")
}

// Common practice, no source: near outputs make short leads.
func TestShortLeads(t *testing.T) {
	a, b := drawing("left", layout.Draw{Milliamps: 50}), drawing("right", layout.Draw{Milliamps: 50})
	s := supplyOf("s", nine, nine)
	at := func(u *layout.Unit, x layout.Length) {
		u.Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: x * layout.Millimetre}}
	}
	at(&a, 300)
	at(&b, 0)
	at(&s, 150)
	r := mapped(t, planOf(s, a, b))
	assert.Equal(t, []string{"left s/o2", "right s/o1"}, outputs(r))
	for _, d := range r.Leads {
		assert.Equal(t, d.Run+50*layout.Millimetre+max(d.Run/10, 20*layout.Millimetre), d.Cut)
	}
	p := planOf(s, a, b)
	assert.Equal(t, Holds, Apply(p))
	assert.Equal(t, layout.JackRef{Unit: "s", Jack: "o1"}, p.Feeds["one"]["left"], "what is used does not hang on places")
}

func TestWhoCompetes(t *testing.T) {
	p := planOf(supplyOf("shed", nine, nine, layout.Output{Millivolts: 18000, Milliamps: 100, Isolated: true}),
		drawing("a", layout.Draw{Milliamps: 50}), drawing("b", layout.Draw{Milliamps: 50}), drawing("c", layout.Draw{Milliamps: 50}),
		drawing("high", layout.Draw{Millivolts: 18000, Milliamps: 50}))
	r := mapped(t, p)
	assert.Equal(t, Impossible, r.Verdict)
	assert.Equal(t, `In line-up one 3 units compete for 2 outputs. Units: a, b and c. Outputs: "o1" of shed and "o2" of shed. No other output suits any of these units.`, r.Why)
	assert.Equal(t, []Unfed{{"", "c"}}, r.Unfed)
	assert.Equal(t, []string{NoOutput}, codes(r))
	assert.Equal(t, []string{"c", "a", "b"}, r.Issues[0].Units)
	assert.Contains(t, outputs(r), "high shed/o3", "the others are fed all the same")

	p = planOf(supplyOf("shed", nine), drawing("x", layout.Draw{Milliamps: 50, Millivolts: 12000}))
	assert.Equal(t, "No output suits x: it needs 12 V DC, 50 mA, and no output gives that voltage.", mapped(t, p).Why)
	p = planOf(supplyOf("shed", nine), drawing("x", layout.Draw{Milliamps: 50, AC: true}))
	assert.Equal(t, "No output suits x: it needs 9 V AC, 50 mA, and no output gives AC.", mapped(t, p).Why)
	p = planOf(supplyOf("shed", nine), drawing("x", layout.Draw{Milliamps: 500}))
	p.Power.Headroom = 20
	assert.Equal(t, "No output suits x: it needs 9 V DC, 500 mA, and with 20 % kept spare no output gives more than 80 mA.", mapped(t, p).Why)
}

// NEC 210.20 by analogy: 80 mA of 100 is the most with 20 % spare.
func TestHeadroom(t *testing.T) {
	for draw, want := range map[int]string{80: Holds, 81: Tight, 100: Tight, 101: Impossible} {
		p := planOf(supplyOf("s", nine), drawing("x", layout.Draw{Milliamps: draw}))
		p.Power.Headroom = 20
		r := mapped(t, p)
		assert.Equal(t, want, r.Verdict, draw)
		if want == Tight {
			require.Equal(t, []string{LittleHeadroom}, codes(r))
			assert.Equal(t, 80.0, r.Issues[0].Limit)
			assert.Equal(t, Caution, r.Issues[0].Level)
		}
	}
}

// A rule over several units that no matching sees is named.
func TestWhichRuleIsInTheWay(t *testing.T) {
	shared := layout.Output{Milliamps: 100, Group: "g"}
	p := planOf(supplyOf("s", shared, shared), drawing("a", layout.Draw{Milliamps: 50, Isolated: true}), drawing("b", layout.Draw{Milliamps: 50}))
	r := mapped(t, p)
	assert.Equal(t, Impossible, r.Verdict)
	assert.Contains(t, r.Why, "There would be one if no unit needed a ground of its own.")

	p = planOf(supplyOf("s", nine, nine, nine), drawing("a", layout.Draw{Milliamps: 50}), drawing("b", layout.Draw{Milliamps: 50}))
	p.Unit("s").Milliwatts = 800
	r = mapped(t, p)
	assert.Equal(t, Impossible, r.Verdict, "0.9 W of 0.8 W")
	assert.Contains(t, r.Why, "There would be one if the supplies gave more watts.")

	wide := layout.Output{Milliamps: 100, Isolated: true, Choices: []layout.Setting{{Millivolts: 12000, Milliamps: 100}}}
	p = planOf(supplyOf("s", wide), drawing("low", layout.Draw{Milliamps: 50}), drawing("high", layout.Draw{Milliamps: 50, Millivolts: 12000}))
	p.Lineups = []layout.Lineup{{Name: "a", Fill: map[string][]string{"s": {"low"}}}, {Name: "b", Fill: map[string][]string{"s": {"high"}}}}
	assert.Equal(t, Impossible, mapped(t, p).Verdict, "a switch is set once, not between tunes")
}

func TestSharingIsTheLastResort(t *testing.T) {
	p := planOf(supplyOf("s", layout.Output{Milliamps: 300, Isolated: true}, nine), drawing("a", layout.Draw{Milliamps: 50}),
		drawing("b", layout.Draw{Milliamps: 50}), drawing("c", layout.Draw{Milliamps: 60}))
	require.Equal(t, Impossible, mapped(t, p).Verdict)
	p.Power.Sharing = true
	r := mapped(t, p)
	require.Equal(t, Holds, r.Verdict)
	n := map[string]int{}
	for _, a := range r.Assignments {
		n[a.Output]++
	}
	assert.Equal(t, map[string]int{"o1": 2, "o2": 1}, n, "as few share as need to")
	many := planOf(supplyOf("s", layout.Output{Milliamps: 300, Isolated: true}))
	many.Power.Sharing = true
	for i := range 12 {
		many.Units = append(many.Units, drawing(fmt.Sprint("u", i), layout.Draw{Milliamps: 25}))
	}
	assert.Equal(t, Holds, mapped(t, many).Verdict, "twelve times 25 mA on 300 mA")
	p.Unit("a").Draw.Isolated, p.Unit("b").Draw.Isolated = true, true
	assert.Equal(t, Impossible, mapped(t, p).Verdict)
}

func TestExpander(t *testing.T) {
	s := supplyOf("s", nine, layout.Output{Jack: "l", Millivolts: 24000, Milliamps: 50, Link: true})
	e := supplyOf("e", nine, nine)
	e.Draw = &layout.Draw{Millivolts: 24000, Milliamps: 1000}
	e.Jacks[0] = layout.Jack{ID: "link", Kind: layout.DC, Signal: layout.Power, Dir: layout.In}
	units := []layout.Unit{s, e, drawing("a", layout.Draw{Milliamps: 60}), drawing("b", layout.Draw{Milliamps: 60}), drawing("c", layout.Draw{Milliamps: 60})}
	r := mapped(t, planOf(units...))
	require.Equal(t, Holds, r.Verdict, "1.08 W on a link of 1.2 W")
	i := slices.IndexFunc(r.Assignments, func(a Assignment) bool { return a.Link })
	assert.Equal(t, Assignment{Unit: "e", Supply: "s", Output: "l", Millivolts: 24000, Milliamps: 45, LimitMA: 50, Link: true}, r.Assignments[i])

	units[0].Outputs[1].Milliamps = 40 // 0.96 W
	assert.Contains(t, mapped(t, planOf(units...)).Why, "watts")
	units[0].Outputs = units[0].Outputs[:1]
	units[0].Jacks = units[0].Jacks[:2]
	assert.Contains(t, codes(mapped(t, planOf(units...))), NoLink)
}

// What a player puts where it does not belong is said so that it cannot be
// misread, and everything else is fed around it.
func TestWrongChoices(t *testing.T) {
	feed := layout.JackRef{Unit: "s", Jack: "o1"}
	for _, c := range []struct {
		draw  layout.Draw
		out   layout.Output
		code  string
		words string
	}{
		{layout.Draw{}, layout.Output{AC: true}, AcIntoDc, `DO NOT PLUG IN: "o1" of s gives AC and x takes DC.`},
		{layout.Draw{AC: true}, layout.Output{}, DcIntoAc, `DO NOT PLUG IN: "o1" of s gives DC and x takes AC.`},
		{layout.Draw{}, layout.Output{Millivolts: 18000}, OverVoltage, `DO NOT PLUG IN: "o1" of s gives 18 V and x takes no more than 9 V.`},
		{layout.Draw{Millivolts: 18000}, layout.Output{}, UnderVoltage, `"o1" of s gives 9 V and x needs 18 V`},
		{layout.Draw{CentrePositive: true}, layout.Output{}, ReversedPolarity, `DO NOT PLUG IN with a plain lead: "o1" of s is centre-negative and x is centre-positive.`},
		{layout.Draw{Lead: layout.ReversingLead}, layout.Output{}, ReversedPolarity, `DO NOT PLUG IN with a reversing lead: "o1" of s and x are both centre-negative.`},
		{layout.Draw{Milliamps: 150}, layout.Output{}, Overload, `x draws 150 mA and "o1" of s gives 100 mA at most`},
		{layout.Draw{Milliamps: 90}, layout.Output{}, LittleHeadroom, `x draws 90 mA of the 100 mA`},
		{layout.Draw{CentrePositive: true, Lead: layout.ReversingLead}, layout.Output{}, "", ""},
		{layout.Draw{MaxMillivolts: 18000}, layout.Output{Millivolts: 12000}, "", ""},
	} {
		c.draw.Feed, c.out.Isolated, c.out.Milliamps = feed, true, 100
		if c.draw.Milliamps == 0 {
			c.draw.Milliamps = 50
		}
		p := planOf(supplyOf("s", c.out, nine), drawing("x", c.draw), drawing("y", layout.Draw{Milliamps: 10}))
		p.Power.Headroom = 20
		r := mapped(t, p)
		assert.Contains(t, outputs(r), "y s/o2", c.code)
		if c.code == "" {
			assert.Empty(t, r.Issues)
			assert.Contains(t, outputs(r), "x s/o1")
			continue
		}
		require.Equal(t, []string{c.code}, codes(r))
		assert.Contains(t, r.Issues[0].Text, c.words)
		assert.Equal(t, c.code == LittleHeadroom, r.Issues[0].Level == Caution)
		assert.Equal(t, c.code != LittleHeadroom, r.Verdict == Impossible)
	}
}

func TestReversingLead(t *testing.T) {
	p := planOf(supplyOf("s", nine, layout.Output{Milliamps: 100, Isolated: true, CentrePositive: true}),
		drawing("x", layout.Draw{Milliamps: 10, CentrePositive: true}))
	r := mapped(t, p)
	assert.Equal(t, []string{"x s/o2"}, outputs(r), "the output of its own polarity")
	p.Unit("s").Outputs[1].AC = true
	r = mapped(t, p)
	assert.Equal(t, []string{ReversingLeadNeeded}, codes(r))
	assert.True(t, r.Leads[0].Reversing)
	p.Unit("x").Draw.Lead = layout.PlainLead
	assert.Equal(t, Impossible, mapped(t, p).Verdict)
}

// A plan without a supply says so once a line-up, not once a unit, from the first
// milliamp on.
func TestNoSupply(t *testing.T) {
	p := planOf(drawing("x", layout.Draw{Milliamps: 0}), drawing("y", layout.Draw{Milliamps: 90, Battery: true}),
		drawing("z", layout.Draw{Milliamps: 30}))
	p.Lineups = []layout.Lineup{{Name: "one"}, {Name: "two", Fill: map[string][]string{"s": {"z"}}}}
	p.Power.Tour = []string{"GB"}
	want := Issue{Code: NoSupply, Level: Caution, Lineup: "two", Units: []string{"z"}, Measured: 30, Unit: "mA",
		Text: "z draws 30 mA, and nothing in the plan gives power. Add a supply, or play on its battery and say so in the plan."}
	assert.Equal(t, []Issue{want}, mapped(t, p).Issues, "x draws nothing, y has its battery")

	p.Unit("x").Draw.Milliamps = 1
	r := mapped(t, p)
	require.Len(t, r.Issues, 2)
	assert.Equal(t, []string{"x"}, r.Issues[0].Units)
	assert.Equal(t, []string{"x", "z"}, r.Issues[1].Units)
	assert.Equal(t, 31.0, r.Issues[1].Measured)
	assert.Contains(t, r.Issues[1].Text, "x and z draw 31 mA")
	p.Unit("y").Draw.Battery = false
	assert.Contains(t, mapped(t, p).Issues[1].Text, "3 units draw 121 mA")

	p.Units = append(p.Units, supplyOf("s", layout.Output{Milliamps: 200}))
	assert.NotContains(t, codes(mapped(t, p)), NoSupply)
}

func TestNothingToShareOut(t *testing.T) {
	p := planOf(drawing("x", layout.Draw{Milliamps: 10}))
	assert.Equal(t, NoSupplies, mapped(t, p).Verdict)
	assert.Equal(t, NoSupplies, Apply(p))
	assert.Nil(t, p.Feeds)
	p = planOf(supplyOf("s", nine), drawing("x", layout.Draw{Milliamps: 10}))
	p.Lineups = nil
	assert.Empty(t, mapped(t, p).Assignments, "a plan without a line-up has nothing to feed")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Map(ctx, planOf(supplyOf("s", nine), drawing("x", layout.Draw{Milliamps: 10})))
	assert.ErrorIs(t, err, context.Canceled)
}

// One line-up without sharing is a matching: it exists just when plain
// augmenting paths (Kuhn 1955, from memory) feed every unit, and the units named
// as competing do break Hall's condition.
func TestMatching(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var outs []layout.Output
		for range rapid.IntRange(1, 12).Draw(t, "outputs") {
			outs = append(outs, layout.Output{Isolated: true, Millivolts: rapid.SampledFrom([]int{9000, 12000}).Draw(t, "mV"), Milliamps: rapid.SampledFrom([]int{100, 200, 400}).Draw(t, "mA")})
		}
		p := planOf(supplyOf("s", outs...))
		for i := range rapid.IntRange(1, 12).Draw(t, "units") {
			p.Units = append(p.Units, drawing(fmt.Sprint("u", i), layout.Draw{Milliamps: rapid.SampledFrom([]int{90, 150, 350}).Draw(t, "draw"),
				Millivolts: rapid.SampledFrom([]int{9000, 12000}).Draw(t, "volts"), MaxMillivolts: rapid.SampledFrom([]int{0, 0, 12000}).Draw(t, "most")}))
		}
		suits := func(u *layout.Unit, o layout.Output) bool {
			return u.Draw.Takes(o.Millivolts) && u.Draw.Milliamps <= o.Milliamps
		}
		holder := make([]int, len(outs)) // 0 or 1 + index of the unit
		var place func(u int, seen []bool) bool
		place = func(u int, seen []bool) bool {
			for o := range outs {
				if !seen[o] && suits(&p.Units[u], outs[o]) {
					seen[o] = true
					if holder[o] == 0 || place(holder[o]-1, seen) {
						holder[o] = u + 1
						return true
					}
				}
			}
			return false
		}
		fed := 0
		for u := 1; u < len(p.Units); u++ {
			if place(u, make([]bool, len(outs))) {
				fed++
			}
		}
		r := mapped(t, p)
		require.Equal(t, fed == len(p.Units)-1, r.Verdict == Holds)
		require.Equal(t, len(p.Units)-1-fed, len(r.Unfed), "and as many as can be are fed")
		if r.Verdict != Holds {
			c := choose(context.Background(), p)
			reach := map[int]bool{}
			for _, id := range c.rivals[0].units {
				for o := range outs {
					reach[o] = reach[o] || suits(p.Unit(id), outs[o])
				}
			}
			n := 0
			for _, yes := range reach {
				if yes {
					n++
				}
			}
			require.Less(t, n, len(c.rivals[0].units))
		}
	})
}

// tourBoard is 40 units on 30 outputs over 10 line-ups: 16 in all of them, and
// 10 of the other 24 in each.
func tourBoard(seed uint64) *layout.Plan {
	rng := rand.New(rand.NewPCG(seed, 1))
	var supplies []layout.Unit
	for s := range 3 {
		var outs []layout.Output
		for i := range 10 {
			o := layout.Output{Isolated: true, Milliamps: []int{500, 300, 100}[i%3]}
			if (i+s)%3 == 0 {
				o.Choices = []layout.Setting{{Millivolts: 12000, Milliamps: o.Milliamps}}
			}
			outs = append(outs, o)
		}
		u := supplyOf(fmt.Sprint("s", s), outs...)
		u.Milliwatts = 40_000
		u.Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: layout.Length(s) * 220 * layout.Millimetre, Y: 300 * layout.Millimetre}}
		supplies = append(supplies, u)
	}
	p := planOf(supplies...)
	p.Board.W, p.Power.Headroom = 700*layout.Millimetre, 20
	for i := range 40 {
		u := drawing(fmt.Sprint("u", i), layout.Draw{Milliamps: []int{20, 60, 200, 75}[rng.IntN(4)], Millivolts: []int{9000, 9000, 9000, 9000, 9000, 9000, 12000}[i%7]})
		u.Place = &layout.Placement{On: layout.DeckName, At: layout.Point{X: layout.Length(rng.IntN(640)) * layout.Millimetre, Y: layout.Length(rng.IntN(250)) * layout.Millimetre}}
		p.Units = append(p.Units, u)
	}
	p.Lineups = nil
	for l := range 10 {
		f := layout.Lineup{Name: fmt.Sprint("gig ", l), Fill: map[string][]string{}}
		for _, i := range rng.Perm(24)[:10] {
			f.Fill["s"] = append(f.Fill["s"], fmt.Sprint("u", 16+i))
		}
		p.Lineups = append(p.Lineups, f)
	}
	return p
}

func TestManyLineups(t *testing.T) {
	for seed := range uint64(6) {
		p := tourBoard(seed)
		r := mapped(t, p)
		require.Equal(t, Holds, r.Verdict, "%d: %s", seed, r.Why)
		first := newProblem(p, wirings(p)[0])
		assert.GreaterOrEqual(t, len(first.demands), 16+10*10)
		assert.Equal(t, len(first.demands), len(r.Assignments))
		again := mapped(t, p)
		assert.Equal(t, r, again, "the same plan, the same map")
		t.Logf("seed %d: proved best %v", seed, r.Best)
	}
}

// The searches of both benchmarks are made anew each time.
func BenchmarkMap40Units30Outputs10Lineups(b *testing.B) {
	p := tourBoard(1)
	for b.Loop() {
		answers.Forget()
		mapped(b, p)
	}
}

func BenchmarkApply40Units30Outputs10Lineups(b *testing.B) {
	p := tourBoard(1)
	for b.Loop() {
		answers.Forget()
		Apply(p)
	}
}

package mount

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"footplank/layout"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// slotPlan is swap units in one slot, one or two to a line-up, anywhere.
func slotPlan(t *rapid.T) *layout.Plan {
	n := rapid.IntRange(2, 5).Draw(t, "units")
	p := planOf()
	p.Lineups = nil
	p.Slots = []layout.Slot{{Name: "slot", On: layout.DeckName, At: p.Board.Rect()}}
	if rapid.Bool().Draw(t, "rails") {
		p.Board.Kind = layout.Rails
		for y := layout.Length(0); y < 300; y += 60 {
			p.Board.Rails = append(p.Board.Rails, layout.Rail{At: rect(0, y, 400, y+45)})
		}
	}
	if rapid.Bool().Draw(t, "hook on units") {
		p.Fastening.UnitSide = layout.Hook
	}
	for i := range n {
		id := fmt.Sprint("u", i)
		l := func(lo, hi int, what string) layout.Length {
			return layout.Length(rapid.IntRange(lo, hi).Draw(t, what))
		}
		u := unit(id, l(40, 120, "w"), l(60, 130, "d"), l(0, 60, "x"), l(0, 40, "y"), layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn")))
		u.Mass = layout.Mass(rapid.IntRange(100, 500).Draw(t, "mass")) * layout.Gram
		if rapid.IntRange(0, 4).Draw(t, "kind") > 0 {
			u.Mount = layout.Swap
		}
		if rapid.Bool().Draw(t, "feet") {
			u.OnBase = []layout.BaseSpot{{Kind: layout.Foot, At: rect(3, 3, 13, 13)}, {Kind: layout.Screw, At: rect(20, 30, 26, 36)}}
		}
		p.Units = append(p.Units, u)
		p.Lineups = append(p.Lineups, layout.Lineup{Name: id, Fill: map[string][]string{"slot": {id}}})
	}
	// One of them again, elsewhere.
	again := p.Units[0]
	p.Lineups = append(p.Lineups, layout.Lineup{Name: "again", Fill: map[string][]string{"slot": {"u0"}},
		Place: map[string]layout.Placement{"u0": {On: layout.DeckName, At: layout.Point{X: again.Place.At.X + 7*mm, Y: again.Place.At.Y + 3*mm}}}})
	return p
}

// What stays on the board suits every line-up: no two strips lie over each
// other, each lies on the surface or one rail; every piece of a unit lies on one
// strip of its own kind and clear of what is on the base; each piece looks the
// same from above and from below; and a unit that does not hold has a finding.
func TestStripsSuitEveryLineup(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := slotPlan(t)
		r := Lay(p)
		parts := []layout.Rect{p.Board.Rect()}
		if p.Board.Kind == layout.Rails {
			parts = nil
			for _, rail := range p.Board.Rails {
				parts = append(parts, rail.At)
			}
		}
		for i, b := range r.Board {
			on := false
			for _, part := range parts {
				on = on || part.Contains(b.At)
			}
			if b.At.Empty() || !on {
				t.Fatalf("strip %v is not on the board", b.At)
			}
			if c := b.At.W(); b.Cut != c && b.Cut != b.At.D() || b.At.W()+b.At.D()-b.Cut > b.Width {
				t.Fatalf("strip %v is not cut %v from a roll of %v", b.At, b.Cut, b.Width)
			}
			if i > 0 && (b.At.Y0 < r.Board[i-1].At.Y0 || b.At.Y0 == r.Board[i-1].At.Y0 && b.At.X0 < r.Board[i-1].At.X0) {
				t.Fatalf("strip %d does not come after the one before it", i+1)
			}
			for _, o := range r.Board[:i] {
				if o.At.Overlaps(b.At) {
					t.Fatalf("strips %v and %v lie over each other", o, b)
				}
			}
			board, _ := Sides(p, b.Kind)
			if b.Side != board {
				t.Fatalf("strip %v has the wrong side", b)
			}
		}
		for i, a := range r.Bases {
			for _, b := range r.Bases[:i] {
				if a.Unit == b.Unit && a.At.Overlaps(b.At) {
					t.Fatalf("pieces %v and %v lie over each other", a, b)
				}
			}
		}
		for _, m := range r.Pieces {
			checkPiece(t, p, r, &m)
		}
		checkHolds(t, p, r)
	})
}

func checkPiece(t *rapid.T, p *layout.Plan, r *Result, m *Piece) {
	u := p.Unit(m.Unit)
	pl, _ := p.PlaceOf(p.LineupNamed(m.Lineup), u)
	if !inset(u.Base(pl), Clear).Contains(m.OnBoard) {
		t.Fatalf("piece %v reaches past its base less the margin", m)
	}
	if p.Board.Kind != layout.Rails && !inset(u.Base(pl), Margin).Contains(m.OnBoard) {
		t.Fatalf("piece %v reaches past its base less the margin", m)
	}
	for _, s := range u.OnBase {
		if onBoard(u, pl, s.At).Overlaps(m.OnBoard) {
			t.Fatalf("piece %v lies over a %s", m, s.Kind)
		}
	}
	if above(u, pl, m.UnderUnit) != m.OnBoard {
		t.Fatalf("piece %v looks another from below", m)
	}
	held := false
	for _, b := range r.Board {
		if b.Kind != m.Kind && b.At.Overlaps(m.OnBoard) {
			t.Fatalf("piece %v lies over a strip of the other kind, %v", m, b)
		}
		held = held || b.Kind == m.Kind && b.At.Contains(m.OnBoard)
	}
	stuck := false
	for _, b := range r.Bases {
		stuck = stuck || b.Unit == m.Unit && b.At.Contains(m.UnderUnit)
	}
	if !held || !stuck {
		t.Fatalf("piece %v lies on no strip, or is on no base", m)
	}
}

// checkHolds works out afresh, from the pieces alone and in another way, what
// each unit is held with: straight shear and pull on all of the area.
func checkHolds(t *rapid.T, p *layout.Plan, r *Result) {
	found := map[[2]string]bool{}
	for _, i := range r.Issues {
		if i.Code != TwoKinds {
			found[[2]string{i.Lineup, i.Units[0]}] = true
		}
	}
	for _, h := range r.Holds {
		if (h.Use > 1) != found[[2]string{h.Lineup, h.Unit}] {
			t.Fatalf("%s in %s: use %g, finding %v", h.Unit, h.Lineup, h.Use, found[[2]string{h.Lineup, h.Unit}])
		}
		sum := 0.0
		for _, m := range r.Pieces {
			if m.Unit == h.Unit && (m.Lineup == h.Lineup || m.Lineup == "") {
				sum += m.OnBoard.W().MM() * m.OnBoard.D().MM()
			}
		}
		kPa := map[Kind]float64{Interlock: 20.7, HookAndLoop: 6.9}[h.Kind]
		needed := p.Unit(h.Unit).Mass.Grams() / 1000 * 9.80665 * 5 / kPa * 1000
		if h.Use <= 1 && sum < needed-1e-6 {
			t.Fatalf("%s in %s holds by %g mm2 of %g", h.Unit, h.Lineup, sum, needed)
		}
	}
}

// The search against trying every set of tracks.
func TestChoiceAgainstTryingEverySet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := slotPlan(t)
		p.Units = p.Units[:min(len(p.Units), 3)]
		p.Lineups = p.Lineups[:len(p.Units)]
		var group []*stand
		for _, s := range stands(p) {
			s.kind, s.statics.favours = HookAndLoop, false
			if len(s.free) > 0 {
				group = append(group, s)
			}
		}
		if len(group) < 2 {
			return
		}
		g := &ground{parts: group[0].parts}
		width := 50 * mm
		upright := rapid.Bool().Draw(t, "upright")
		c := &chooser{}
		c.start(group, g, upright, width)
		for _, lost := range c.lost {
			if lost {
				return
			}
		}
		if len(c.cands) > 14 {
			c.cands, c.banned = c.cands[:14], c.banned[:14]
			for i := range c.across {
				c.across[i] = slices.DeleteFunc(c.across[i], func(k int) bool { return k >= 14 })
			}
		}
		c.search(make([]grip, len(group)), 0)
		if c.nodes > maxNodes {
			return
		}
		if want := everySet(c); want != c.least {
			t.Fatalf("the search says %d, every set tried %d", c.least, want)
		}
	})
}

func everySet(c *chooser) cost {
	least := cost(math.MaxInt64)
	for set := range 1 << len(c.cands) {
		sum := make([]grip, len(c.group))
		var so cost
		apart := true
		for k := range c.cands {
			if set>>k&1 == 0 {
				continue
			}
			so += c.cands[k].cost
			for o := range k {
				apart = apart && (set>>o&1 == 0 || !c.cands[o].meets(c.cands[k].track))
			}
			c.joinInto(sum, k)
		}
		all := apart
		for i := range c.group {
			all = all && c.done(i, &sum[i])
		}
		if all && so < least {
			least = so
		}
	}
	return least
}

// The strips that the pieces of a track need, against a plain twin that walks
// the track millimetre by millimetre: a strip ends only where something is in
// the way before the next piece.
func TestJoinedAgainstWalking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := track{lo: 0, hi: 20 * mm, width: 20 * mm, upright: rapid.Bool().Draw(t, "upright")}
		g := &ground{parts: []layout.Rect{tr.way(rect(0, 0, 200, 20))}}
		var need, block [200]bool
		var pieces []layout.Rect
		for x := rapid.IntRange(0, 30).Draw(t, "gap"); x < 190; x += rapid.IntRange(0, 30).Draw(t, "gap") {
			w := min(rapid.IntRange(8, 40).Draw(t, "length"), 200-x)
			if w < 8 {
				break
			}
			if rapid.IntRange(0, 3).Draw(t, "what") == 0 {
				g.breaks = append(g.breaks, tr.way(rect(layout.Length(x), 0, layout.Length(x+w), 20)))
				for i := x; i < x+w; i++ {
					block[i] = true
				}
			} else {
				pieces = append(pieces, tr.way(rect(layout.Length(x), 0, layout.Length(x+w), 20)))
				for i := x; i < x+w; i++ {
					need[i] = true
				}
			}
			x += w
		}
		strips := 0
		for i, open := 0, false; i < 200; i++ {
			if need[i] && !open {
				strips, open = strips+1, true
			}
			open = open && !block[i]
		}
		got := g.joined(tr, pieces)
		assert.Len(t, got, strips)
		for _, r := range pieces {
			inside := 0
			for _, s := range got {
				if s.Contains(r) {
					inside++
				}
			}
			assert.Equal(t, 1, inside, "%v", r)
		}
	})
}

// Three line-ups of a slot, by hand: small units side by side, one wide unit over
// both places. Two strips across the slot serve all of them.
func TestSharedStripsByHand(t *testing.T) {
	p := planOf()
	p.Slots = []layout.Slot{{Name: "slot", On: layout.DeckName, At: p.Board.Rect()}}
	for i, w := range []layout.Length{70, 70, 150} {
		u := unit(fmt.Sprint("u", i), w, 120, 10+layout.Length(i%2)*80, 10, 0)
		u.Mount = layout.Swap
		p.Units = append(p.Units, u)
	}
	p.Lineups = []layout.Lineup{
		{Name: "small", Fill: map[string][]string{"slot": {"u0", "u1"}}},
		{Name: "wide", Fill: map[string][]string{"slot": {"u2"}}},
	}
	r := Lay(p)
	assert.Len(t, r.Board, 2)
	assert.Empty(t, r.Issues)
	for _, b := range r.Board {
		assert.Contains(t, b.Units, "u2")
		assert.Equal(t, HookSide, b.Side)
	}
	for _, b := range r.Bases {
		assert.Equal(t, LoopSide, b.Side)
	}
	p.Fastening.UnitSide = layout.Hook
	assert.Equal(t, LoopSide, Lay(p).Board[0].Side)
}

package wiring

import (
	"cmp"
	"fmt"
	"slices"

	"footplank/layout"
)

// piece is one cable that the player has.
type piece struct {
	of    int // into Plan.Owned.Cables
	cable *layout.OwnedCable
}

// fits reports whether the cable can have those two plugs, in either order. Plugs
// that are not known may be any.
func (c *piece) fits(plugs [2]string) bool {
	is := func(have, want string) bool { return have == "" || have == want }
	p := c.cable.Plugs
	return is(p[0], plugs[0]) && is(p[1], plugs[1]) || is(p[0], plugs[1]) && is(p[1], plugs[0])
}

// unknown counts its plugs that are not known.
func (c *piece) unknown() (n int) {
	for _, p := range c.cable.Plugs {
		if p == "" {
			n++
		}
	}
	return n
}

// pieces returns the player's cables one by one, no more of one kind than could
// be of use: first those whose plugs are known, and of these the shortest.
func pieces(owned []layout.OwnedCable, most int) []piece {
	var out []piece
	for i := range owned {
		for range min(owned[i].Count, most) {
			out = append(out, piece{i, &owned[i]})
		}
	}
	slices.SortStableFunc(out, func(a, b piece) int {
		return cmp.Or(cmp.Compare(a.unknown(), b.unknown()), cmp.Compare(a.cable.Length, b.cable.Length))
	})
	return out
}

// demand is a cable that the kit must have: the nth of a part of it.
type demand struct {
	part, n int
	length  layout.Length
	plugs   [2]string
}

// takeOwned gives the parts of a kit the player's cables where they are long
// enough and have the plugs, so that the fewest are left to make, and of these
// the least length. A cable whose plugs are not known has the same ones in every
// line-up: those of the part that takes it.
//
// Which demands can be met together is a matroid, so the longest come first and
// each is met if that is possible at all with what was met before, for which the
// others may have to change theirs:
//
//	310  240  180        wanted
//	 |    x    |
//	400       200        owned; 240 is left to make
func takeOwned(parts []*matching, owned []layout.OwnedCable) {
	var wants []demand
	for i, m := range parts {
		for n, l := range m.kit {
			wants = append(wants, demand{i, n, l, m.plugs})
		}
		m.owned = make([]*piece, len(m.kit))
	}
	slices.SortStableFunc(wants, func(a, b demand) int { return cmp.Compare(b.length, a.length) })
	have := pieces(owned, len(wants))
	got := slices.Repeat([]int{-1}, len(have)) // which demand a piece meets
	var meet func(d int, seen []bool) bool
	meet = func(d int, seen []bool) bool {
		for i := range have {
			if seen[i] || have[i].cable.Length < wants[d].length || !have[i].fits(wants[d].plugs) {
				continue
			}
			seen[i] = true
			if got[i] < 0 || meet(got[i], seen) {
				got[i] = d
				return true
			}
		}
		return false
	}
	for d := range wants {
		meet(d, make([]bool, len(have)))
	}
	for i, d := range got {
		if d >= 0 {
			m := parts[wants[d].part]
			m.owned[wants[d].n], m.kit[wants[d].n] = &have[i], have[i].cable.Length
		}
	}
	for _, m := range parts {
		m.sortKit()
	}
}

// sortKit puts the longest first again.
func (m *matching) sortKit() {
	order := make([]int, len(m.kit))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(m.kit[b], m.kit[a]) })
	kit, owned := slices.Clone(m.kit), slices.Clone(m.owned)
	for i, k := range order {
		m.kit[i], m.owned[i] = kit[k], owned[k]
	}
}

// spare returns what the kit does not take of the player's cables.
func spare(kit []KitCable, owned []layout.OwnedCable) []layout.OwnedCable {
	left := slices.Clone(owned)
	for _, k := range kit {
		if k.Owned {
			left[k.piece.of].Count--
		}
	}
	return slices.DeleteFunc(left, func(c layout.OwnedCable) bool { return c.Count <= 0 })
}

// shortShare is how much of the length that is needed a cable may lack for it to
// be worth telling: our own choice. One that is shorter yet was never meant.
const shortShare = 3

// short reports cables that the player has and that nearly reach: for each cable
// of the kit that is to be made, the longest that is not in use and has its
// plugs.
func (f *finder) short() {
	left := slices.Clone(f.r.Spare)
	for i := range f.r.Kit {
		k := &f.r.Kit[i]
		if k.Owned {
			continue
		}
		best := -1
		for n := range left {
			c := piece{cable: &left[n]}
			if left[n].Count > 0 && c.fits(k.Plugs) && left[n].Length < k.Cut && (best < 0 || left[n].Length > left[best].Length) {
				best = n
			}
		}
		if best < 0 || k.Cut-left[best].Length > k.Cut/shortShare {
			continue
		}
		left[best].Count--
		f.tooShort(k, &left[best])
	}
}

func (f *finder) tooShort(k *KitCable, have *layout.OwnedCable) {
	for _, u := range k.Uses {
		if u.Lineup != f.l.Name {
			continue
		}
		c := &f.w.Cables[slices.IndexFunc(f.w.Cables, func(c Cable) bool { return c.ID == u.Cable })]
		need := c.Cut.UpTo(f.p.LengthUnit)
		if need <= have.Length {
			continue // another line-up asks for more
		}
		name := "A cable"
		if have.Name != "" {
			name = fmt.Sprintf("The cable %q", have.Name)
		}
		f.add(Issue{Code: KitShort, Level: Caution, Units: c.units(), Measured: have.Length.MM(), Limit: need.MM(), Unit: "mm",
			Text: fmt.Sprintf("%s of %s that you have is %s too short for the way %s, which takes %s. Bring the two closer, or make a longer one.",
				name, f.atMost(have.Length), f.atLeast(need-have.Length), f.between(c), f.atLeast(need))})
	}
}

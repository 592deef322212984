package wiring

import (
	"cmp"
	"slices"

	"footplank/layout"
)

// KitCable is one cable of the kit that is carried to every gig.
type KitCable struct {
	ID    string // "A", "B", ... "Z", "AA"; the longest first
	Label string // what to write on it: its ID and length, "A 310 mm"
	// Cut is its length before the plugs go on, in whole millimetres or
	// eighths of an inch. Stock is the next ready-made length, 0 for none.
	Cut, Stock layout.Length
	Plugs      [2]string // in the order of their names
	Uses       []Use     // one in each line-up that needs it
	// Owned is set for a cable that the player has: then Cut is its length as
	// it is, Stock 0, Name what the player calls it, and Plugs what it must
	// have where the plan does not tell.
	Owned bool
	Name  string
	piece *piece
}

// Use is where a cable of the kit goes in a line-up.
type Use struct{ Lineup, Cable string }

// kit makes up the kit, from the player's own cables first, and tells each cable
// which one of it is used.
func kit(ws []Wiring, owned []layout.OwnedCable, unit layout.LengthUnit) []KitCable {
	var parts []*matching
	for _, plugs := range plugPairs(ws) {
		parts = append(parts, newMatching(ws, plugs, unit))
	}
	takeOwned(parts, owned)
	var out []KitCable
	for _, m := range parts {
		out = append(out, m.match(ws, unit)...)
	}
	slices.SortStableFunc(out, func(a, b KitCable) int { return cmp.Compare(b.Cut, a.Cut) })
	for i := range out {
		k := &out[i]
		k.ID = letters(i)
		k.Label = k.ID + " " + k.Cut.Number(unit) + " " + string(cmp.Or(unit, layout.Millimetres))
		for _, u := range k.Uses {
			w := ws[slices.IndexFunc(ws, func(w Wiring) bool { return w.Lineup == u.Lineup })]
			c := slices.IndexFunc(w.Cables, func(c Cable) bool { return c.ID == u.Cable })
			w.Cables[c].Kit = k.ID
		}
	}
	return out
}

// letters returns A, B, ... Z, AA, AB, ...
func letters(i int) string {
	s := string(rune('A' + i%26))
	if i >= 26 {
		s = letters(i/26-1) + s
	}
	return s
}

// plugPair returns a cable's plugs in the order of their names: it may be turned
// round.
func plugPair(c *Cable) [2]string {
	return [2]string{min(c.Plugs[0], c.Plugs[1]), max(c.Plugs[0], c.Plugs[1])}
}

// BothPlugs names a cable's two plugs in a sentence.
func BothPlugs(plugs [2]string) string {
	if plugs[0] == plugs[1] {
		return plugs[0] + " at both ends"
	}
	return plugs[0] + " and " + plugs[1]
}

// plugPairs returns the pairs of plugs of the cables on the board, in order.
func plugPairs(ws []Wiring) [][2]string {
	var out [][2]string
	for _, w := range ws {
		for i := range w.Cables {
			if c := &w.Cables[i]; !c.OffBoard() && !slices.Contains(out, plugPair(c)) {
				out = append(out, plugPair(c))
			}
		}
	}
	slices.SortFunc(out, func(a, b [2]string) int { return slices.Compare(a[:], b[:]) })
	return out
}

// matching gives the cables of each line-up that have the same plugs to the
// cables of a kit.
type matching struct {
	plugs  [2]string
	cables [][]*Cable
	need   [][]layout.Length // cut of each cable, by line-up
	kit    []layout.Length   // falling
	owned  []*piece          // the player's own, nil for what is to be made
	// of tells which cable of the kit a cable has, -1 while it has none;
	// taken the reverse.
	of, taken [][]int
}

// newMatching makes up the part of the kit with one pair of plugs.
func newMatching(ws []Wiring, plugs [2]string, unit layout.LengthUnit) *matching {
	m := &matching{plugs: plugs, cables: make([][]*Cable, len(ws)), need: make([][]layout.Length, len(ws))}
	for i, w := range ws {
		for k := range w.Cables {
			if c := &w.Cables[k]; !c.OffBoard() && plugPair(c) == plugs {
				m.cables[i] = append(m.cables[i], c)
				m.need[i] = append(m.need[i], c.Cut.UpTo(unit))
			}
		}
	}
	m.smallest()
	return m
}

// match gives each cable one of the kit and returns this part of it.
func (m *matching) match(ws []Wiring, unit layout.LengthUnit) []KitCable {
	m.stay(m.cables)
	m.rest()
	out := make([]KitCable, len(m.kit))
	for k, l := range m.kit {
		out[k] = KitCable{Cut: l, Stock: NextStock(l, unit), Plugs: m.plugs}
		if p := m.owned[k]; p != nil {
			out[k].Owned, out[k].Name, out[k].Stock, out[k].piece = true, p.cable.Name, 0, p
		}
		for i, w := range ws {
			if c := m.taken[i][k]; c >= 0 {
				out[k].Uses = append(out[k].Uses, Use{w.Lineup, m.cables[i][c].ID})
			}
		}
	}
	return out
}

// smallest makes the kit: its nth longest cable is the longest of all line-ups'
// nth longest.
func (m *matching) smallest() {
	for _, need := range m.need {
		sorted := slices.Clone(need)
		slices.SortFunc(sorted, func(a, b layout.Length) int { return cmp.Compare(b, a) })
		for n, l := range sorted {
			if n == len(m.kit) {
				m.kit = append(m.kit, 0)
			}
			m.kit[n] = max(m.kit[n], l)
		}
	}
	m.of, m.taken = make([][]int, len(m.need)), make([][]int, len(m.need))
	for i := range m.need {
		m.of[i] = slices.Repeat([]int{-1}, len(m.need[i]))
		m.taken[i] = slices.Repeat([]int{-1}, len(m.kit))
	}
}

// stay gives a link of several line-ups the same cable in all of them, the
// shortest that will do, where every other cable still finds one. Links of the
// most line-ups come first.
func (m *matching) stay(cables [][]*Cable) {
	type link struct{ from, to layout.JackRef }
	type where struct{ lineup, cable int }
	at := map[link][]where{}
	var order []link
	for i := range cables {
		for c, x := range cables[i] {
			k := link{x.From, x.To}
			if at[k] == nil {
				order = append(order, k)
			}
			at[k] = append(at[k], where{i, c})
		}
	}
	slices.SortStableFunc(order, func(a, b link) int { return cmp.Compare(len(at[b]), len(at[a])) })
	for _, k := range order {
		if len(at[k]) < 2 {
			break
		}
		for n := len(m.kit) - 1; n >= 0; n-- {
			ok := true
			for _, w := range at[k] {
				ok = ok && m.taken[w.lineup][n] < 0 && m.kit[n] >= m.need[w.lineup][w.cable]
			}
			if !ok {
				continue
			}
			for _, w := range at[k] {
				m.give(w.lineup, w.cable, n)
				ok = ok && m.possible(w.lineup)
			}
			if ok {
				break
			}
			for _, w := range at[k] {
				m.of[w.lineup][w.cable], m.taken[w.lineup][n] = -1, -1
			}
		}
	}
}

func (m *matching) give(lineup, cable, n int) {
	m.of[lineup][cable], m.taken[lineup][n] = n, cable
}

// open returns the line-up's cables without one of the kit, longest first, and
// the kit's that it has left, longest first.
func (m *matching) open(lineup int) (cables, free []int) {
	for c, n := range m.of[lineup] {
		if n < 0 {
			cables = append(cables, c)
		}
	}
	need := m.need[lineup]
	slices.SortStableFunc(cables, func(a, b int) int { return cmp.Compare(need[b], need[a]) })
	for n, c := range m.taken[lineup] {
		if c < 0 {
			free = append(free, n)
		}
	}
	return cables, free
}

// possible reports whether the cables that have none can all be given one.
func (m *matching) possible(lineup int) bool {
	cables, free := m.open(lineup)
	if len(free) < len(cables) {
		return false
	}
	for i, c := range cables {
		if m.kit[free[i]] < m.need[lineup][c] {
			return false
		}
	}
	return true
}

// rest gives the cables that have none the shortest that will do, in the order
// of their lengths.
func (m *matching) rest() {
	for i := range m.need {
		cables, free := m.open(i)
		slices.Reverse(cables)
		slices.Reverse(free)
		at := 0
		for _, c := range cables {
			for m.kit[free[at]] < m.need[i][c] {
				at++
			}
			m.give(i, c, free[at])
			at++
		}
	}
}

package mount

import (
	"cmp"
	"slices"

	"footplank/layout"
)

// Lay works out all fastener of the plan. The same plan gives the same answer.
func Lay(p *layout.Plan) *Result {
	all := stands(p)
	var b *bed
	for again := 0; ; again++ {
		b = newBed(p, all)
		b.lay()
		if again == retries || !b.slacken() {
			break
		}
	}
	return b.result()
}

// A unit whose pieces lie beside its own in another line-up loses some of what
// they grip there. It is then laid again as if its loads were larger.
const (
	retries  = 3
	slackens = 1.3
)

// bed is a plan's fastener in the making.
type bed struct {
	p      *layout.Plan
	all    []*stand
	strips [][]strip // beneath each stand, as chosen
	board  []BoardPiece
	bases  [][]basePiece // of each unit of the plan
	index  map[string]int
	grips  []grip      // of each stand, by what really lies on what
	meets  [][]contact // of each stand

	chooser chooser
	pieces  []layout.Rect // memory that is used again
}

// basePiece is a strip on a unit's base in its frame at turn 0, seen from above.
type basePiece struct {
	at    layout.Rect
	width layout.Length
	cut   layout.Length
	along bool // cut along x
}

// contact is where a piece of the base lies on a strip of the board.
type contact struct {
	base int         // number of the piece among those of the unit
	at   layout.Rect // in the board's frame
}

func newBed(p *layout.Plan, all []*stand) *bed {
	b := &bed{p: p, all: all, strips: make([][]strip, len(all)), bases: make([][]basePiece, len(p.Units)),
		grips: make([]grip, len(all)), meets: make([][]contact, len(all)), index: map[string]int{}}
	for i := range p.Units {
		b.index[p.Units[i].ID] = i
	}
	for _, s := range all {
		s.spots = s.spots[:len(s.unit.OnBase)]
	}
	return b
}

func (b *bed) lay() {
	for _, kind := range Kinds {
		for _, s := range b.all {
			if s.kind != kind {
				continue
			}
			for i := range b.board {
				if o := &b.board[i]; o.Kind != kind && o.Surface == s.place.On {
					s.keepClear(o.At)
				}
			}
		}
		b.layKind(kind)
	}
	for i, s := range b.all {
		b.stick(i, s)
	}
	for k := range b.bases {
		slices.SortFunc(b.bases[k], func(x, y basePiece) int {
			x.at, y.at = mirror(&b.p.Units[k], x.at), mirror(&b.p.Units[k], y.at)
			return cmpPoint(layout.Point{X: x.at.X0, Y: x.at.Y0}, layout.Point{X: y.at.X0, Y: y.at.Y0})
		})
	}
	b.number()
	for i, s := range b.all {
		b.touch(i, s)
	}
}

// number puts the strips of the board into the order in which they are numbered.
func (b *bed) number() {
	order := map[string]int{}
	for i, s := range b.p.Board.Surfaces() {
		order[s.Name] = i
	}
	slices.SortStableFunc(b.board, func(x, y BoardPiece) int {
		if d := order[x.Surface] - order[y.Surface]; d != 0 {
			return d
		}
		return cmpPoint(layout.Point{X: x.At.X0, Y: x.At.Y0}, layout.Point{X: y.At.X0, Y: y.At.Y0})
	})
}

// groups returns the stands of one kind, together those that share a place,
// directly or by others.
func (b *bed) groups(kind Kind) [][]int {
	var out [][]int
	seen := make([]bool, len(b.all))
	for i := range b.all {
		if seen[i] || b.all[i].kind != kind {
			continue
		}
		seen[i] = true
		group := []int{i}
		for k := 0; k < len(group); k++ {
			for j := i + 1; j < len(b.all); j++ {
				if !seen[j] && b.all[j].kind == kind && b.all[group[k]].share(b.all[j]) {
					seen[j] = true
					group = append(group, j)
				}
			}
		}
		slices.Sort(group)
		out = append(out, group)
	}
	return out
}

// layGroup cuts the pieces of a group from the tracks chosen for it, and lays
// its strips on the board.
func (b *bed) layGroup(kind Kind, group []int, g *ground, best choice) {
	for _, i := range group {
		for _, t := range best.tracks {
			b.pieces = t.cut(b.pieces[:0], b.all[i])
			for _, r := range b.pieces {
				b.strips[i] = append(b.strips[i], strip{r, t})
			}
		}
	}
	slices.SortFunc(best.tracks, func(a, c track) int { return cmp.Compare(a.lo, c.lo) })
	b.trim(group, best.tracks)
	for _, t := range best.tracks {
		b.pieces = b.pieces[:0]
		for _, i := range group {
			for _, s := range b.strips[i] {
				if s.track == t {
					b.pieces = append(b.pieces, s.at)
				}
			}
		}
		side, _ := Sides(b.p, kind)
		for _, r := range g.joined(t, b.pieces) {
			b.board = append(b.board, BoardPiece{Kind: kind, Side: side, Surface: b.all[group[0]].place.On, At: r, Width: t.width, Cut: t.length(r)})
		}
	}
}

// groundOf gathers what the strips of a group must not run across.
func (b *bed) groundOf(members []*stand) *ground {
	on := members[0].place.On
	g := &ground{parts: members[0].parts}
	if on == layout.DeckName {
		for _, r := range b.p.Board.Risers {
			for _, l := range r.Legs {
				g.breaks = append(g.breaks, l.At)
			}
		}
	}
	surface, _ := b.p.Board.Surface(on)
	for _, f := range b.p.Board.Fixtures {
		if f.Box.Z0 <= surface.Z && f.Box.Z1 > surface.Z {
			g.breaks = append(g.breaks, f.Box.Rect())
		}
	}
	for i := range b.board {
		if b.board[i].Surface == on {
			g.breaks = append(g.breaks, b.board[i].At)
		}
	}
	for _, s := range b.all {
		if s.place.On == on && !slices.ContainsFunc(members, s.share) {
			g.breaks = append(g.breaks, s.base)
		}
	}
	return g
}

// trim leaves away, unit by unit, the pieces of tracks that it does not need in
// any of its line-ups: those that lie nearest to its middle first, so that what
// stays keeps it from rocking.
func (b *bed) trim(group []int, tracks []track) {
	if len(tracks) == 0 {
		return
	}
	for at := 0; at < len(group); {
		from := at
		for at < len(group) && b.all[group[at]].unit == b.all[group[from]].unit {
			at++
		}
		mine := group[from:at]
		order := slices.Clone(tracks)
		middle := order[0].way(b.all[mine[0]].base).Center().Y
		slices.SortStableFunc(order, func(a, c track) int {
			return cmp.Compare(abs(a.lo+a.hi-2*middle), abs(c.lo+c.hi-2*middle))
		})
		for _, t := range order {
			b.leaveOut(mine, t)
		}
	}
}

// leaveOut drops a track from some stands if all of them still hold.
func (b *bed) leaveOut(mine []int, t track) {
	for _, i := range mine {
		var g grip
		for _, s := range b.strips[i] {
			if s.track != t {
				g.add(b.all[i].statics, s.at)
			}
		}
		s := b.all[i]
		if !s.statics.holds(&g, s.slack) || !s.statics.spans(&g) || !s.statics.toeFirst(&g) {
			return
		}
	}
	for _, i := range mine {
		b.strips[i] = slices.DeleteFunc(b.strips[i], func(s strip) bool { return s.track == t })
	}
}

func abs(l layout.Length) layout.Length { return max(l, -l) }

// stick puts the pieces of a stand on the unit's base. What is there from
// another line-up stays; of what overlaps it only the rest is added.
func (b *bed) stick(i int, s *stand) {
	k := b.index[s.unit.ID]
	for _, t := range b.strips[i] {
		own := ownFrame(s.unit, s.place, t.at)
		// Along x on the board is along x on the base at half turns.
		along := t.track.upright == (s.place.Turn&1 == 1)
		rest := []layout.Rect{own}
		for _, have := range b.bases[k] {
			rest = subtract(rest, have.at)
		}
		for _, r := range rest {
			if r.W() >= Least && r.D() >= Least {
				cut := r.W()
				if !along {
					cut = r.D()
				}
				b.bases[k] = append(b.bases[k], basePiece{at: r, width: t.track.width, cut: cut, along: along})
			}
		}
	}
}

// subtract returns what is left of the rectangles without another.
func subtract(from []layout.Rect, hole layout.Rect) []layout.Rect {
	var out []layout.Rect
	for _, r := range from {
		c := r.Intersect(hole)
		if c.Empty() {
			out = append(out, r)
			continue
		}
		for _, part := range []layout.Rect{
			{X0: r.X0, Y0: r.Y0, X1: r.X1, Y1: c.Y0}, {X0: r.X0, Y0: c.Y1, X1: r.X1, Y1: r.Y1},
			{X0: r.X0, Y0: c.Y0, X1: c.X0, Y1: c.Y1}, {X0: c.X1, Y0: c.Y0, X1: r.X1, Y1: c.Y1},
		} {
			if !part.Empty() {
				out = append(out, part)
			}
		}
	}
	return out
}

// touch finds where the pieces of a stand's unit lie on strips of the board.
func (b *bed) touch(i int, s *stand) {
	for j, piece := range b.bases[b.index[s.unit.ID]] {
		at := onBoard(s.unit, s.place, piece.at)
		for k := range b.board {
			o := &b.board[k]
			if o.Kind != s.kind || o.Surface != s.place.On {
				continue
			}
			if r := at.Intersect(o.At); r.W() >= layout.Millimetre && r.D() >= layout.Millimetre {
				b.meets[i] = append(b.meets[i], contact{j, r})
				b.grips[i].add(s.statics, r)
				if !slices.Contains(o.Units, s.unit.ID) {
					o.Units = append(o.Units, s.unit.ID)
				}
			}
		}
	}
	slices.SortStableFunc(b.meets[i], func(x, y contact) int {
		return cmpPoint(layout.Point{X: x.at.X0, Y: x.at.Y0}, layout.Point{X: y.at.X0, Y: y.at.Y0})
	})
}

// slacken raises the loads of units that would hold on the pieces chosen for
// them and do not on what is left of these. It reports whether there are any.
func (b *bed) slacken() bool {
	again := false
	for i, s := range b.all {
		var chosen grip
		for _, t := range b.strips[i] {
			chosen.add(s.statics, t.at)
		}
		if s.statics.holds(&b.grips[i], 1) || !s.statics.holds(&chosen, 1) {
			continue
		}
		again = true
		for _, t := range b.all {
			if t.unit == s.unit {
				t.slack *= slackens
			}
		}
	}
	return again
}

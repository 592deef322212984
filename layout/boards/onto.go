package boards

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
)

// span carries a stretch of an old edge over to a new one, by the package's rule.
func span(lo, size, old, now layout.Length) (nlo, nsize layout.Length) {
	switch {
	case size >= now, size >= old:
		return 0, now
	case old == now:
		return lo, size
	case lo <= 0:
		return lo, size
	case lo+size >= old:
		return now - old + lo, size
	}
	const step = layout.Millimetre
	nlo = lo * (now - size) / (old - size)
	return (nlo + step/2) / step * step, size
}

// over carries a rectangle of one area over to another.
func over(r, old, now layout.Rect) layout.Rect {
	x, w := span(r.X0-old.X0, r.W(), old.W(), now.W())
	y, d := span(r.Y0-old.Y0, r.D(), old.D(), now.D())
	return layout.RectAt(layout.Point{X: now.X0 + x, Y: now.Y0 + y}, w, d)
}

// anchor says which distance of a riser to the sides is kept.
type anchor int

const (
	share anchor = iota // neither: both shrink or grow alike
	left
	right
)

// onto is a plan being put on another board.
type onto struct {
	from    *layout.Plan
	to      *layout.Plan
	anchor  anchor
	assumed []string
}

// put returns the plan on the candidate's board, with what was assumed for it.
func put(p *layout.Plan, c *Candidate, how Mounting, a anchor) (*layout.Plan, []string) {
	o := &onto{from: p, to: p.Clone(), anchor: a}
	if c.Board != nil {
		o.catalog(c.Board)
	} else {
		o.size(c.W, c.D)
	}
	o.slots()
	o.places(how)
	return o.to, o.assumed
}

func (o *onto) assume(format string, args ...any) {
	o.assumed = append(o.assumed, fmt.Sprintf(format, args...))
}

func (o *onto) length(l layout.Length) string {
	u := o.from.Measure()
	return l.Number(u) + " " + string(u)
}

// size cuts the plan's board to size, or lets it grow.
func (o *onto) size(w, d layout.Length) {
	was, b := &o.from.Board, &o.to.Board
	b.W, b.D = w, d
	if b.W == was.W && b.D == was.D {
		return
	}
	if was.Kind == layout.Rails {
		o.rails()
	}
	if b.Mass > 0 {
		b.Mass = layout.Mass(float64(was.Mass) * area(b) / area(was))
	}
	b.Risers = nil
	for i := range was.Risers {
		o.riser(&was.Risers[i])
	}
	b.Fixtures = nil
	for _, f := range was.Fixtures {
		r := over(f.Box.Rect(), was.Rect(), b.Rect())
		b.Fixtures = append(b.Fixtures, layout.Fixture{Name: f.Name, Box: layout.BoxOn(r, f.Box.Z0, f.Box.Z1)})
	}
}

// area is what the board weighs by: its rails, or the whole.
func area(b *layout.Board) float64 {
	if b.Kind != layout.Rails {
		return float64(b.W) * float64(b.D)
	}
	sum := 0.0
	for _, r := range b.Rails {
		sum += float64(r.At.W()) * float64(r.At.D())
	}
	return max(sum, 1)
}

// riser carries one of the plan's risers over.
func (o *onto) riser(r *layout.Riser) {
	was, b := &o.from.Board, &o.to.Board
	q := *r
	q.At = o.anchored(r.At, over(r.At, was.Rect(), b.Rect()))
	if q.At.W() < r.At.W() || q.At.D() < r.At.D() {
		o.assume("%s is cut to %s x %s.", upper(r.Name), o.length(q.At.W()), o.length(q.At.D()))
	}
	if slices.Equal(r.Legs, r.EndPanels()) {
		q.Legs = q.EndPanels()
	} else {
		q.Legs = nil
		for _, l := range r.Legs {
			if at := over(l.At, r.At, q.At); !at.Empty() {
				q.Legs = append(q.Legs, layout.Leg{At: at})
			}
		}
	}
	b.Risers = append(b.Risers, q)
}

// anchored moves a riser to where it keeps its distance to a side, if it is that
// what is asked for and it has room there.
func (o *onto) anchored(was, at layout.Rect) layout.Rect {
	x := at.X0
	switch o.anchor {
	case left:
		x = was.X0
	case right:
		x = was.X0 + o.to.Board.W - o.from.Board.W
	}
	if w := at.W(); x >= 0 && x+w <= o.to.Board.W && was.W() == w && x != at.X0 {
		at.X0, at.X1 = x, x+w
		o.assume("Its riser keeps its distance to the %s.", [...]string{"", "left", "right"}[o.anchor])
	}
	return at
}

// rails makes rails along the width longer or shorter and keeps as many as the
// depth holds at the same spacing; rails along the depth the other way round.
func (o *onto) rails() {
	was, b := &o.from.Board, &o.to.Board
	flip := len(was.Rails) > 0 && was.Rails[0].At.D() > was.Rails[0].At.W()
	turn := func(r layout.Rect) layout.Rect {
		if flip {
			return layout.Rect{X0: r.Y0, Y0: r.X0, X1: r.Y1, Y1: r.X1}
		}
		return r
	}
	old, now := turn(was.Rect()), turn(b.Rect())
	var bars []layout.Rect
	for _, r := range was.Rails {
		bars = append(bars, turn(r.At))
	}
	slices.SortStableFunc(bars, func(a, b layout.Rect) int { return int(a.Y0 - b.Y0) })
	var out []layout.Rail
	add := func(r layout.Rect) {
		x, w := span(r.X0, r.W(), old.W(), now.W())
		if left, right := r.X0, old.X1-r.X1; left >= 0 && right >= 0 && now.W() > left+right {
			x, w = left, now.W()-left-right
		}
		out = append(out, layout.Rail{At: turn(layout.Rect{X0: x, Y0: r.Y0, X1: x + w, Y1: r.Y1})})
	}
	for _, r := range bars {
		if r.Y1 <= now.Y1 {
			add(r)
		}
	}
	if n := len(bars); n > 1 {
		last, pitch := bars[n-1], bars[n-1].Y0-bars[n-2].Y0
		for pitch > 0 && last.Y1+pitch <= now.Y1 {
			last.Y0, last.Y1 = last.Y0+pitch, last.Y1+pitch
			add(last)
		}
	}
	b.Rails = out
	if len(out) != len(was.Rails) {
		o.assume("It has %d rails.", len(out))
	}
}

// catalog takes a board of the catalog.
func (o *onto) catalog(form *layout.Board) {
	was := &o.from.Board
	b := *form
	b.Overhang, b.PlugRoom = was.Overhang, was.PlugRoom
	b.Risers = slices.Clone(form.Risers)
	b.Case = was.Case
	if b.Case != nil && was.Thickness != form.Thickness {
		c := *was.Case
		c.Below += form.Thickness - was.Thickness
		b.Case = &c
	}
	o.to.Board = b
	for i := range was.Risers {
		if i >= len(form.Risers) {
			o.riser(&was.Risers[i])
			o.assume("Your %s is put on it.", was.Risers[i].Name)
			continue
		}
		if n := form.Risers[i].Name; n != was.Risers[i].Name {
			o.assume("Its %s stands for your %s.", n, was.Risers[i].Name)
		} else {
			o.assume("Its own %s stands for yours.", n)
		}
		o.to.Board.Risers[i].Name = was.Risers[i].Name
	}
}

// slots carries the slots over, each on its surface.
func (o *onto) slots() {
	for i := range o.to.Slots {
		s := &o.to.Slots[i]
		was, ok := o.from.Board.Surface(s.On)
		now, here := o.to.Board.Surface(s.On)
		if !ok || !here {
			continue
		}
		at := over(s.At, was.At, now.At)
		if at.W() < s.At.W() || at.D() < s.At.D() {
			o.assume("Slot %s is cut to %s x %s.", s.Name, o.length(at.W()), o.length(at.D()))
		}
		s.At = at
	}
}

// places carries the places of units over, and pins those that keep them.
func (o *onto) places(how Mounting) {
	for i := range o.to.Units {
		u := &o.to.Units[i]
		if u.Place != nil {
			*u.Place = o.place(u, *u.Place)
		}
		switch {
		case how == FreeAll:
			u.Pinned = false
		case how == KeepFixed && u.Mount == layout.Fixed && u.Place != nil:
			u.Pinned = true
		}
		for k := range o.to.Lineups {
			l := &o.to.Lineups[k]
			if pl, ok := l.Place[u.ID]; ok {
				l.Place[u.ID] = o.place(u, pl)
			}
		}
	}
}

// place carries one place over: with the riser that it is on or below, else with
// the board.
func (o *onto) place(u *layout.Unit, pl layout.Placement) layout.Placement {
	was, b := &o.from.Board, &o.to.Board
	base := u.Base(pl)
	old, now := was.Rect(), b.Rect()
	for _, r := range was.Risers {
		if pl.On != r.Name && (pl.On != layout.DeckName || !r.At.Contains(base)) {
			continue
		}
		if s, ok := b.Surface(r.Name); ok {
			old, now = r.At, s.At
		}
	}
	at := over(base, old, now)
	pl.At = layout.Point{X: at.X0, Y: at.Y0}
	return pl
}

func upper(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

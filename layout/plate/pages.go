package plate

import (
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/paper"
)

// corner is how much of a surface's corner must be seen to lay a sheet by it.
const corner = 8 * mm

// placement appends tables, the base sheets and the line-ups' own.
func (f *facts) placement(doc *paper.Document, o *Options, lineups []*layout.Lineup) {
	f.intro(doc, o.paper())
	for _, s := range f.p.Board.Surfaces() {
		j := job{kind: base, surface: s, zoom: 100}
		if s.Name != layout.DeckName && f.nothingOn(&j) {
			continue
		}
		f.pages(doc, o, &j, "In every line-up: "+s.Name, aboveNote+" All pieces on the board.")
	}
	for i, l := range lineups {
		f.overviewPages(doc, o, l)
		for _, s := range f.p.Board.Surfaces() {
			j := job{kind: lineup, surface: s, l: l, zoom: 100}
			if len(f.on(&j, false)) == 0 || len(f.alike(lineups[:i], &j)) > 0 {
				continue
			}
			title := "Line-up " + l.Name
			if names := f.alike(lineups, &j); len(names) > 1 {
				title = "Line-ups " + strings.Join(names, ", ")
			}
			f.pages(doc, o, &j, title+": "+s.Name, aboveNote+" What is not there in every line-up.")
		}
	}
}

// underside appends each surface seen from below.
func (f *facts) underside(doc *paper.Document, o *Options, _ []*layout.Lineup) {
	for _, s := range f.p.Board.Surfaces() {
		j := job{kind: below, surface: s, zoom: 100}
		if s.Name != layout.DeckName && f.nothingOn(&j) {
			continue
		}
		f.pages(doc, o, &j, "Underside: "+s.Name, belowNote)
	}
}

// nothingOn reports whether a surface has neither a piece nor a unit that stays.
func (f *facts) nothingOn(j *job) bool {
	return len(f.on(j, true)) == 0 && len(f.stripsOf(j)) == 0
}

// stood is a unit at its place.
type stood struct {
	unit  string
	place layout.Placement
}

// own returns the units that a line-up has of its own on a job's surface.
func (f *facts) own(j *job, l *layout.Lineup) []stood {
	k := *j
	k.l = l
	var out []stood
	for _, s := range f.on(&k, false) {
		out = append(out, stood{s.Unit.ID, s.Place})
	}
	return out
}

// alike returns those line-ups whose pages of the job are the same.
func (f *facts) alike(lineups []*layout.Lineup, j *job) []string {
	var names []string
	for _, l := range lineups {
		if slices.Equal(f.own(j, l), f.own(j, j.l)) {
			names = append(names, l.Name)
		}
	}
	return names
}

// pages draws a job on as few pages as show all that it is about.
func (f *facts) pages(doc *paper.Document, o *Options, j *job, title, note string) {
	a := f.area(j)
	v := f.viewOf(j, a)
	t := paper.Tiling{Paper: o.paper(), Title: title, Note: note}
	g := f.cut(v, j, t)
	if len(g.Tiles) > 1 {
		v.pages = g.Windows()
	}
	f.drawOn(v, j, a)
	doc.Lay(v.d, t, &g)
}

// cut decides what of a drawing is on which page. A sheet with everything is laid
// on the board by a corner of it or, where that takes a page more, by an edge with
// its ruler, so one of these must be seen; on a line-up's own sheet only where it
// takes no page more, for its pieces are on the board.
func (f *facts) cut(v *view, j *job, t paper.Tiling) paper.Grid {
	need := f.need(v, j)
	on := v.rect(j.surface.At)
	by := marks(on, need)
	if j.kind == lineup && len(need) > 0 {
		by = append(by, nil)
	}
	var best paper.Grid
	for i, marks := range by {
		t.Need = append(need[:len(need):len(need)], marks...)
		g := t.Cut(v.d.W, v.d.H)
		if i == 0 || g.Pages() < best.Pages() || i < 4 && g.Better(&best) {
			best = g
		}
	}
	return best
}

// marks returns what a sheet can be laid on a surface by: its four corners, then a
// stretch of each edge beside what is needed.
func marks(on layout.Rect, need []layout.Rect) [][]layout.Rect {
	hull := on
	if len(need) > 0 {
		hull = need[0]
		for _, r := range need {
			hull = hull.Union(r)
		}
	}
	var out [][]layout.Rect
	for _, at := range []layout.Point{
		{X: on.X0, Y: on.Y1 - corner}, {X: on.X1 - corner, Y: on.Y1 - corner}, {X: on.X0, Y: on.Y0}, {X: on.X1 - corner, Y: on.Y0},
		{X: hull.X0, Y: on.Y1 - corner}, {X: hull.X0, Y: on.Y0}, {X: on.X0, Y: hull.Y0}, {X: on.X1 - corner, Y: hull.Y0},
	} {
		out = append(out, []layout.Rect{layout.RectAt(at, corner, corner).Intersect(on)})
	}
	return out
}

// need returns what of a drawing must be on its pages: pieces, and bodies as far
// as they stand on the surface. What stands out over its edges may be cut off.
func (f *facts) need(v *view, j *job) []layout.Rect {
	var out []layout.Rect
	for _, s := range f.on(j, j.kind != lineup) {
		if on := s.Unit.Base(s.Place).Intersect(j.surface.At); !on.Empty() {
			out = append(out, v.rect(on))
		}
	}
	for _, s := range f.stripsOf(j) {
		out = append(out, v.rect(s.at))
	}
	return out
}

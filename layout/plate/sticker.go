package plate

import (
	"cmp"
	"slices"

	"footplank/layout"
	"footplank/layout/paper"
)

// stickerGap is between stickers, so that scissors find a way.
const stickerGap = 6 * mm

const stickerNote = "Bases at true size, TURNED OVER left to right, the front wall towards you. Cut out, lay on the base, mark the corners."

// spotNames are what takes room on a base, in words.
var spotNames = map[layout.BasePart]string{
	layout.Foot: "foot", layout.BatteryDoor: "battery door", layout.Screw: "screw", layout.BaseLabel: "label",
}

// stickered returns the units that get a sticker: those with a piece.
func (f *facts) stickered() []*layout.Unit {
	var out []*layout.Unit
	for i := range f.p.Units {
		if u := &f.p.Units[i]; len(f.bases[u.ID]) > 0 {
			out = append(out, u)
		}
	}
	return out
}

// sticker draws a unit's base turned over, its top left corner at that point, with
// its words where one of the pages, if given, shows all of them.
func (f *facts) sticker(d *paper.Drawing, prefix string, u *layout.Unit, at layout.Point, pages ...layout.Rect) {
	base := layout.RectAt(at, u.Body.W, u.Body.D)
	v := &view{d: d, ox: base.X0, oy: base.Y1, unit: f.p.LengthUnit, zoom: 100, prefix: prefix, pages: pages}
	v.layer("board")
	v.layer("fasteners")
	v.layer("units")
	v.layer("labels")
	strips := f.bases[u.ID]
	v.strips(strips)
	v.layer("units")
	for _, s := range u.OnBase {
		own := layout.Rect{X0: u.Body.W - s.At.X1, Y0: s.At.Y0, X1: u.Body.W - s.At.X0, Y1: s.At.Y1}
		r := v.rect(own)
		v.d.RectAs("keep clear", r, paper.Style{Line: 300, Dash: []layout.Length{1000, 700}})
		v.d.Line(layout.Point{X: r.X0, Y: r.Y0}, layout.Point{X: r.X1, Y: r.Y1}, paper.Style{Line: 150})
		v.d.Line(layout.Point{X: r.X0, Y: r.Y1}, layout.Point{X: r.X1, Y: r.Y0}, paper.Style{Line: 150})
		t := paper.Type{Size: 2000, Anchor: paper.Middle, Boxed: true}
		if text := spotNames[s.Kind]; t.Width(text) < r.W()+6*mm {
			v.words(layout.Point{X: middle(r).X, Y: middle(r).Y + t.Cap()/2}, text, t)
		}
	}
	v.d.RectAs("base", base, paper.Style{Line: 500})
	v.front(base, 0)
	v.label(&layout.Standing{Unit: u}, base, []string{string(u.Mount) + sides(strips)})
	v.stripWords(strips)
}

// sides says which side of hook-and-loop a base carries.
func sides(strips []strip) string {
	if len(strips) == 0 || strips[0].side == "" {
		return ""
	}
	return ": " + strips[0].side
}

// stickers appends the pages of stickers: upright those that fit so, then those
// that fit across, then the ones that need several pages each.
func (f *facts) stickers(doc *paper.Document, o *Options, _ []*layout.Lineup) {
	var up, across, large []*layout.Unit
	fits := func(u *layout.Unit, s paper.Size) bool {
		b := paper.Body(s)
		return u.Body.W <= b.W() && u.Body.D <= b.D()
	}
	for _, u := range f.stickered() {
		switch {
		case fits(u, o.paper()):
			up = append(up, u)
		case fits(u, o.paper().Across()):
			across = append(across, u)
		default:
			large = append(large, u)
		}
	}
	frame := paper.Frame{Title: "Stickers: " + f.p.Title, Note: stickerNote}
	f.stickerPages(doc, o.paper(), frame, up)
	f.stickerPages(doc, o.paper().Across(), frame, across)
	for _, u := range large {
		d := paper.NewDrawing(u.Body.W+2*mm, u.Body.D+2*mm)
		t := paper.Tiling{Paper: o.paper(), Title: "Sticker: " + name(u), Note: stickerNote}
		g := t.Cut(d.W, d.H)
		f.sticker(d, "", u, layout.Point{X: mm, Y: mm}, g.Windows()...)
		doc.Lay(d, t, &g)
	}
}

func (f *facts) stickerPages(doc *paper.Document, size paper.Size, frame paper.Frame, units []*layout.Unit) {
	body := paper.Body(size)
	for _, page := range onPages(units, body.W(), body.D()) {
		p := doc.Framed(size, frame)
		for _, s := range page {
			f.sticker(p.Drawing, "", s.unit, layout.Point{X: body.X0 + s.at.X, Y: body.Y0 + s.at.Y})
		}
	}
}

// laid is a sticker at a place of a page.
type laid struct {
	unit *layout.Unit
	at   layout.Point
}

// onPages lays stickers on pages of that size, the deepest, the widest or the
// largest first, whichever takes fewest pages: each on the first page that has
// room, as near to its top as can be, then as far to the left. What is free of a
// page is kept as the largest rectangles of it, which overlap:
//
//	+----+-------+      +----+ - - - +      +- - +-------+
//	|####|       |      |####|       |      |####|       |
//	+----+       |  is  |####|       | and  +----+- - - -+
//	|            |      +----+       |      |            |
//	+------------+      +- - + - - - +      +------------+
func onPages(units []*layout.Unit, wide, high layout.Length) [][]laid {
	var best [][]laid
	for i, of := range []func(u *layout.Unit) layout.Length{
		func(u *layout.Unit) layout.Length { return u.Body.D },
		func(u *layout.Unit) layout.Length { return u.Body.W },
		func(u *layout.Unit) layout.Length { return u.Body.W * u.Body.D },
	} {
		sorted := slices.Clone(units)
		slices.SortStableFunc(sorted, func(a, b *layout.Unit) int { return cmp.Compare(of(b), of(a)) })
		if pages := inOrder(sorted, wide, high); i == 0 || len(pages) < len(best) {
			best = pages
		}
	}
	return best
}

func inOrder(units []*layout.Unit, wide, high layout.Length) [][]laid {
	var pages [][]laid
	var free [][]layout.Rect // by page
	for _, u := range units {
		w, d := u.Body.W+stickerGap, u.Body.D+stickerGap
		page, at := 0, layout.Rect{}
		for ; page < len(pages); page++ {
			if at = topmost(free[page], w, d); !at.Empty() {
				break
			}
		}
		if at.Empty() {
			pages = append(pages, nil)
			// The gap behind the last sticker may stand out over the page.
			free = append(free, []layout.Rect{{X1: max(wide+stickerGap, w), Y1: max(high+stickerGap, d)}})
			at = layout.Rect{X1: w, Y1: d}
		}
		pages[page] = append(pages[page], laid{u, layout.Point{X: at.X0, Y: at.Y0}})
		free[page] = cutOut(free[page], at)
	}
	return pages
}

// topmost returns the place for a sticker in the free rectangles, or an empty one.
func topmost(free []layout.Rect, w, d layout.Length) layout.Rect {
	var best layout.Rect
	for _, f := range free {
		if f.W() < w || f.D() < d {
			continue
		}
		at := layout.Rect{X0: f.X0, Y0: f.Y0, X1: f.X0 + w, Y1: f.Y0 + d}
		if best.Empty() || at.Y0 < best.Y0 || at.Y0 == best.Y0 && at.X0 < best.X0 {
			best = at
		}
	}
	return best
}

// cutOut takes r out of free rectangles and leaves the largest ones of the rest.
func cutOut(free []layout.Rect, r layout.Rect) []layout.Rect {
	var parts []layout.Rect
	for _, f := range free {
		if !f.Overlaps(r) {
			parts = append(parts, f)
			continue
		}
		for _, p := range []layout.Rect{
			{X0: f.X0, Y0: f.Y0, X1: r.X0, Y1: f.Y1}, {X0: r.X1, Y0: f.Y0, X1: f.X1, Y1: f.Y1},
			{X0: f.X0, Y0: f.Y0, X1: f.X1, Y1: r.Y0}, {X0: f.X0, Y0: r.Y1, X1: f.X1, Y1: f.Y1},
		} {
			if !p.Empty() {
				parts = append(parts, p)
			}
		}
	}
	var out []layout.Rect
	for i, p := range parts {
		within := func(k int) bool { return parts[k].Contains(p) && (parts[k] != p || k < i) }
		inside := false
		for k := range parts {
			inside = inside || k != i && within(k)
		}
		if !inside {
			out = append(out, p)
		}
	}
	return out
}

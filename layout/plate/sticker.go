package plate

import (
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

// sticker draws a unit's base turned over, its top left corner at that point.
func (f *facts) sticker(d *paper.Drawing, prefix string, u *layout.Unit, at layout.Point) {
	base := layout.RectAt(at, u.Body.W, u.Body.D)
	v := &view{d: d, ox: base.X0, oy: base.Y1, unit: f.p.LengthUnit, zoom: 100, prefix: prefix}
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
		f.sticker(d, "", u, layout.Point{X: mm, Y: mm})
		doc.Tiles(d, paper.Tiling{Paper: o.paper(), Title: "Sticker: " + name(u), Note: stickerNote})
	}
}

func (f *facts) stickerPages(doc *paper.Document, size paper.Size, frame paper.Frame, units []*layout.Unit) {
	body := paper.Body(size)
	for _, page := range shelves(units, body.W(), body.D()) {
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

// shelves lays stickers on pages of that size, deepest first: each on the first
// shelf where it fits, from the left; else on a new shelf.
//
//	+--------------+
//	|[   ][  ][ ]  |
//	|[  ][ ][ ][ ] |
//	+--------------+
func shelves(units []*layout.Unit, wide, high layout.Length) [][]laid {
	type shelf struct{ page, x, y, tall layout.Length }
	sorted := slices.Clone(units)
	slices.SortStableFunc(sorted, func(a, b *layout.Unit) int { return int(b.Body.D - a.Body.D) })
	var pages [][]laid
	var list []shelf
	var below []layout.Length // the first y that is free, by page
	for _, u := range sorted {
		i := slices.IndexFunc(list, func(s shelf) bool { return s.x+u.Body.W <= wide && u.Body.D <= s.tall })
		if i < 0 {
			page := slices.IndexFunc(below, func(y layout.Length) bool { return y+u.Body.D <= high })
			if page < 0 {
				page = len(below)
				below = append(below, 0)
				pages = append(pages, nil)
			}
			list = append(list, shelf{layout.Length(page), 0, below[page], u.Body.D})
			below[page] += u.Body.D + stickerGap
			i = len(list) - 1
		}
		s := &list[i]
		pages[s.page] = append(pages[s.page], laid{u, layout.Point{X: s.x, Y: s.y}})
		s.x += u.Body.W + stickerGap
	}
	return pages
}

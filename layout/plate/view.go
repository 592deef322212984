package plate

import (
	"cmp"
	"math"
	"slices"

	"footplank/layout"
	"footplank/layout/paper"
)

// view maps the board's plane onto a drawing and keeps what is taken there.
type view struct {
	d      *paper.Drawing
	ox, oy layout.Length // the drawing's place of the board's origin
	mirror bool          // seen from below
	corner layout.Point  // that coordinates count from, on the board
	unit   layout.LengthUnit
	prefix string        // of layers: "base/"
	zoom   layout.Length // of type, in percent: more for a drawing to be scaled down
	taken  []layout.Rect // of the drawing, by words and what must be seen
	bodies []layout.Rect // whose lines a number of a ruler must not break
	pages  []layout.Rect // of the drawing, if it is cut into several
}

// layers is the order in which layers lie over each other.
var layers = []string{"grid", "board", "fasteners", "rulers", "units", "cables", "leads", "labels"}

// start names the layers, so that they lie in order.
func (v *view) start() {
	for _, l := range layers {
		v.layer(l)
	}
}

func (v *view) layer(name string) { v.d.Layer(v.prefix + name) }

// pt maps a point of the board.
func (v *view) pt(p layout.Point) layout.Point {
	if v.mirror {
		return layout.Point{X: v.ox - p.X, Y: v.oy - p.Y}
	}
	return layout.Point{X: v.ox + p.X, Y: v.oy - p.Y}
}

// rect maps a rectangle of the board.
func (v *view) rect(r layout.Rect) layout.Rect {
	a, b := v.pt(layout.Point{X: r.X0, Y: r.Y0}), v.pt(layout.Point{X: r.X1, Y: r.Y1})
	return layout.Rect{X0: min(a.X, b.X), Y0: min(a.Y, b.Y), X1: max(a.X, b.X), Y1: max(a.Y, b.Y)}
}

// largest is the size of type for a unit's name: smaller where drawings are scaled
// down, so that there is room for more names of one size.
func (v *view) largest() layout.Length {
	if v.zoom > 100 {
		return 3300
	}
	return 4600
}

// size returns a size of type, enlarged as the view wants.
func (v *view) size(l layout.Length) layout.Length { return l * v.zoom / 100 }

// free reports whether nothing taken meets r.
func (v *view) free(r layout.Rect) bool {
	for _, t := range v.taken {
		if t.Overlaps(r) {
			return false
		}
	}
	return true
}

// onOnePage reports whether a page shows all of r.
func (v *view) onOnePage(r layout.Rect) bool {
	return len(v.pages) == 0 || slices.ContainsFunc(v.pages, func(w layout.Rect) bool { return w.Contains(r) })
}

// parts returns a rectangle, and what each page shows of it, largest first: the
// room in which words about it may stand.
func (v *view) parts(r layout.Rect) []layout.Rect {
	out := []layout.Rect{r}
	for _, w := range v.pages {
		if part := w.Intersect(r); !part.Empty() && part != r {
			out = append(out, part)
		}
	}
	slices.SortStableFunc(out[1:], func(a, b layout.Rect) int { return cmp.Compare(b.W()*b.D(), a.W()*a.D()) })
	return out
}

func (v *view) take(r layout.Rect) { v.taken = append(v.taken, r) }

// number writes a length of the board for a tape: to the nearest tenth of a
// millimetre, or to the nearest 32nd of an inch.
func number(l layout.Length, u layout.LengthUnit) string {
	step := float64(layout.Millimetre) / 10
	if u == layout.Inches {
		step = float64(layout.Inch) / 32
	}
	return layout.Length(math.Round(math.Round(float64(l)/step) * step)).Number(u)
}

// place writes a point in the surface's own coordinates.
func (v *view) place(p layout.Point) string {
	return number(p.X-v.corner.X, v.unit) + ", " + number(p.Y-v.corner.Y, v.unit)
}

// sizes writes how wide and deep a rectangle is.
func (v *view) sizes(r layout.Rect) string {
	return number(r.W(), v.unit) + " × " + number(r.D(), v.unit)
}

// middle returns the middle of a rectangle of the drawing.
func middle(r layout.Rect) layout.Point {
	return layout.Point{X: (r.X0 + r.X1) / 2, Y: (r.Y0 + r.Y1) / 2}
}

// grow returns r with all edges pushed outwards.
func grow(r layout.Rect, by layout.Length) layout.Rect {
	return r.Grow(layout.Edges{Front: by, Back: by, Left: by, Right: by})
}

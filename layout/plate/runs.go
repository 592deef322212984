package plate

import (
	"math"

	"footplank/layout"
	"footplank/layout/paper"
)

// Cables are thick and whole, leads thin and dashed; a white edge shows which
// of two that cross lies over the other on the sheet.
var (
	cableLine = paper.Style{Line: 900, Corner: 4 * mm, Round: true}
	cableEdge = paper.Style{Line: 2000, Ink: paper.White, Corner: 4 * mm}
	leadLine  = paper.Style{Line: 450, Corner: 3 * mm, Dash: []layout.Length{2500, 1200}}
	leadEdge  = paper.Style{Line: 1300, Ink: paper.White, Corner: 3 * mm}
)

// runs draws cables and leads, each kind on its layer, with a name on each:
// letters of the kit for cables, names of the output for leads.
func (v *view) runs(layer string, list []run, edge, line paper.Style, clip layout.Rect) {
	for _, r := range list {
		if len(r.path) < 2 {
			continue
		}
		pts := make([]layout.Point, len(r.path))
		for i, p := range r.path {
			pts[i] = v.pt(p)
		}
		v.layer(layer)
		v.d.Clip(clip)
		v.d.Poly(pts, false, v.scaled(edge))
		v.d.Poly(pts, false, v.scaled(line))
		v.d.Unclip()
		v.runName(r.name, pts, layer == "leads", clip)
	}
}

// scaled makes lines of a view that is to be scaled down thicker.
func (v *view) scaled(s paper.Style) paper.Style {
	s.Line = s.Line * (100 + v.zoom) / 200
	return s
}

// runName writes a name on a run where it meets nothing else, as near to the
// run's middle as can be.
func (v *view) runName(text string, pts []layout.Point, italic bool, clip layout.Rect) {
	if text == "" {
		return
	}
	t := paper.Type{Size: v.size(2600), Face: paper.Bold, Anchor: paper.Middle, Boxed: true}
	if italic {
		t.Face, t.Size = paper.Italic, v.size(2200)
	}
	total := 0.0
	for i := 1; i < len(pts); i++ {
		total += away(pts[i-1], pts[i])
	}
	for i := range 19 {
		share := 0.5 + float64((i+1)/2)*0.05*float64(1-2*(i%2))
		c := along(pts, total*share)
		at := layout.Point{X: c.X, Y: c.Y + t.Cap()/2}
		b := t.Bounds(at, text)
		if v.free(b) && clip.Contains(b) {
			v.words(at, text, t)
			return
		}
	}
}

func away(a, b layout.Point) float64 {
	return math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
}

// along returns the point of a line that far from its beginning.
func along(pts []layout.Point, far float64) layout.Point {
	for i := 1; i < len(pts); i++ {
		l := away(pts[i-1], pts[i])
		if far <= l && l > 0 {
			a, b := pts[i-1], pts[i]
			return layout.Point{X: a.X + layout.Length(math.Round(float64(b.X-a.X)*far/l)), Y: a.Y + layout.Length(math.Round(float64(b.Y-a.Y)*far/l))}
		}
		far -= l
	}
	return pts[len(pts)-1]
}

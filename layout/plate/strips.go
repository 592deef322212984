package plate

import (
	"strconv"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/paper"
)

// boardStrips returns the strips on the board with the numbers that they have on
// every sheet.
func boardStrips(r *mount.Result) []strip {
	var out []strip
	for i, m := range r.Board {
		out = append(out, strip{number: i + 1, kind: m.Kind, side: sideOf(m.Kind, m.Side), surface: m.Surface, at: m.At, width: m.Width, cut: m.Cut, units: m.Units})
	}
	return out
}

// baseStrips returns the strips on the base of each unit, numbered from its
// front-left as turned over.
func baseStrips(r *mount.Result) map[string][]strip {
	out := map[string][]strip{}
	for _, m := range r.Bases {
		out[m.Unit] = append(out[m.Unit], strip{number: len(out[m.Unit]) + 1, kind: m.Kind, side: sideOf(m.Kind, m.Side), at: m.At, width: m.Width, cut: m.Cut, units: []string{m.Unit}})
	}
	return out
}

// sideOf names the side of the fastener, where its sides differ.
func sideOf(k mount.Kind, s mount.Side) string {
	if k != mount.HookAndLoop {
		return ""
	}
	return string(s)
}

// stripStyle tells the kinds apart without colour.
func stripStyle(k mount.Kind) paper.Style {
	s := paper.Style{Line: 250, Fill: paper.Hatch}
	if k == mount.HookAndLoop {
		s.Fill = paper.Dots
	}
	return s
}

// strips draws strips of a surface, shaded by kind.
func (v *view) strips(list []strip) {
	v.layer("fasteners")
	for i := range list {
		v.d.RectAs("piece", v.rect(list[i].at), stripStyle(list[i].kind))
	}
}

// stripWords marks each strip's front-left corner from above with a dot and
// writes its number and, where there is room, its place and size.
func (v *view) stripWords(list []strip) {
	for i := range list {
		s := &list[i]
		v.layer("labels")
		v.d.Circle(v.pt(layout.Point{X: s.at.X0, Y: s.at.Y0}), 900, paper.Style{Fill: paper.Solid, Ground: paper.Black})
		v.stripText(s, v.rect(s.at))
	}
}

func (v *view) stripText(s *strip, r layout.Rect) {
	num := strconv.Itoa(s.number)
	corner := v.place(layout.Point{X: s.at.X0, Y: s.at.Y0})
	full := num + ": " + corner + "; " + v.sizes(s.at)
	texts := []string{full, num + ": " + corner, num}
	if s.hint != "" {
		texts = append([]string{full + "; for " + s.hint, num + " for " + s.hint}, texts...)
	}
	for _, text := range texts {
		for _, size := range []layout.Length{3200, 2800, 2400, 2100, 1800} {
			for _, part := range v.parts(r) {
				if v.stripLine(text, part, v.size(size)) {
					return
				}
			}
		}
	}
	t := paper.Type{Size: v.size(1500), Face: paper.Bold, Anchor: paper.Middle, Boxed: true}
	v.words(layout.Point{X: middle(r).X, Y: middle(r).Y + t.Cap()/2}, num, t)
}

// stripLine writes a text into a strip, along its longer side, at the first
// place that is free.
func (v *view) stripLine(text string, r layout.Rect, size layout.Length) bool {
	t := paper.Type{Size: size, Boxed: true, Anchor: paper.Middle}
	long, short := r.W(), r.D()
	upright := short > long
	if upright {
		long, short = short, long
	}
	w := t.Width(text) + t.Size
	if w > long || t.Size > short {
		return false
	}
	spare := long - w
	for _, across := range []layout.Length{50, 25, 75} {
		for i := range layout.Length(21) {
			share := (i + 1) / 2 * (1 - 2*(i%2)) // 0, -1, 1, -2, ...
			shift := spare * share / 20
			at := layout.Point{X: middle(r).X + shift, Y: r.Y0 + r.D()*across/100 + t.Cap()/2}
			if upright {
				t.Turn = 3
				at = layout.Point{X: r.X0 + r.W()*across/100 + t.Cap()/2, Y: middle(r).Y + shift}
			}
			if b := t.Bounds(at, text); v.free(b) && v.onOnePage(b) && grow(r, 600).Contains(b) {
				v.words(at, text, t)
				return true
			}
		}
	}
	return false
}

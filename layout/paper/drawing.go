package paper

import (
	"math"
	"slices"

	"footplank/layout"
)

// Drawing is a list of marks in layers.
type Drawing struct {
	W, H layout.Length // its size; marks may lie outside
	// layers are in the order in which their names first came.
	layers  []*layer
	current *layer
	clip    *layout.Rect
}

type layer struct {
	name  string
	marks []mark
}

// mark is one thing drawn.
type mark struct {
	shape  shape
	style  Style
	clip   *layout.Rect // nil: nothing is cut off
	points []layout.Point
	radius layout.Length // of a circle
	text   string
	set    Type // of text
	class  string
	origin layout.Point // that its pattern hangs on
}

type shape uint8

const (
	line shape = iota // open
	ring              // closed
	box               // two points, opposite corners
	circle
	words
)

// NewDrawing returns an empty drawing of that size.
func NewDrawing(w, h layout.Length) *Drawing { return &Drawing{W: w, H: h} }

// Layer says which layer the marks that follow belong to, "" for none.
func (d *Drawing) Layer(name string) {
	for _, l := range d.layers {
		if l.name == name {
			d.current = l
			return
		}
	}
	d.current = &layer{name: name}
	d.layers = append(d.layers, d.current)
}

// LayerName returns the name of the layer that marks are drawn on.
func (d *Drawing) LayerName() string {
	if d.current == nil {
		return ""
	}
	return d.current.name
}

// Clip cuts off the marks that follow at the edges of r.
func (d *Drawing) Clip(r layout.Rect) { d.clip = &r }

// Unclip ends Clip.
func (d *Drawing) Unclip() { d.clip = nil }

func (d *Drawing) add(m mark) {
	if d.current == nil {
		d.Layer("")
	}
	m.clip = d.clip
	d.current.marks = append(d.current.marks, m)
}

// Line draws a straight line.
func (d *Drawing) Line(a, b layout.Point, s Style) {
	d.add(mark{shape: line, points: []layout.Point{a, b}, style: s})
}

// Poly draws a line through the points, back to the first if closed.
func (d *Drawing) Poly(points []layout.Point, closed bool, s Style) {
	if len(points) < 2 {
		return
	}
	of := line
	if closed {
		of = ring
	}
	d.add(mark{shape: of, points: slices.Clone(points), style: s})
}

// Rect draws a rectangle. Its class, in an SVG only, tells programs what it is.
func (d *Drawing) Rect(r layout.Rect, s Style) { d.RectAs("", r, s) }

// RectAs is Rect with a class, which an SVG carries for programs that read it.
func (d *Drawing) RectAs(class string, r layout.Rect, s Style) {
	d.add(mark{shape: box, points: []layout.Point{{X: r.X0, Y: r.Y0}, {X: r.X1, Y: r.Y1}}, style: s, class: class})
}

// Circle draws a circle.
func (d *Drawing) Circle(centre layout.Point, radius layout.Length, s Style) {
	d.add(mark{shape: circle, points: []layout.Point{centre}, radius: radius, style: s})
}

// Text writes one line of text; at is on its baseline.
func (d *Drawing) Text(at layout.Point, text string, t Type) {
	if text == "" {
		return
	}
	if t.Boxed {
		d.add(mark{shape: box, points: corners(t.Bounds(at, text)), style: Style{Fill: Solid, Ground: White}})
	}
	d.add(mark{shape: words, points: []layout.Point{at}, text: text, set: t})
}

// Lines writes lines of text below each other; at is on the baseline of the
// first. It returns the y of the baseline after the last.
func (d *Drawing) Lines(at layout.Point, lines []string, t Type) layout.Length {
	for _, l := range lines {
		d.Text(at, l, t)
		at.Y += t.Lead()
	}
	return at.Y
}

// Play draws what is within the window of another drawing, its point from at
// the point to, scaled by num/den: lines, type and dashes too. Patterns keep
// their lines apart as they are.
func (d *Drawing) Play(src *Drawing, window layout.Rect, to layout.Point, num, den layout.Length) {
	was, clip := d.LayerName(), d.clip
	move := func(p layout.Point) layout.Point {
		return layout.Point{X: to.X + (p.X-window.X0)*num/den, Y: to.Y + (p.Y-window.Y0)*num/den}
	}
	frame := func(r layout.Rect) layout.Rect {
		a, b := move(layout.Point{X: r.X0, Y: r.Y0}), move(layout.Point{X: r.X1, Y: r.Y1})
		return layout.Rect{X0: a.X, Y0: a.Y, X1: b.X, Y1: b.Y}
	}
	for _, l := range src.layers {
		d.Layer(l.name)
		for _, m := range l.marks {
			seen := window
			if m.clip != nil {
				seen = seen.Intersect(*m.clip)
			}
			if !reaches(m.bounds(), seen) {
				continue
			}
			cut := frame(seen)
			d.clip = &cut
			d.add(m.scaled(move, num, den))
		}
	}
	d.clip = clip
	d.Layer(was)
}

// scaled returns the mark with its points moved and its measures scaled.
func (m mark) scaled(move func(layout.Point) layout.Point, num, den layout.Length) mark {
	m.points = slices.Clone(m.points)
	for i, p := range m.points {
		m.points[i] = move(p)
	}
	m.origin = move(m.origin)
	by := func(l *layout.Length) { *l = *l * num / den }
	by(&m.radius)
	by(&m.style.Line)
	by(&m.style.Corner)
	by(&m.set.Size)
	m.style.Dash = slices.Clone(m.style.Dash)
	for i := range m.style.Dash {
		by(&m.style.Dash[i])
	}
	return m
}

// reaches reports whether the two share a point.
func reaches(a, b layout.Rect) bool {
	return a.X0 <= b.X1 && b.X0 <= a.X1 && a.Y0 <= b.Y1 && b.Y0 <= a.Y1
}

func corners(r layout.Rect) []layout.Point {
	return []layout.Point{{X: r.X0, Y: r.Y0}, {X: r.X1, Y: r.Y1}}
}

// bounds returns a rectangle that holds all of the mark's ink.
func (m *mark) bounds() layout.Rect {
	if m.shape == words {
		return m.set.Bounds(m.points[0], m.text)
	}
	r := layout.Rect{X0: math.MaxInt64, Y0: math.MaxInt64, X1: math.MinInt64, Y1: math.MinInt64}
	for _, p := range m.points {
		r.X0, r.Y0 = min(r.X0, p.X), min(r.Y0, p.Y)
		r.X1, r.Y1 = max(r.X1, p.X), max(r.Y1, p.Y)
	}
	by := m.radius + m.style.Line
	return r.Grow(layout.Edges{Front: by, Back: by, Left: by, Right: by})
}

// Ink returns a rectangle that holds all that is drawn, empty for nothing.
func (d *Drawing) Ink() layout.Rect {
	var r layout.Rect
	for _, l := range d.layers {
		for i := range l.marks {
			b := l.marks[i].bounds()
			if c := l.marks[i].clip; c != nil {
				b = b.Intersect(*c)
			}
			r = r.Union(b)
		}
	}
	return r
}

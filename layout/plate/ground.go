package plate

import (
	"slices"

	"footplank/layout"
	"footplank/layout/paper"
)

const mm = layout.Millimetre

var (
	deckLine  = paper.Style{Line: 500}
	riserLine = paper.Style{Line: 350, Dash: []layout.Length{6 * mm, 1500, 1 * mm, 1500}}
	slotLine  = paper.Style{Line: 350, Dash: []layout.Length{0, 1700}, Round: true}
	wood      = paper.Style{Line: 200, Ink: paper.Grey, Fill: paper.Grain}
	plugLine  = paper.Style{Line: 200, Ink: paper.Grey}
	hidden    = paper.Style{Line: 250, Dash: []layout.Length{1500, 1000}}
	gridLine  = paper.Style{Line: 100, Ink: 200}
)

// ground draws a surface with what belongs to it.
func (v *view) ground(p *layout.Plan, on *layout.Surface) {
	v.layer("board")
	for _, r := range on.Rails {
		v.d.Rect(v.rect(r.At.Intersect(on.At)), wood)
	}
	v.d.RectAs("surface", v.rect(on.At), deckLine)
	if on.Name == layout.DeckName {
		for _, r := range p.Board.Risers {
			for _, leg := range r.Legs {
				v.d.RectAs("leg", v.rect(leg.At), wood)
			}
			v.d.RectAs("riser", v.rect(r.At), riserLine)
			v.edgeWords(v.rect(r.At), "riser "+r.Name, paper.End)
		}
		for _, f := range p.Board.Fixtures {
			v.d.Rect(v.rect(f.Box.Rect()), wood)
			v.words(middle(v.rect(f.Box.Rect())), f.Name, paper.Type{Size: v.size(2500), Anchor: paper.Middle, Boxed: true})
		}
	}
	for _, r := range p.Board.Risers {
		if r.Name == on.Name {
			for _, leg := range r.Legs {
				v.layer("board")
				v.d.RectAs("leg", v.rect(leg.At), hidden)
			}
		}
	}
	if v.mirror {
		return
	}
	for _, s := range p.Slots {
		if s.On == on.Name {
			v.layer("board")
			v.d.RectAs("slot", v.rect(s.At), slotLine)
			v.edgeWords(v.rect(s.At), "slot "+s.Name, paper.Start)
		}
	}
}

// edgeWords writes a name on the back edge of a rectangle of the drawing, or
// just within it, at its left or its right, where there is room.
func (v *view) edgeWords(r layout.Rect, text string, a paper.Anchor) {
	t := paper.Type{Size: v.size(2600), Face: paper.Italic, Anchor: a, Boxed: true}
	w := t.Width(text) + 2*t.Size
	for _, y := range []layout.Length{r.Y0 + t.Cap()/2, r.Y0 + 4*mm + t.Cap()} { // on the line, else within it
		for _, shift := range []layout.Length{0, w, 2 * w, 3 * w} {
			at := layout.Point{X: r.X0 + 2*mm + shift, Y: y}
			if a == paper.End {
				at.X = r.X1 - 2*mm - shift
			}
			if b := t.Bounds(at, text); b.X0 >= r.X0 && b.X1 <= r.X1 && v.free(b) && v.onOnePage(b) {
				v.words(at, text, t)
				return
			}
		}
	}
	at := layout.Point{X: r.X0 + 2*mm, Y: r.Y0 - 800}
	t.Anchor = paper.Start
	v.words(at, text, t)
}

// words writes a text over everything else and takes its room.
func (v *view) words(at layout.Point, text string, t paper.Type) {
	v.layer("labels")
	v.d.Text(at, text, t)
	v.take(grow(t.Bounds(at, text), t.Size/4))
}

// marksOf returns how far apart the marks of a ruler are, how many of them go to
// a long one, and how far apart the numbers are.
func (v *view) marksOf() (step layout.Length, every layout.Length, named layout.Length) {
	if v.unit == layout.Inches {
		return layout.Inch / 2, 2, layout.Inch
	}
	return 10 * mm, 5, 50 * mm
}

// rulers draws scales inside of the four edges of a surface, so that pages need
// no room for them, and a grid over it.
func (v *view) rulers(on layout.Rect) {
	step, every, _ := v.marksOf()
	edge := v.rect(on)
	mark := func(i layout.Length, from, to layout.Point, dx, dy layout.Length) {
		tall := 1500 * layout.Micrometre
		if i%every == 0 {
			tall = 3 * mm
			v.layer("grid")
			v.d.Line(from, to, gridLine)
		}
		v.layer("rulers")
		v.d.Line(from, layout.Point{X: from.X + dx*tall, Y: from.Y + dy*tall}, paper.Style{Line: 200})
		v.d.Line(to, layout.Point{X: to.X - dx*tall, Y: to.Y - dy*tall}, paper.Style{Line: 200})
	}
	for i := layout.Length(1); i*step < on.W(); i++ {
		x := v.pt(layout.Point{X: on.X0 + i*step}).X
		mark(i, layout.Point{X: x, Y: edge.Y1}, layout.Point{X: x, Y: edge.Y0}, 0, -1)
	}
	for i := layout.Length(1); i*step < on.D(); i++ {
		y := v.oy - on.Y0 - i*step
		mark(i, layout.Point{X: edge.X0, Y: y}, layout.Point{X: edge.X1, Y: y}, 1, 0)
	}
}

// rulerNumbers writes the numbers of the rulers, where nothing else is.
func (v *view) rulerNumbers(on layout.Rect) {
	step, _, named := v.marksOf()
	edge := v.rect(on)
	t := paper.Type{Size: v.size(2600), Anchor: paper.Middle, Boxed: true}
	const in = 3500 * layout.Micrometre
	write := func(at layout.Point, text string, a paper.Anchor) {
		t.Anchor = a
		b := grow(t.Bounds(at, text), 300)
		breaks := slices.ContainsFunc(v.bodies, func(r layout.Rect) bool { return r.Overlaps(b) && !r.Contains(b) })
		if v.free(b) && edge.Contains(b) && !breaks {
			v.words(at, text, t)
		}
	}
	for i := named / step; i*step < on.W(); i += named / step {
		x, text := v.pt(layout.Point{X: on.X0 + i*step}).X, number(i*step, v.unit)
		write(layout.Point{X: x, Y: edge.Y1 - in}, text, paper.Middle)
		write(layout.Point{X: x, Y: edge.Y0 + in + t.Cap()}, text, paper.Middle)
	}
	for i := named / step; i*step < on.D(); i += named / step {
		y, text := v.oy-on.Y0-i*step+t.Cap()/2, number(i*step, v.unit)
		write(layout.Point{X: edge.X0 + in, Y: y}, text, paper.Start)
		write(layout.Point{X: edge.X1 - in, Y: y}, text, paper.End)
	}
}

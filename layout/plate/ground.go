package plate

import (
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

// edgeWords writes a name on the back edge of a rectangle of the drawing, at
// its left or its right, where there is room.
func (v *view) edgeWords(r layout.Rect, text string, a paper.Anchor) {
	t := paper.Type{Size: v.size(2600), Face: paper.Italic, Anchor: a, Boxed: true}
	w := t.Width(text) + 2*t.Size
	for _, shift := range []layout.Length{0, w, 2 * w, 3 * w} {
		at := layout.Point{X: r.X0 + 2*mm + shift, Y: r.Y0 + t.Cap()/2}
		if a == paper.End {
			at.X = r.X1 - 2*mm - shift
		}
		if b := t.Bounds(at, text); b.X0 >= r.X0 && b.X1 <= r.X1 && v.free(b) {
			v.words(at, text, t)
			return
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

// rulers draws scales at the front and the left of a surface, as seen, and a
// grid over it. area is what is drawn of the board's plane.
func (v *view) rulers(on, area layout.Rect) {
	step, every, named := 10*mm, layout.Length(5), 50*mm
	if v.unit == layout.Inches {
		step, every, named = layout.Inch/2, 2, layout.Inch
	}
	t := paper.Type{Size: v.size(2800), Anchor: paper.Middle}
	front := v.oy - area.Y0 + 2*mm
	for i := layout.Length(0); i*step <= on.W(); i++ {
		x := v.pt(layout.Point{X: on.X0 + i*step}).X
		tall := 1500 * layout.Micrometre
		if i%every == 0 {
			tall = 3 * mm
			v.layer("grid")
			v.d.Line(layout.Point{X: x, Y: v.rect(on).Y0}, layout.Point{X: x, Y: v.rect(on).Y1}, gridLine)
			v.layer("rulers")
			if (i*step)%named == 0 {
				v.d.Text(layout.Point{X: x, Y: front + 3500 + t.Cap()}, number(i*step, v.unit), t)
			}
		}
		v.layer("rulers")
		v.d.Line(layout.Point{X: x, Y: front}, layout.Point{X: x, Y: front + tall}, paper.Style{Line: 200})
	}
	left := min(v.rect(area).X0, v.rect(on).X0) - 2*mm
	t.Anchor = paper.End
	for i := layout.Length(0); i*step <= on.D(); i++ {
		y := v.oy - on.Y0 - i*step
		tall := 1500 * layout.Micrometre
		if i%every == 0 {
			tall = 3 * mm
			v.layer("grid")
			v.d.Line(layout.Point{X: v.rect(on).X0, Y: y}, layout.Point{X: v.rect(on).X1, Y: y}, gridLine)
			v.layer("rulers")
			if (i*step)%named == 0 {
				v.d.Text(layout.Point{X: left - 3500, Y: y + t.Cap()/2}, number(i*step, v.unit), t)
			}
		}
		v.layer("rulers")
		v.d.Line(layout.Point{X: left, Y: y}, layout.Point{X: left - tall, Y: y}, paper.Style{Line: 200})
	}
}

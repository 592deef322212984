package plate

import (
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/paper"
)

// unitLine tells by its line how a unit is held.
func unitLine(m layout.Mount) paper.Style {
	if m == layout.Fixed {
		return paper.Style{Line: 700}
	}
	return paper.Style{Line: 700, Dash: []layout.Length{4 * mm, 1600}}
}

// plain draws a unit that is there but not what the sheet is about.
func (v *view) plain(s *layout.Standing) {
	v.layer("units")
	base := v.rect(s.Unit.Base(s.Place))
	style := unitLine(s.Unit.Mount)
	style.Line, style.Ink = 300, paper.Grey
	v.bodies = append(v.bodies, base)
	v.d.RectAs("body", base, style)
	v.label(s, base, nil)
}

// whole draws a unit with plugs, jacks, front and switches.
func (v *view) whole(s *layout.Standing) {
	u := s.Unit
	v.layer("units")
	for _, b := range s.Boxes {
		if b.Part != layout.BodyPart {
			v.d.RectAs(string(b.Part), v.rect(b.Box.Rect()), plugLine)
		}
	}
	base := v.rect(u.Base(s.Place))
	v.bodies = append(v.bodies, base)
	v.d.RectAs("body", base, unitLine(u.Mount))
	v.front(base, s.Place.Turn)
	for i := range u.Switches {
		c, _ := s.SwitchAt(i)
		at := v.pt(c)
		v.layer("labels")
		v.d.Circle(at, 3*mm, paper.Style{Line: 300, Fill: paper.Solid, Ground: paper.White})
		v.d.Line(layout.Point{X: at.X - 2*mm, Y: at.Y}, layout.Point{X: at.X + 2*mm, Y: at.Y}, paper.Style{Line: 200})
		v.d.Line(layout.Point{X: at.X, Y: at.Y - 2*mm}, layout.Point{X: at.X, Y: at.Y + 2*mm}, paper.Style{Line: 200})
		v.take(grow(layout.Rect{X0: at.X, Y0: at.Y, X1: at.X, Y1: at.Y}, 3200))
	}
}

// jacks marks where the plugs sit, black for those in use, with their names
// inside the wall.
func (v *view) jacks(s *layout.Standing) {
	u := s.Unit
	for i := range u.Jacks {
		j := &u.Jacks[i]
		own, _ := u.Axis(j, s.Place.Turn)
		at := v.pt(s.Place.At.Add(own))
		used := slices.ContainsFunc(s.Boxes, func(b layout.PartBox) bool { return b.Part == layout.PlugPart && b.Jack == j.ID })
		st := paper.Style{Line: 250, Fill: paper.Solid, Ground: paper.White}
		if used {
			st.Ground = paper.Black
		}
		v.layer("labels")
		v.d.Circle(at, 1100, st)
		v.take(grow(layout.Rect{X0: at.X, Y0: at.Y, X1: at.X, Y1: at.Y}, 1300))
		if used {
			v.jackName(j.ID, at, j.Wall.Turned(s.Place.Turn))
		}
	}
}

// jackName writes a jack's name inside its wall, along the way into the unit.
func (v *view) jackName(name string, at layout.Point, wall layout.Wall) {
	t := paper.Type{Size: v.size(2000), Boxed: true}
	if v.mirror && (wall == layout.Left || wall == layout.Right) {
		wall = layout.Left + layout.Right - wall
	}
	const in = 2 * mm
	switch wall {
	case layout.Left:
		at = layout.Point{X: at.X + in, Y: at.Y + t.Cap()/2}
	case layout.Right:
		t.Anchor = paper.End
		at = layout.Point{X: at.X - in, Y: at.Y + t.Cap()/2}
	case layout.Back:
		t.Turn = 1
		at = layout.Point{X: at.X - t.Cap()/2, Y: at.Y + in}
	default:
		t.Turn = 3
		at = layout.Point{X: at.X + t.Cap()/2, Y: at.Y - in}
	}
	if v.free(t.Bounds(at, name)) {
		v.words(at, name, t)
	}
}

// front draws a triangle inside the wall that is the front at turn 0.
func (v *view) front(base layout.Rect, t layout.Turn) {
	const half, tall = 3 * mm, 3500
	c := middle(base)
	wall := layout.Front.Turned(t)
	if v.mirror && (wall == layout.Left || wall == layout.Right) {
		wall = layout.Left + layout.Right - wall
	}
	var pts []layout.Point
	switch wall {
	case layout.Front: // the lower side of the sheet
		pts = []layout.Point{{X: c.X - half, Y: base.Y1 - tall}, {X: c.X + half, Y: base.Y1 - tall}, {X: c.X, Y: base.Y1}}
	case layout.Back:
		pts = []layout.Point{{X: c.X - half, Y: base.Y0 + tall}, {X: c.X + half, Y: base.Y0 + tall}, {X: c.X, Y: base.Y0}}
	case layout.Left:
		pts = []layout.Point{{X: base.X0 + tall, Y: c.Y - half}, {X: base.X0 + tall, Y: c.Y + half}, {X: base.X0, Y: c.Y}}
	default:
		pts = []layout.Point{{X: base.X1 - tall, Y: c.Y - half}, {X: base.X1 - tall, Y: c.Y + half}, {X: base.X1, Y: c.Y}}
	}
	v.layer("labels")
	v.d.Poly(pts, true, paper.Style{Fill: paper.Solid, Ground: paper.Black})
	r := layout.Rect{X0: pts[0].X, Y0: pts[0].Y, X1: pts[0].X, Y1: pts[0].Y}
	for _, p := range pts[1:] {
		r = layout.Rect{X0: min(r.X0, p.X), Y0: min(r.Y0, p.Y), X1: max(r.X1, p.X), Y1: max(r.Y1, p.Y)}
	}
	v.take(r)
}

// howText says in words how a unit is held and turned.
func howText(s *layout.Standing) string {
	text := string(s.Unit.Mount)
	if s.Place.Turn != 0 {
		text += fmt.Sprintf(", turn %d°", s.Place.Turn.Degrees())
	}
	return text
}

// name returns a unit's label, with its ID where the label cannot be written
// as it is.
func name(u *layout.Unit) string {
	if _, whole := paper.Drawable(u.Label, paper.Bold); !whole {
		return u.Label + " (" + u.ID + ")"
	}
	return u.Label
}

// label writes a unit's name, and the further lines smaller, as large as fits
// into the base, or into what one page shows of it, without meeting what is taken.
func (v *view) label(s *layout.Standing, base layout.Rect, rest []string) {
	const legible, least = 2600, 1700
	parts := v.parts(base)
	// A name that can be read goes before places, which the tables have too.
	if v.labelFits(s, parts, rest, v.size(v.largest()), v.size(legible)) ||
		v.labelFits(s, parts, nil, v.size(v.largest()), v.size(legible)) ||
		v.labelFits(s, parts, rest, v.size(legible), v.size(least)) ||
		v.labelFits(s, parts, nil, v.size(legible), v.size(least)) {
		return
	}
	// Whatever it meets: no unit may be without a name.
	base = parts[min(1, len(parts)-1)]
	t := paper.Type{Size: v.size(least), Face: paper.Bold}
	lines := t.Wrap(name(s.Unit), max(base.W(), base.D())-2*mm)
	at := layout.Point{X: middle(base).X, Y: middle(base).Y - t.Size*layout.Length(len(lines))/2}
	var block []blockLine
	for _, l := range lines {
		block = append(block, blockLine{l, true})
	}
	v.drawBlock(block, at, t.Size)
}

// labelFits writes a unit's name and further lines at the largest size that fits,
// and reports whether one did.
func (v *view) labelFits(s *layout.Standing, parts []layout.Rect, rest []string, from, least layout.Length) bool {
	for size := from; size >= least; size -= v.size(150) {
		for _, part := range parts {
			lines, tall := v.block(name(s.Unit), rest, part, size)
			for _, y := range heights(part, tall) {
				at := layout.Point{X: middle(part).X, Y: y}
				if lines != nil && v.blockFree(lines, at, size) {
					v.drawBlock(lines, at, size)
					return true
				}
			}
		}
	}
	return false
}

// blockLine is a line of a label; those that are not bold are set smaller.
type blockLine struct {
	text string
	bold bool
}

func (v *view) lineType(l blockLine, size layout.Length) paper.Type {
	t := paper.Type{Size: size, Face: paper.Bold, Anchor: paper.Middle, Boxed: true}
	if !l.bold {
		t.Face, t.Size = paper.Regular, min(size, v.size(2800))
	}
	return t
}

// block wraps a label at that size; nil if it does not fit into the base, or
// only with a word broken.
func (v *view) block(text string, rest []string, base layout.Rect, size layout.Length) (lines []blockLine, tall layout.Length) {
	wide := base.W() - 2*mm
	bold := v.lineType(blockLine{bold: true}, size)
	for _, l := range bold.Wrap(text, wide) {
		lines = append(lines, blockLine{l, true})
		tall += bold.Lead()
	}
	if size > v.size(2000) && slices.ContainsFunc(lines, func(l blockLine) bool { return !wordWise(text, l.text) }) {
		return nil, 0
	}
	for _, l := range rest {
		t := v.lineType(blockLine{text: l}, size)
		if t.Width(l) > wide {
			return nil, 0
		}
		lines = append(lines, blockLine{l, false})
		tall += t.Lead()
	}
	if tall > base.D()-2*mm {
		return nil, 0
	}
	return lines, tall
}

// heights returns the tops to try for a block in a base: the middle first.
func heights(base layout.Rect, tall layout.Length) []layout.Length {
	c := middle(base).Y - tall/2
	out := []layout.Length{c}
	for by := mm; c-by > base.Y0+mm; by += mm {
		out = append(out, c-by, c+by)
	}
	return out
}

func (v *view) blockFree(lines []blockLine, at layout.Point, size layout.Length) bool {
	var all layout.Rect
	for _, l := range lines {
		t := v.lineType(l, size)
		b := t.Bounds(layout.Point{X: at.X, Y: at.Y + t.Size}, l.text)
		if !v.free(b) {
			return false
		}
		all = all.Union(b)
		at.Y += t.Lead()
	}
	return v.onOnePage(all)
}

func (v *view) drawBlock(lines []blockLine, at layout.Point, size layout.Length) {
	for _, l := range lines {
		t := v.lineType(l, size)
		v.words(layout.Point{X: at.X, Y: at.Y + t.Size}, l.text, t)
		at.Y += t.Lead()
	}
}

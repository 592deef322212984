package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"footplank/layout"
	"footplank/layout/mount"
)

const (
	plugStyle  = `fill="none" stroke="#777" stroke-width="0.2"`
	slotStyle  = `fill="none" stroke="black" stroke-width="0.3" stroke-dasharray="0.3 1.7" stroke-linecap="round"`
	riserStyle = `fill="none" stroke="black" stroke-width="0.3" stroke-dasharray="6 1.5 1 1.5"`
	stripStyle = `fill="#e4e4e4" stroke="black" stroke-width="0.25" stroke-dasharray="1.2 0.8"`
	woodStyle  = `fill="url(#wood)" stroke="#777" stroke-width="0.2"`
)

func pieceStyle(k mount.Kind) string {
	return fmt.Sprintf(`fill="url(#%s)" stroke="black" stroke-width="0.25"`, k)
}

func unitStyle(m layout.Mount) string {
	if m == layout.Fixed {
		return `fill="none" stroke="black" stroke-width="0.7"`
	}
	return `fill="none" stroke="black" stroke-width="0.7" stroke-dasharray="4 1.6"`
}

// drawing places a plate on the sheet: a point of the board is at x+X, y-Y.
type drawing struct {
	*svg
	x, y   layout.Length // the sheet's place of the board's front-left corner
	corner layout.Point  // of the surface: numbers count from here
}

func (d *drawing) r(r layout.Rect) layout.Rect {
	return layout.Rect{X0: d.x + r.X0, Y0: d.y - r.Y1, X1: d.x + r.X1, Y1: d.y - r.Y0}
}

func (d *drawing) number(p layout.Point) string {
	return (p.X - d.corner.X).Tape(layout.Millimetres) + ", " + (p.Y - d.corner.Y).Tape(layout.Millimetres)
}

// plate draws a plate whose board's left edge is at left and whose top is at y,
// and returns the y below it.
func (s *svg) plate(p *layout.Plan, pl *plate, left, y layout.Length) layout.Length {
	mm := layout.Millimetre
	on := pl.surface
	area := on.At.Grow(layout.Edges{Front: max(on.Overhang.Front, 0), Back: max(on.Overhang.Back, 0)})
	if on.Name == layout.DeckName {
		area = tight(p)
	}
	for _, u := range pl.units { // plugs may stand past a riser's edges
		for _, b := range u.Boxes {
			r := b.Box.Rect().Intersect(area.Grow(layout.Edges{Front: 60 * mm, Back: 60 * mm}))
			if !r.Empty() {
				area.Y0, area.Y1 = min(area.Y0, r.Y0), max(area.Y1, r.Y1)
			}
		}
	}
	s.text(svgMargin, y+4*mm, 4*mm, "start", "", pl.heading())
	y += 8 * mm
	d := &drawing{svg: s, x: left, y: y + area.Y1, corner: layout.Point{X: on.At.X0, Y: on.At.Y0}}
	s.printf("<g data-surface=\"%s\">\n", escape(clean(on.Name)))
	d.ground(p, &on)
	for i := range pl.strips {
		d.strip(&pl.strips[i], pl.strip[i])
	}
	for i := range pl.units {
		d.plugs(&pl.units[i])
	}
	for i := range pl.units {
		d.unit(&pl.units[i], pl.pieces)
	}
	d.rulers(on.At, area)
	s.printf("</g>\n")
	return y + area.D() + svgRuler + 4*mm
}

func (pl *plate) heading() string {
	at := pl.surface.At
	text := fmt.Sprintf("%s, %s x %s mm", clean(pl.surface.Name), mmText(at.W()), mmText(at.D()))
	if pl.surface.Name != layout.DeckName {
		text += fmt.Sprintf(", its front-left corner at %s, %s of the board; top %s mm above the deck",
			mmText(at.X0), mmText(at.Y0), mmText(pl.surface.Z))
	}
	return text
}

// ground draws the surface and what belongs to it.
func (d *drawing) ground(p *layout.Plan, on *layout.Surface) {
	for _, r := range on.Rails {
		d.rect(d.r(r.At), woodStyle)
	}
	d.rect(d.r(on.At), `fill="none" stroke="black" stroke-width="0.5" class="surface"`)
	if on.Name == layout.DeckName {
		for _, r := range p.Board.Risers {
			for _, leg := range r.Legs {
				d.rect(d.r(leg.At), woodStyle)
			}
			at := d.r(r.At)
			d.rect(at, riserStyle)
			d.text(at.X1-2000, at.Y0-1000, 3000, "end", "", clean(r.Name))
		}
		for _, f := range p.Board.Fixtures {
			at := d.r(f.Box.Rect())
			d.rect(at, woodStyle)
			d.boxed((at.X0+at.X1)/2, (at.Y0+at.Y1)/2, 3000, "middle", "", clean(f.Name))
		}
	}
	for _, s := range p.Slots {
		if s.On == on.Name {
			at := d.r(s.At)
			d.rect(at, slotStyle)
			d.text(at.X0+1500, at.Y0-1000, 3000, "start", ` font-style="italic"`, "slot "+clean(s.Name))
		}
	}
}

// strip draws a strip of the board with its number, for those stretches that lie
// beneath no unit of this line-up.
func (d *drawing) strip(b *mount.BoardPiece, number int) {
	at := d.r(b.At)
	d.printf("<g data-strip=\"%d\">\n", number)
	d.rect(at, stripStyle+` class="strip"`)
	d.text(at.X1-1000, at.Y0+3200, 2600, "end", "", strconv.Itoa(number))
	d.printf("</g>\n")
}

// plugs draws the room of a unit's plugs, and of a treadle beyond its body.
func (d *drawing) plugs(u *layout.Standing) {
	for _, b := range u.Boxes {
		if b.Part != layout.BodyPart {
			d.rect(d.r(b.Box.Rect()), plugStyle)
		}
	}
}

// unit draws a unit's outline, its pieces, front, switches and texts.
func (d *drawing) unit(s *layout.Standing, pieces []mount.Piece) {
	u := s.Unit
	base := d.r(u.Base(s.Place))
	d.printf("<g data-unit=\"%s\">\n", escape(clean(u.ID)))
	for _, m := range pieces {
		if m.Unit == u.ID {
			d.rect(d.r(m.OnBoard), pieceStyle(m.Kind)+` class="piece"`)
		}
	}
	d.rect(base, unitStyle(u.Mount)+` class="body"`)
	d.front(base, s.Place.Turn)
	for i := range u.Switches {
		c, _ := s.SwitchAt(i)
		x, y := d.x+c.X, d.y-c.Y
		d.printf("<circle cx=%q cy=%q r=\"3\" fill=\"white\" stroke=\"black\" stroke-width=\"0.3\"/>\n", mmText(x), mmText(y))
		d.line(x-2000, y, x+2000, y, `stroke="black" stroke-width="0.2"`)
		d.line(x, y-2000, x, y+2000, `stroke="black" stroke-width="0.2"`)
	}
	d.unitText(s, base)
	for _, m := range pieces {
		if m.Unit == u.ID {
			d.pieceText(&m)
		}
	}
	d.printf("</g>\n")
}

// front draws a triangle inside the wall that is the front at turn 0.
func (d *drawing) front(base layout.Rect, t layout.Turn) {
	const half, tall = 3000, 3500
	c := base.Center()
	var pts [3]layout.Point
	switch layout.Front.Turned(t) {
	case layout.Front: // the lower side of the sheet
		pts = [3]layout.Point{{X: c.X - half, Y: base.Y1 - tall}, {X: c.X + half, Y: base.Y1 - tall}, {X: c.X, Y: base.Y1}}
	case layout.Back:
		pts = [3]layout.Point{{X: c.X - half, Y: base.Y0 + tall}, {X: c.X + half, Y: base.Y0 + tall}, {X: c.X, Y: base.Y0}}
	case layout.Left:
		pts = [3]layout.Point{{X: base.X0 + tall, Y: c.Y - half}, {X: base.X0 + tall, Y: c.Y + half}, {X: base.X0, Y: c.Y}}
	default:
		pts = [3]layout.Point{{X: base.X1 - tall, Y: c.Y - half}, {X: base.X1 - tall, Y: c.Y + half}, {X: base.X1, Y: c.Y}}
	}
	var path []string
	for _, p := range pts {
		path = append(path, mmText(p.X)+","+mmText(p.Y))
	}
	d.printf("<polygon points=%q fill=\"black\"/>\n", strings.Join(path, " "))
}

// unitText writes label, place, mount and turn in the middle of a unit, as
// large as fits from 5 mm down to 1.8.
func (d *drawing) unitText(s *layout.Standing, base layout.Rect) {
	u := s.Unit
	how := string(u.Mount)
	if s.Place.Turn != 0 {
		how += fmt.Sprintf(", turn %d°", s.Place.Turn.Degrees())
	}
	rest := []string{"at " + d.number(s.Place.At), how}
	const least = 1800
	for size := layout.Length(5000); size >= least; size -= 200 {
		chars := int((base.W() - 3000) * 10 / (size * 6))
		words := strings.Fields(clean(u.Label))
		label := wrap(words, chars)
		if size < least+200 {
			label = shorten(clean(u.Label), max(chars, 1), 3)
		}
		small := min(size, 3200)
		tall := layout.Length(len(label))*size*13/10 + layout.Length(len(rest))*small*13/10
		fits := label != nil && tall <= base.D()-6000
		for _, r := range rest {
			fits = fits && textWidth(r, small) <= base.W()-2000
		}
		if !fits && size >= least+200 {
			continue
		}
		y := (base.Y0+base.Y1)/2 - tall/2
		for _, t := range label {
			d.boxed((base.X0+base.X1)/2, y+size*65/100, size, "middle", ` font-weight="bold"`, t)
			y += size * 13 / 10
		}
		for _, t := range rest {
			d.boxed((base.X0+base.X1)/2, y+small*65/100, small, "middle", "", t)
			y += small * 13 / 10
		}
		return
	}
}

// pieceText marks a piece's front-left corner and writes its place and size
// beside it.
func (d *drawing) pieceText(m *mount.Piece) {
	at := d.r(m.OnBoard)
	d.printf("<circle cx=%q cy=%q r=\"0.9\" fill=\"black\"/>\n", mmText(at.X0), mmText(at.Y1))
	place := d.number(layout.Point{X: m.OnBoard.X0, Y: m.OnBoard.Y0})
	size := m.OnBoard.W().Tape(layout.Millimetres) + " x " + m.OnBoard.D().Tape(layout.Millimetres)
	tall := layout.Length(2400)
	for tall > 1400 && max(textWidth(place, tall), textWidth(size, tall)) > at.W()-2500 {
		tall -= 100
	}
	if at.D() < 3*tall {
		d.boxed(at.X0+1800, (at.Y0+at.Y1)/2, tall, "start", "", place+"  "+size)
		return
	}
	d.boxed(at.X0+1800, at.Y1-tall*23/10, tall, "start", "", place)
	d.boxed(at.X0+1800, at.Y1-tall, tall, "start", "", size)
}

// rulers draws scales from the surface's front-left corner, below and left.
func (d *drawing) rulers(on, area layout.Rect) {
	mm := layout.Millimetre
	x0, y0 := d.x+on.X0, d.y-on.Y0
	bottom, side := d.y-area.Y0+2*mm, d.x+min(area.X0, on.X0)-2*mm
	d.printf("<g class=\"ruler\">\n")
	d.line(x0, bottom, x0+on.W(), bottom, `stroke="black" stroke-width="0.2"`)
	d.line(side, y0, side, y0-on.D(), `stroke="black" stroke-width="0.2"`)
	long := min(max(on.W(), on.D()), layout.MaxLength)
	for l := layout.Length(0); l <= long; l += 10 * mm {
		tall := 1500 * layout.Micrometre
		if l%(50*mm) == 0 {
			tall = 3 * mm
		}
		if l <= on.W() {
			d.line(x0+l, bottom, x0+l, bottom+tall, `stroke="black" stroke-width="0.2"`)
		}
		if l <= on.D() {
			d.line(side, y0-l, side-tall, y0-l, `stroke="black" stroke-width="0.2"`)
		}
		if l%(50*mm) == 0 && l <= on.W() {
			d.text(x0+l, bottom+6500, 3000, "middle", "", mmText(l))
		}
		if l%(50*mm) == 0 && l <= on.D() {
			d.text(side-3500, y0-l+1000, 3000, "end", "", mmText(l))
		}
	}
	d.printf("</g>\n")
}

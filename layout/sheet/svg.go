package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"footplank/layout"
	"footplank/layout/mount"
)

// The drawing's own lengths, all in micrometres as everything else.
const (
	svgMargin = 12 * layout.Millimetre
	svgRuler  = 12 * layout.Millimetre // left of and in front of a plate
	svgGap    = 10 * layout.Millimetre
)

// svg gathers a drawing. Coordinates are lengths from the sheet's top-left
// corner; a user unit is one millimetre.
type svg struct {
	b bytes.Buffer
}

func mmText(l layout.Length) string { return l.Number(layout.Millimetres) }

func escape(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer takes everything
	return b.String()
}

func (s *svg) printf(format string, args ...any) { fmt.Fprintf(&s.b, format, args...) }

// rect draws a rectangle of the sheet.
func (s *svg) rect(r layout.Rect, attributes string) {
	s.printf("<rect x=%q y=%q width=%q height=%q %s/>\n", mmText(r.X0), mmText(r.Y0), mmText(r.W()), mmText(r.D()), attributes)
}

func (s *svg) line(x0, y0, x1, y1 layout.Length, attributes string) {
	s.printf("<line x1=%q y1=%q x2=%q y2=%q %s/>\n", mmText(x0), mmText(y0), mmText(x1), mmText(y1), attributes)
}

// text writes a line of text; size is the height of the type, anchor "start",
// "middle" or "end".
func (s *svg) text(x, y, size layout.Length, anchor, attributes, text string) {
	s.printf("<text x=%q y=%q font-size=%q text-anchor=%q%s>%s</text>\n", mmText(x), mmText(y), mmText(size), anchor, attributes, escape(text))
}

// textWidth estimates how wide a text is set: 0.6 of the type's height for each
// cell it takes on a terminal, which few sans-serif faces pass.
func textWidth(text string, size layout.Length) layout.Length {
	return layout.Length(width(text)) * size * 6 / 10
}

// boxed writes a line of text on a white ground, so that it can be read over a
// pattern. y is the middle of the line.
func (s *svg) boxed(x, y, size layout.Length, anchor, attributes, text string) {
	w := textWidth(text, size) + size/2
	if strings.Contains(attributes, "bold") {
		w += w / 10
	}
	left := x - size/4
	switch anchor {
	case "middle":
		left = x - w/2
	case "end":
		left = x - w + size/4
	}
	s.rect(layout.Rect{X0: left, Y0: y - size*6/10, X1: left + w, Y1: y + size*6/10}, `fill="white"`)
	s.text(x, y+size*35/100, size, anchor, attributes, text)
}

const svgPatterns = `<defs>
<pattern id="interlock" width="2.4" height="2.4" patternUnits="userSpaceOnUse">
<rect width="2.4" height="2.4" fill="white"/><circle cx="0.6" cy="0.6" r="0.45" fill="black"/><circle cx="1.8" cy="1.8" r="0.45" fill="black"/>
</pattern>
<pattern id="hook-and-loop" width="2.4" height="2.4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
<rect width="2.4" height="2.4" fill="white"/><rect width="0.7" height="2.4" fill="black"/>
</pattern>
<pattern id="wood" width="3" height="3" patternUnits="userSpaceOnUse">
<rect width="3" height="3" fill="white"/><path d="M0 3 L3 0" stroke="#888" stroke-width="0.15"/>
</pattern>
</defs>
`

// placementSVG draws the placement sheet at true scale: for each line-up a
// plate for the deck and one for each riser that carries something, aligned
// along x, the risers' behind the deck's as they stand.
func placementSVG(w io.Writer, p *layout.Plan) error {
	win := tight(p)
	left := svgMargin + svgRuler - win.X0 // the sheet's x of the board's left edge
	wide := left + win.X1 + svgMargin
	wide = max(wide, 260*layout.Millimetre)
	body := &svg{}
	y := body.head(p, wide)
	for i := range p.Lineups {
		l := &p.Lineups[i]
		body.printf("<g id=\"lineup-%d\" data-lineup=\"%s\">\n", i+1, escape(clean(l.Name)))
		y += svgGap
		body.text(svgMargin, y+6*layout.Millimetre, 6*layout.Millimetre, "start", ` font-weight="bold"`, clip("Line-up "+clean(l.Name), int((wide-2*svgMargin)/4000)))
		y += 10 * layout.Millimetre
		for _, pl := range platesOf(p, l) {
			y = body.plate(p, &pl, left, y)
		}
		body.printf("</g>\n")
	}
	y = body.foot(p, wide, y)
	var out bytes.Buffer
	fmt.Fprintf(&out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%[1]smm\" height=\"%[2]smm\" viewBox=\"0 0 %[1]s %[2]s\" font-family=\"sans-serif\">\n<title>%[3]s</title>\n",
		mmText(wide), mmText(y), escape("Placement sheet: "+clean(p.Title)))
	out.WriteString(svgPatterns)
	fmt.Fprintf(&out, "<rect width=%q height=%q fill=\"white\"/>\n", mmText(wide), mmText(y))
	out.Write(body.b.Bytes())
	out.WriteString("</svg>\n")
	_, err := w.Write(out.Bytes())
	return err
}

// plate is one surface of one line-up with what stands on it.
type plate struct {
	surface layout.Surface
	units   []layout.Standing
	pieces  []mount.Piece
	strips  []mount.BoardPiece // numbered in strip, from 1
	strip   []int
}

// platesOf returns the risers that carry something, the last first, and then
// the deck.
func platesOf(p *layout.Plan, l *layout.Lineup) []plate {
	placed, _ := p.Standings(l)
	laid := mount.Lay(p)
	surfaces := p.Board.Surfaces()
	var out []plate
	for i := len(surfaces) - 1; i >= 0; i-- {
		pl := plate{surface: surfaces[i]}
		for _, s := range placed {
			if s.Place.On == pl.surface.Name {
				pl.units = append(pl.units, s)
			}
		}
		for _, m := range laid.Pieces {
			if m.Surface == pl.surface.Name && (m.Lineup == "" || m.Lineup == l.Name) {
				pl.pieces = append(pl.pieces, m)
			}
		}
		for k, b := range laid.Board {
			if b.Surface == pl.surface.Name {
				pl.strips, pl.strip = append(pl.strips, b), append(pl.strip, k+1)
			}
		}
		if i == 0 || len(pl.units) > 0 {
			out = append(out, pl)
		}
	}
	return out
}

// head draws title, explanation, calibration bar and legend, and returns the y
// below them.
func (s *svg) head(p *layout.Plan, wide layout.Length) layout.Length {
	mm := layout.Millimetre
	x, y := svgMargin, svgMargin
	s.printf("<g id=\"head\">\n")
	s.text(x, y+7*mm, 8*mm, "start", ` font-weight="bold"`, clip("Placement sheet: "+clean(p.Title), int((wide-2*svgMargin)/(5*mm))))
	y += 14 * mm
	for _, t := range setWidth("Seen from above, the player at the lower edge, true to scale. Print at 100 % (\"actual size\") with scaling to fit switched off; on small paper as a poster in tiles. Then measure the bar: it must be 100 mm long. Strips on the board stay there in every line-up. Numbers are mm from the front-left corner of the surface that the unit stands on, first to the right, then to the back; they name the front-left corner of a unit or a piece. Sizes are to the right x to the back.", wide-2*svgMargin, 3500) {
		s.text(x, y, 3500, "start", "", t)
		y += 5 * mm
	}
	y += 3 * mm
	s.printf("<g id=\"calibration\">\n")
	s.line(x, y+4*mm, x+100*mm, y+4*mm, `stroke="black" stroke-width="0.4"`)
	for i := layout.Length(0); i <= 10; i++ {
		tall := 2 * mm
		if i%5 == 0 {
			tall = 4 * mm
		}
		s.line(x+i*10*mm, y+4*mm-tall, x+i*10*mm, y+4*mm, `stroke="black" stroke-width="0.2"`)
	}
	s.printf("</g>\n")
	s.text(x+103*mm, y+4*mm, 3500, "start", "", "100 mm")
	y += 10 * mm
	s.legend(x, y)
	s.printf("</g>\n")
	return y + 16*mm
}

// legend explains patterns and lines, in two rows from x, y.
func (s *svg) legend(x, y layout.Length) {
	mm := layout.Millimetre
	for i, e := range []struct{ attributes, text string }{
		{pieceStyle(mount.Interlock), "interlocking piece"},
		{pieceStyle(mount.HookAndLoop), "hook-and-loop piece"},
		{unitStyle(layout.Fixed), "fixed unit"},
		{unitStyle(layout.Swap), "swapped unit"},
		{plugStyle, "room of a plug"},
		{stripStyle, "strip on the board"},
		{slotStyle, "slot"},
		{riserStyle, "riser above"},
		{woodStyle, "leg, rail or fixture"},
	} {
		at := layout.Point{X: x + layout.Length(i%4)*58*mm, Y: y + layout.Length(i/4)*7*mm}
		s.rect(layout.Rect{X0: at.X, Y0: at.Y, X1: at.X + 12*mm, Y1: at.Y + 5*mm}, e.attributes)
		s.text(at.X+14*mm, at.Y+3800, 3500, "start", "", e.text)
	}
}

// foot writes the cautions and returns the height of the sheet.
func (s *svg) foot(p *layout.Plan, wide, y layout.Length) layout.Length {
	y += svgGap
	s.printf("<g id=\"cautions\">\n")
	for _, c := range cautions(p) {
		for i, t := range setWidth(c, wide-2*svgMargin-4*layout.Millimetre, 3500) {
			if i == 0 {
				s.text(svgMargin, y, 3500, "start", "", "–")
			}
			s.text(svgMargin+4*layout.Millimetre, y, 3500, "start", "", t)
			y += 5 * layout.Millimetre
		}
	}
	s.printf("</g>\n")
	return y + svgMargin - 3*layout.Millimetre
}

// setWidth sets a text in lines of a width.
func setWidth(text string, w, size layout.Length) []string {
	return paraWidth("", text, int(max(w/(size*6/10), 8)))
}

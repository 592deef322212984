package plate

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/paper"
)

// overviewGap is over each surface of an overview, for its heading.
const overviewGap = 12 * mm

// Overview returns a drawing of a line-up with its cables and leads, all its
// surfaces below each other as they lie from the back to the front, whose words
// are legible once Play has scaled it by num/den, which fits wide x high. Places
// count from the board's front-left corner, as in reports and tables.
func Overview(p *layout.Plan, l *layout.Lineup, wide, high layout.Length) (d *paper.Drawing, num, den layout.Length) {
	f := gather(p)
	f.fromBoard = true
	return f.overview(l, f.inUse(l), wide, high)
}

// inUse returns the surfaces that a line-up has something on, and the deck.
func (f *facts) inUse(l *layout.Lineup) []layout.Surface {
	var out []layout.Surface
	for _, s := range risersFirst(f.p) {
		j := job{surface: s, l: l}
		if s.Name == layout.DeckName || len(f.on(&j, true))+len(f.on(&j, false)) > 0 {
			out = append(out, s)
		}
	}
	return out
}

func (f *facts) overview(l *layout.Lineup, surfaces []layout.Surface, wide, high layout.Length) (d *paper.Drawing, num, den layout.Length) {
	left, right, tall := layout.Length(0), layout.Length(0), layout.Length(0)
	jobs := make([]job, len(surfaces))
	for i, s := range surfaces {
		jobs[i] = job{kind: overview, surface: s, l: l, runs: true}
		a := f.area(&jobs[i])
		if i == 0 {
			left, right = -a.X0, a.X1
		}
		left, right = max(left, -a.X0), max(right, a.X1)
		tall += a.D() + 2*edgeRoom + overviewGap
	}
	w := left + right + 2*edgeRoom
	num, den = scaleTo(w, tall, wide, high)
	d = paper.NewDrawing(w, tall)
	(&view{d: d}).start() // before the headings, which are words too
	y := layout.Length(0)
	for i := range jobs {
		j := &jobs[i]
		j.zoom = max(100*den/num, 100)
		a := f.area(j)
		d.Layer("labels")
		d.Text(layout.Point{X: edgeRoom, Y: y + 9*mm}, j.surface.Name, paper.Type{Size: 3500 * j.zoom / 100, Face: paper.Bold})
		y += overviewGap
		v := &view{d: d, corner: layout.Point{X: j.surface.At.X0, Y: j.surface.At.Y0}, unit: f.p.LengthUnit, zoom: j.zoom}
		if f.fromBoard {
			v.corner = layout.Point{}
		}
		v.ox, v.oy = edgeRoom+left, y+edgeRoom+a.Y1
		f.drawOn(v, j, a)
		y += a.D() + 2*edgeRoom
	}
	return d, num, den
}

// scaleTo returns the largest scale down by a whole number of tenths that fits.
func scaleTo(w, h, wide, high layout.Length) (num, den layout.Length) {
	for den := layout.Length(10); ; den++ { // 1:1, 1:1.1, ...
		if w*10 <= wide*den && h*10 <= high*den {
			return 10, den
		}
	}
}

// overviewPages appends a page of a line-up with cables and leads for each
// surface, the way round that shows more.
func (f *facts) overviewPages(doc *paper.Document, o *Options, l *layout.Lineup) {
	for _, s := range f.inUse(l) {
		on := []layout.Surface{s}
		size, body := o.paper(), paper.Body(o.paper())
		d, num, den := f.overview(l, on, body.W(), body.D())
		across := paper.Body(o.paper().Across())
		if d2, n2, den2 := f.overview(l, on, across.W(), across.D()); n2*den > num*den2 {
			size, body, d, num, den = o.paper().Across(), across, d2, n2, den2
		}
		p := doc.Framed(size, paper.Frame{Title: "Line-up " + l.Name + ": " + s.Name + ", overview",
			Note: fmt.Sprintf("Seen from above, scale 1 : %s, to read and not to measure. Cables by letters of the kit, leads by outputs.", ratio(num, den))})
		at := layout.Point{X: body.X0 + (body.W()-d.W*num/den)/2, Y: body.Y0}
		p.Play(d, layout.Rect{X1: d.W, Y1: d.H}, at, num, den)
	}
}

func ratio(num, den layout.Length) string {
	if den%num == 0 {
		return fmt.Sprint(den / num)
	}
	return fmt.Sprintf("%d.%d", den/num, den*10/num%10)
}

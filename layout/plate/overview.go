package plate

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/paper"
)

// Overview returns a drawing of a line-up with its cables and leads, all
// surfaces above each other, whose words are legible once it is scaled down to
// wide x high. The scale is num/den.
func Overview(p *layout.Plan, l *layout.Lineup, wide, high layout.Length) (d *paper.Drawing, num, den layout.Length) {
	return gather(p).overview(l, wide, high)
}

// overviewGap is between the surfaces of an overview, with room for a heading.
const overviewGap = 12 * mm

func (f *facts) overview(l *layout.Lineup, wide, high layout.Length) (d *paper.Drawing, num, den layout.Length) {
	var jobs []job
	surfaces := f.p.Board.Surfaces()
	for i := len(surfaces) - 1; i >= 0; i-- { // risers behind the deck, as they stand
		j := job{kind: overview, surface: surfaces[i], l: l, prefix: "", zoom: 100}
		if i == 0 || len(f.on(&j, true))+len(f.on(&j, false)) > 0 {
			jobs = append(jobs, j)
		}
	}
	left, right, tall := layout.Length(0), layout.Length(0), layout.Length(0)
	for i := range jobs {
		a := f.area(&jobs[i])
		left, right = max(left, -a.X0), max(right, a.X1)
		tall += a.D() + rulerFront + edgeRoom + overviewGap
	}
	w := left + right + rulerLeft + edgeRoom
	num, den = scaleTo(w, tall, wide, high)
	d = paper.NewDrawing(w, tall)
	y := layout.Length(0)
	for i := range jobs {
		j := &jobs[i]
		j.zoom = 100 * den / num
		a := f.area(j)
		t := paper.Type{Size: 3500 * den / num, Face: paper.Bold}
		d.Layer("labels")
		d.Text(layout.Point{X: rulerLeft, Y: y + 9*mm}, j.surface.Name, t)
		y += overviewGap
		v := &view{d: d, corner: layout.Point{X: j.surface.At.X0, Y: j.surface.At.Y0}, unit: f.p.LengthUnit, zoom: j.zoom}
		v.ox, v.oy = rulerLeft+left, y+edgeRoom+a.Y1
		f.drawOn(v, j, a)
		y += a.D() + rulerFront + edgeRoom
	}
	return d, num, den
}

// scaleTo returns the largest of the usual scales that fits.
func scaleTo(w, h, wide, high layout.Length) (num, den layout.Length) {
	for den := layout.Length(10); ; den++ { // tenths: 1:1, 1:1.1, ...
		if w*10 <= wide*den && h*10 <= high*den {
			return 10, den
		}
	}
}

// overviewPage appends the page of a line-up with cables and leads.
func (f *facts) overviewPage(doc *paper.Document, o *Options, l *layout.Lineup) {
	size := o.paper()
	d, num, den := f.overview(l, paper.Body(size).W(), paper.Body(size).D()-4*mm)
	if across := size.Across(); true {
		body := paper.Body(across)
		if d2, n2, den2 := f.overview(l, body.W(), body.D()-4*mm); n2*den > num*den2 {
			size, d, num, den = across, d2, n2, den2
		}
	}
	p := doc.Framed(size, paper.Frame{Title: "Line-up " + l.Name + ": overview",
		Note: fmt.Sprintf("Seen from above, scale 1 : %s, to read and not to measure. Cables by letters of the kit, leads by outputs.", ratio(num, den))})
	body := paper.Body(size)
	at := layout.Point{X: body.X0 + (body.W()-d.W*num/den)/2, Y: body.Y0}
	p.Play(d, layout.Rect{X1: d.W, Y1: d.H}, at, num, den)
}

func ratio(num, den layout.Length) string {
	if den%num == 0 {
		return fmt.Sprint(den / num)
	}
	return fmt.Sprintf("%d.%d", den/num, den*10/num%10)
}

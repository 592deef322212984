package plate

import (
	"io"
	"strings"

	"footplank/layout"
	"footplank/layout/paper"
)

// SVG writes the placement at true scale in one piece: what is there in every
// line-up, and below it each line-up. Layers are "base/board", "base/units",
// "lineup-NAME/cables" and so on. Another font may be used to show it, so no label is replaced.
func SVG(w io.Writer, p *layout.Plan, o Options) error {
	lineups, err := o.lineups(p)
	if err != nil {
		return err
	}
	f := gather(p)
	var jobs []titled
	for _, s := range risersFirst(p) {
		jobs = append(jobs, titled{"In every line-up: " + s.Name, job{kind: base, surface: s, prefix: "base/" + s.Name + "/", zoom: 100}})
	}
	for _, l := range lineups {
		for _, s := range risersFirst(p) {
			jobs = append(jobs, titled{"Line-up " + l.Name + ": " + s.Name,
				job{kind: lineup, surface: s, l: l, prefix: "lineup-" + strings.ReplaceAll(l.Name, "/", "-") + "/" + s.Name + "/", zoom: 100, runs: true}})
		}
	}
	return f.onePiece(w, "Placement: "+p.Title, aboveNote, jobs)
}

// UndersideSVG writes the underside at true scale in one piece.
func UndersideSVG(w io.Writer, p *layout.Plan, o Options) error {
	if _, err := o.lineups(p); err != nil {
		return err
	}
	var jobs []titled
	for _, s := range risersFirst(p) {
		jobs = append(jobs, titled{"Underside, mirrored: " + s.Name, job{kind: below, surface: s, prefix: "underside/" + s.Name + "/", zoom: 100}})
	}
	return gather(p).onePiece(w, "Underside: "+p.Title, belowNote, jobs)
}

// StickersSVG writes the stickers at true scale in one piece.
func StickersSVG(w io.Writer, p *layout.Plan, o Options) error {
	if _, err := o.lineups(p); err != nil {
		return err
	}
	f := gather(p)
	units := f.stickered()
	wide := 400 * mm
	for _, u := range units {
		wide = max(wide, u.Body.W)
	}
	pages := onPages(units, wide, layout.MaxLength)
	tall := layout.Length(0)
	for _, page := range pages {
		for _, s := range page {
			tall = max(tall, s.at.Y+s.unit.Body.D)
		}
	}
	d := paper.NewDrawing(wide+2*svgMargin, tall+svgHead+2*svgMargin)
	head(d, "Stickers: "+p.Title, stickerNote)
	for _, page := range pages {
		for _, s := range page {
			f.sticker(d, "sticker-"+s.unit.ID+"/", s.unit, layout.Point{X: svgMargin + s.at.X, Y: svgMargin + svgHead + s.at.Y})
		}
	}
	return d.SVG(w, "Stickers: "+p.Title)
}

// titled is a drawing with a heading.
type titled struct {
	title string
	job   job
}

const (
	svgMargin = 10 * mm
	svgHead   = 62 * mm
	svgTitle  = 9 * mm // over each drawing
	svgWidth  = 270 * mm
)

// risersFirst returns the surfaces as they lie from the back to the front.
func risersFirst(p *layout.Plan) []layout.Surface {
	s := p.Board.Surfaces()
	return append(s[1:len(s):len(s)], s[0])
}

// onePiece writes drawings below each other, their board's edges aligned.
func (f *facts) onePiece(w io.Writer, title, note string, jobs []titled) error {
	left, right, tall := layout.Length(0), layout.Length(0), svgMargin+svgHead
	for i := range jobs {
		a := f.area(&jobs[i].job)
		if jobs[i].job.kind == below {
			a.X0, a.X1 = -a.X1, -a.X0
		}
		if i == 0 {
			left, right = -a.X0, a.X1
		}
		left, right = max(left, -a.X0), max(right, a.X1)
		tall += svgTitle + a.D() + 2*edgeRoom
	}
	d := paper.NewDrawing(max(left+right+2*edgeRoom, svgWidth)+2*svgMargin, tall+svgMargin)
	head(d, title, note)
	y := svgMargin + svgHead
	for i := range jobs {
		j := &jobs[i].job
		a := f.area(j)
		d.Layer(j.prefix + "title")
		d.Text(layout.Point{X: svgMargin, Y: y + 5*mm}, jobs[i].title, paper.Type{Size: 4500, Face: paper.Bold})
		y += svgTitle
		v := &view{d: d, mirror: j.kind == below, corner: layout.Point{X: j.surface.At.X0, Y: j.surface.At.Y0}, unit: f.p.LengthUnit, prefix: j.prefix, zoom: 100}
		v.ox, v.oy = svgMargin+edgeRoom+left, y+edgeRoom+a.Y1
		f.drawOn(v, j, a)
		y += a.D() + 2*edgeRoom
	}
	return d.SVG(w, title)
}

// head draws title, note, bar and legend over drawings in one piece.
func head(d *paper.Drawing, title, note string) {
	d.Layer("head")
	x := svgMargin
	t := paper.Type{Size: 6 * mm, Face: paper.Bold}
	d.Text(layout.Point{X: x, Y: svgMargin + 5*mm}, t.Shorten(title, d.W-2*svgMargin), t)
	d.Text(layout.Point{X: x, Y: svgMargin + 11*mm}, note, paper.Type{Size: 3300, Face: paper.Italic})
	d.Bar(layout.Point{X: x, Y: svgMargin + 13*mm})
	drawLegend(d, layout.Point{X: x, Y: svgMargin + 26*mm}, d.W-2*svgMargin)
}

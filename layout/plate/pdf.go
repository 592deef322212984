package plate

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/paper"
)

// Options say what to draw and on what.
type Options struct {
	Paper  paper.Size // upright; A4 if zero
	Lineup string     // draw this line-up's own pages only; "" for all
}

func (o *Options) paper() paper.Size {
	if o.Paper == (paper.Size{}) {
		return paper.A4
	}
	return o.Paper
}

// lineups returns the line-ups to draw, or an error that names those there are.
func (o *Options) lineups(p *layout.Plan) ([]*layout.Lineup, error) {
	var out []*layout.Lineup
	names := ""
	for i := range p.Lineups {
		if l := &p.Lineups[i]; o.Lineup == "" || l.Name == o.Lineup {
			out = append(out, l)
		}
		names += ", " + p.Lineups[i].Name
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("line-up %q: the plan has %s", o.Lineup, names[min(len(names), 2):])
	}
	return out, nil
}

// Words that say how a page is seen.
const (
	aboveNote = "Seen from above, the player at the lower edge. True to scale."
	belowNote = "SEEN FROM BELOW, MIRRORED left to right, front edge towards you. True to scale."
)

// PDF writes all sheets: tables, placement, underside and stickers. It returns the labels
// that the fonts in it cannot write as they are.
func PDF(w io.Writer, p *layout.Plan, o Options) ([]paper.Replaced, error) {
	return write(w, p, o, "Placement: ", (*facts).placement, (*facts).underside, (*facts).stickers)
}

// PlacementPDF writes tables and placement.
func PlacementPDF(w io.Writer, p *layout.Plan, o Options) ([]paper.Replaced, error) {
	return write(w, p, o, "Placement: ", (*facts).placement)
}

// UndersidePDF writes the underside.
func UndersidePDF(w io.Writer, p *layout.Plan, o Options) ([]paper.Replaced, error) {
	return write(w, p, o, "Underside: ", (*facts).underside)
}

// StickersPDF writes the stickers for the bases of the units.
func StickersPDF(w io.Writer, p *layout.Plan, o Options) ([]paper.Replaced, error) {
	return write(w, p, o, "Stickers: ", (*facts).stickers)
}

type part func(f *facts, doc *paper.Document, o *Options, lineups []*layout.Lineup)

func write(w io.Writer, p *layout.Plan, o Options, title string, parts ...part) ([]paper.Replaced, error) {
	lineups, err := o.lineups(p)
	if err != nil {
		return nil, err
	}
	f := gather(p)
	doc := paper.NewDocument(title + p.Title)
	for _, part := range parts {
		part(f, doc, &o, lineups)
	}
	replaced, err := doc.PDF(w)
	return Plainly(p, replaced), err
}

// Plainly returns what was replaced by the plan's own names, each once, rather
// than by the texts that they are part of.
func Plainly(p *layout.Plan, replaced []paper.Replaced) []paper.Replaced {
	names := []string{p.Title}
	for i := range p.Units {
		names = append(names, p.Units[i].Label)
	}
	for i := range p.Lineups {
		names = append(names, p.Lineups[i].Name)
	}
	for _, s := range p.Board.Surfaces() {
		names = append(names, s.Name)
	}
	for _, s := range p.Slots {
		names = append(names, s.Name)
	}
	var out []paper.Replaced
	for _, n := range names {
		written, whole := paper.Drawable(n, paper.Regular)
		if !whole && !slices.ContainsFunc(out, func(r paper.Replaced) bool { return r.Text == n }) {
			out = append(out, paper.Replaced{Text: n, Written: written})
		}
	}
	named := len(out)
	for _, r := range replaced {
		if !slices.ContainsFunc(out[:named], func(n paper.Replaced) bool { return strings.Contains(r.Text, n.Text) || partOf(r.Text, n.Text) }) {
			out = append(out, r)
		}
	}
	return out
}

// partOf reports whether a line is a name, or a part of one that was wrapped.
func partOf(line, name string) bool {
	for _, w := range strings.Fields(line) {
		if _, whole := paper.Drawable(w, paper.Regular); !whole && !strings.Contains(name, w) {
			return false
		}
	}
	return true
}

// placement appends tables, the base sheets and the line-ups' own.
func (f *facts) placement(doc *paper.Document, o *Options, lineups []*layout.Lineup) {
	f.intro(doc, o.paper())
	for _, s := range f.p.Board.Surfaces() {
		j := job{kind: base, surface: s, zoom: 100}
		if s.Name != layout.DeckName && len(f.on(&j, true)) == 0 && len(f.stripsOf(&j)) == 0 {
			continue
		}
		doc.Tiles(f.draw(&j).d, paper.Tiling{Paper: o.paper(), Title: "In every line-up: " + s.Name, Note: aboveNote + " All pieces on the board."})
	}
	for _, l := range lineups {
		f.overviewPages(doc, o, l)
		for _, s := range f.p.Board.Surfaces() {
			j := job{kind: lineup, surface: s, l: l, zoom: 100}
			own := f.on(&j, false)
			if len(own) == 0 {
				continue
			}
			v := f.draw(&j)
			d, window := f.crop(v, &j, own)
			doc.Tiles(d, paper.Tiling{Paper: o.paper(), Title: "Line-up " + l.Name + ": " + s.Name,
				Note: aboveNote + " What is this line-up's own.",
				Skip: func(w layout.Rect) bool {
					return !meets(v, own, w.Move(layout.Point{X: window.X0, Y: window.Y0}))
				}})
		}
	}
}

// crop cuts a drawing down to some of its units with their plugs, and to the
// ruler in front of them, so that they can be laid on the board.
func (f *facts) crop(v *view, j *job, own []layout.Standing) (*paper.Drawing, layout.Rect) {
	var r layout.Rect
	for i := range own {
		for _, b := range own[i].Boxes {
			r = r.Union(v.rect(b.Box.Rect()))
		}
	}
	for _, s := range f.stripsOf(j) {
		r = r.Union(v.rect(s.at))
	}
	r = grow(r, 8*mm)
	r.Y1 = max(r.Y1, v.d.H)
	if r.X0 < 2*rulerLeft { // the ruler wholly or not at all
		r.X0 = 0
	}
	d := paper.NewDrawing(r.W(), r.D())
	d.Play(v.d, r, layout.Point{}, 1, 1)
	return d, r
}

// meets reports whether a window of the drawing shows one of the units.
func meets(v *view, units []layout.Standing, w layout.Rect) bool {
	for i := range units {
		if v.rect(units[i].Unit.Base(units[i].Place)).Overlaps(w) {
			return true
		}
	}
	return false
}

// underside appends each surface seen from below.
func (f *facts) underside(doc *paper.Document, o *Options, _ []*layout.Lineup) {
	for _, s := range f.p.Board.Surfaces() {
		j := job{kind: below, surface: s, zoom: 100}
		doc.Tiles(f.draw(&j).d, paper.Tiling{Paper: o.paper(), Title: "Underside: " + s.Name, Note: belowNote})
	}
}

package plate

import (
	"fmt"
	"io"

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
	belowNote = "SEEN FROM BELOW, MIRRORED: turned over left to right, the front edge towards you. True to scale."
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
	return doc.PDF(w)
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
		f.overviewPage(doc, o, l)
		for _, s := range f.p.Board.Surfaces() {
			j := job{kind: lineup, surface: s, l: l, zoom: 100}
			own := f.on(&j, false)
			if len(own) == 0 {
				continue
			}
			v := f.draw(&j)
			doc.Tiles(v.d, paper.Tiling{Paper: o.paper(), Title: "Line-up " + l.Name + ": " + s.Name,
				Note: aboveNote + " The units of this line-up only.",
				Skip: func(w layout.Rect) bool { return !meets(v, own, w) }})
		}
	}
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

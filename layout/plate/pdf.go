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

package book

import (
	"fmt"
	"strings"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/document"
	"footplank/layout/paper"
	"footplank/layout/plate"
	"footplank/layout/sheet"
	"footplank/layout/shopping"
	"footplank/layout/wiring"
)

type kitCable = wiring.KitCable

// Build returns the build book.
func (b *Book) Build() *document.Document {
	d := &document.Document{Title: b.title("Build book")}
	b.cover(d)
	b.findings(d) // before anybody cuts
	b.cautions(d)
	b.buildOrder(d)
	b.units(d)
	b.pieces(d)
	b.cutList(d)
	b.kitByLineup(d)
	b.powerMap(d)
	b.chains(d)
	return d
}

// cover says what the board comes to, and shows it as it stands in each line-up.
func (b *Book) cover(d *document.Document) {
	board, u := &b.p.Board, b.unit()
	what := fmt.Sprintf("Board %s %s", b.over(), u)
	if board.Kind == layout.Rails {
		what += ", " + layout.Plural(len(board.Rails), "rail")
	} else if board.Material != "" {
		what += fmt.Sprintf(", %s %s thick", board.Material, b.length(board.Thickness))
	}
	for _, r := range board.Risers {
		what += fmt.Sprintf(", %s %s %s, top %s above the deck", r.Name, b.size(r.At), u, b.length(r.Height))
	}
	d.Para(what + fmt.Sprintf(". About %s ready to carry. %s, %s in the kit, %s.",
		b.carry(b.carried()), layout.Plural(len(b.p.Units), "unit"), layout.Plural(len(b.w.Kit), "cable"), layout.Plural(len(b.leads), "power lead")))
	for i := range b.p.Lineups {
		d.Add(b.picture(&b.p.Lineups[i]))
	}
}

// coverWide and coverHigh are the room of a drawing of a line-up: two of them on
// a page, or one where that shows it a good deal larger.
const (
	coverWide  = 174 * mm
	coverHigh  = 102 * mm
	coverAlone = 205 * mm
)

// picture draws the board in a line-up from above.
func (b *Book) picture(l *layout.Lineup) document.Figure {
	art, num, den := plate.Overview(b.p, l, coverWide, coverHigh)
	if large, n, d := plate.Overview(b.p, l, coverWide, coverAlone); 4*n*den > 5*num*d {
		art, num, den = large, n, d
	}
	caption := "Line-up " + l.Name + " from above, the player in front."
	return document.Figure{Art: scaled(art, num, den), Instead: b.characters(l), Caption: caption}
}

// scaled returns the drawing at a scale, all of its ink.
func scaled(art *paper.Drawing, num, den layout.Length) *paper.Drawing {
	all := art.Ink().Union(layout.Rect{X1: art.W, Y1: art.H})
	d := paper.NewDrawing(all.W()*num/den, all.D()*num/den)
	d.Play(art, all, layout.Point{}, num, den)
	return d
}

// characters draws the board in a line-up for Markdown and text.
func (b *Book) characters(l *layout.Lineup) []string {
	v := sheet.View{Cols: textCells, Lineup: l.Name, Plugs: true, Switches: true, Slots: true}
	var out []string
	for _, s := range sheet.Picture(b.p, v) {
		out = append(out, strings.TrimRight(s, " "))
	}
	return out
}

// chains draws the chain of each line-up.
func (b *Book) chains(d *document.Document) {
	d.Heading(2, "Chain of each line-up")
	for i := range b.p.Lineups {
		l := &b.p.Lineups[i]
		hops, besides := b.hops(l)
		blocks := []document.Block{document.Heading{Level: 3, Text: "Line-up " + l.Name},
			document.Figure{Art: b.chainArt(hops), Instead: b.chainText(hops, textCells), HighMost: 35}}
		for k := range besides {
			c := &besides[k]
			blocks = append(blocks, document.Para{Text: b.beside(c)})
		}
		d.Add(document.Keep{Blocks: blocks})
	}
}

// findings lists what the check finds, so that nobody builds what has faults.
func (b *Book) findings(d *document.Document) {
	found := check.WithCables(check.All(b.p), b.w, b.m)
	var lines []string
	seen := map[string][]string{}
	for i := range b.p.Lineups {
		for _, f := range found[i].Findings {
			text := strings.ToUpper(string(f.Level[:1])) + string(f.Level[1:]) + ": " + f.Text
			if seen[text] == nil {
				lines = append(lines, text)
			}
			seen[text] = append(seen[text], b.p.Lineups[i].Name)
		}
	}
	if len(lines) == 0 {
		return
	}
	d.Heading(2, "What the check finds")
	for i, s := range lines {
		lines[i] = s + " (" + b.every(seen[s]) + ")"
	}
	d.List(document.Bullet, lines...)
}

// Cables returns the cut list and the kit by line-up.
func (b *Book) Cables() *document.Document {
	d := &document.Document{Title: b.title("Cables")}
	b.cutList(d)
	b.kitByLineup(d)
	return d
}

// Leads returns the power map with its leads.
func (b *Book) Leads() *document.Document {
	d := &document.Document{Title: b.title("Power leads")}
	b.powerMap(d)
	return d
}

// Fasteners returns the pieces of fastener.
func (b *Book) Fasteners() *document.Document {
	d := &document.Document{Title: b.title("Fastener")}
	b.pieces(d)
	return d
}

func fedBy(l *shopping.Lead) (out []string) {
	seen := map[string]bool{}
	for _, u := range l.Uses {
		if !seen[u.Unit] {
			out = append(out, u.Unit)
		}
		seen[u.Unit] = true
	}
	return out
}

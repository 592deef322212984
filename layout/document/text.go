package document

import (
	"fmt"
	"io"
	"strings"
)

// TextWidth is the usual width of plain text, in characters.
const TextWidth = 80

// Text writes the document as plain text in lines of at most that many cells;
// drawings and what is narrower than 20 cells apart.
func (d *Document) Text(w io.Writer, width int) error {
	p := &printed{w: max(width, 20)}
	if d.Title != "" {
		p.part(p.title(d.Title, "=")...)
	}
	p.blocks(d.Blocks)
	_, err := io.WriteString(w, p.b.String())
	return err
}

type printed struct {
	b strings.Builder
	w int
}

// part writes lines with an empty line between them and what is before.
func (p *printed) part(lines ...string) {
	if p.b.Len() > 0 {
		p.b.WriteByte('\n')
	}
	for _, s := range lines {
		p.b.WriteString(strings.TrimRight(s, " ") + "\n")
	}
}

// title returns a heading with a line of that character beneath.
func (p *printed) title(s, under string) []string {
	lines := wrap(Clean(s), p.w)
	long := 0
	for _, s := range lines {
		long = max(long, cells(s))
	}
	return append(lines, strings.Repeat(under, long))
}

func (p *printed) blocks(bs []Block) {
	for _, b := range bs {
		p.block(b)
	}
}

func (p *printed) block(b Block) {
	switch b := b.(type) {
	case Heading:
		switch {
		case b.Level <= 2:
			p.part(p.title(b.Text, "-")...)
		default:
			p.part(wrap(Clean(b.Text), p.w)...)
		}
	case Para:
		p.part(wrap(Clean(b.Text), p.w)...)
	case List:
		p.list(b)
	case *Table:
		p.table(b)
	case Drawing:
		p.part(b.Lines...)
	case Figure:
		if len(b.Instead) > 0 {
			p.part(b.Instead...)
		}
		if b.Caption != "" {
			p.part(wrap(Clean(b.Caption), p.w)...)
		}
	case Caution:
		p.caution(b)
	case PageBreak:
		p.part(strings.Repeat("=", p.w))
	case Keep:
		p.blocks(b.Blocks)
	case Pair:
		p.blocks(b.Left)
		p.blocks(b.Right)
	case Card:
		if p.b.Len() > 0 {
			p.part(strings.Repeat("=", p.w))
		}
		p.part(p.title(b.Title, "=")...)
		p.blocks(b.Blocks)
	}
}

func (p *printed) list(l List) {
	var lines []string
	for i, s := range l.Items {
		mark := "  - "
		switch l.Mark {
		case Number:
			mark = fmt.Sprintf("%*d. ", len(fmt.Sprint(len(l.Items)))+1, i+1)
		case Check:
			mark = "[ ] "
		}
		lines = append(lines, p.hanging(mark, s)...)
	}
	p.part(lines...)
}

// hanging returns a text behind a mark, its other lines indented as far.
func (p *printed) hanging(mark, s string) []string {
	lines := wrap(Clean(s), p.w-len(mark))
	for i := range lines {
		if i == 0 {
			lines[i] = mark + lines[i]
		} else {
			lines[i] = strings.Repeat(" ", len(mark)) + lines[i]
		}
	}
	return lines
}

func (p *printed) table(t *Table) {
	const gap = 2
	head, rows := t.grid()
	if len(head) == 0 {
		return
	}
	w := widths(head, rows, p.w, gap, cells)
	var lines []string
	put := func(row []string) {
		lines = append(lines, tableRow(row, w, gap, t.align)...)
	}
	put(head)
	var rule []string
	for _, n := range w {
		rule = append(rule, strings.Repeat("-", n))
	}
	lines = append(lines, strings.Join(rule, strings.Repeat(" ", gap)))
	for _, r := range rows {
		put(r)
	}
	p.part(lines...)
}

// tableRow sets a row in as many lines as its longest cell needs.
func tableRow(row []string, w []int, gap int, align func(int) Align) []string {
	broken := make([][]string, len(row))
	high := 0
	for i, s := range row {
		broken[i] = wrap(s, w[i])
		high = max(high, len(broken[i]))
	}
	out := make([]string, high)
	for n := range out {
		for i := range row {
			s := ""
			if n < len(broken[i]) {
				s = broken[i][n]
			}
			if i > 0 {
				out[n] += strings.Repeat(" ", gap)
			}
			out[n] += set(s, w[i], align(i))
		}
	}
	return out
}

func (p *printed) caution(c Caution) {
	lines := []string{"  ! " + strings.ToUpper(Clean(c.Title))}
	for _, s := range c.Items {
		lines = append(lines, p.hanging("  ! - ", s)...)
	}
	for i := range lines {
		if strings.HasPrefix(lines[i], "      ") {
			lines[i] = "  !   " + lines[i][6:]
		}
	}
	p.part(lines...)
}

package sheet

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/mount"
)

// Text writes the report for reading in that many columns, 80 for 0: the board, and for each
// line-up its verdict, a drawing, its units, findings, cables and totals.
// Lengths are in the plan's unit.
func Text(w io.Writer, r *Report, cols int) error { return text(w, r, cols, false) }

// TextASCII is Text with drawings that use only ASCII.
func TextASCII(w io.Writer, r *Report, cols int) error { return text(w, r, cols, true) }

func text(w io.Writer, r *Report, cols int, ascii bool) error {
	t := &writer{p: r.plan, ascii: ascii, width: cols}
	t.title(r.Title, "=")
	t.board()
	for i := range r.Lineups {
		t.lineup(&r.Lineups[i])
	}
	t.fastener()
	_, err := io.WriteString(w, t.b.String())
	return err
}

// writer gathers the lines of a text sheet.
type writer struct {
	b     strings.Builder
	p     *layout.Plan
	ascii bool
	width int // of a line, 0 for PageWidth
}

func (t *writer) lines(lines ...string) {
	for _, s := range lines {
		t.b.WriteString(strings.TrimRight(s, " "))
		t.b.WriteByte('\n')
	}
}

// title writes a heading with a line of that character beneath.
func (t *writer) title(s, under string) {
	s = clean(s)
	if s == "" {
		s = "Plan without a title"
	}
	s = clip(s, t.page())
	t.lines(s, strings.Repeat(under, width(s)))
}

func (t *writer) unit() layout.LengthUnit { return t.p.Measure() }

// num returns a length as a number that a tape measure shows.
func (t *writer) num(l layout.Length) string { return l.Tape(t.unit()) }

// length returns a length with its unit.
func (t *writer) length(l layout.Length) string { return t.num(l) + " " + string(t.unit()) }

// upTo returns a length rounded up to what a tape measure shows: whole mm, or
// eighths of an inch.
func (t *writer) upTo(l layout.Length) layout.Length { return l.UpTo(t.unit()) }

func (t *writer) point(p layout.Point) string { return t.num(p.X) + ", " + t.num(p.Y) }

// board describes the board in a few lines.
func (t *writer) board() {
	b, u := &t.p.Board, t.unit()
	parts := []string{fmt.Sprintf("%s x %s %s", t.num(b.W), t.num(b.D), u)}
	switch {
	case b.Kind == layout.Rails:
		parts = append(parts, fmt.Sprintf("%d rails", len(b.Rails)))
	case b.Material != "":
		parts = append(parts, fmt.Sprintf("%s, %s thick", clean(b.Material), t.length(b.Thickness)))
	}
	parts = append(parts, b.TotalMass().Carried(u)+" bare")
	t.lines(t.para("Board  ", strings.Join(parts, "; "))...)
	for _, r := range b.Risers {
		t.lines(t.para("       ", fmt.Sprintf("%s: %s x %s %s, front-left corner at %s, top %s above the deck",
			r.Name, t.num(r.At.W()), t.num(r.At.D()), u, t.point(layout.Point{X: r.At.X0, Y: r.At.Y0}), t.length(r.Height)))...)
	}
	name := "mm"
	if u == layout.Inches {
		name = "inches"
	}
	t.lines(t.para("       ", fmt.Sprintf("Places are in %s from the board's front-left corner, first to the right, then to the back.", name))...)
}

func (t *writer) lineup(l *Lineup) {
	t.lines("")
	t.title(fmt.Sprintf("Line-up %s: %s", l.Name, l.Verdict), "-")
	t.lines("")
	v := View{Cols: t.page() - 2, Lineup: l.Name, ASCII: t.ascii, Plugs: true, Switches: true, Slots: true,
		Faulty: FaultyUnits(l.Findings)}
	for _, s := range Picture(t.p, v) {
		t.lines(" " + s)
	}
	t.legend()
	t.lines("")
	t.units(l)
	t.findings(l)
	t.cables(l)
	t.totals(l)
}

// FaultyUnits returns the IDs of the units that a fault names.
func FaultyUnits(fs []Finding) map[string]bool {
	out := map[string]bool{}
	for _, f := range fs {
		for _, id := range f.Units {
			if f.Level == string(check.Fault) {
				out[id] = true
			}
		}
	}
	return out
}

// tight returns the window that shows the board, its overhang, and what of the
// units in any line-up stands past that.
func tight(p *layout.Plan) layout.Rect {
	b := &p.Board
	win := b.Rect().Grow(b.Overhang)
	for i := range p.Lineups {
		placed, _ := p.Standings(&p.Lineups[i])
		for _, s := range placed {
			for _, x := range s.Boxes {
				win = win.Union(x.Box.Rect().Intersect(Whole(b)))
			}
		}
	}
	return win
}

// rowsFor returns the rows that the view's window needs at its columns.
func rowsFor(p *layout.Plan, v View) int {
	v.Rows = 60
	g := Draw(p, v)
	return min(g.frame.rows+2, v.Rows)
}

func (t *writer) units(l *Lineup) {
	tab := table{head: []string{"Unit", "Label", "On", "At", "Turn", "Mount", "Mass"},
		right: []bool{false, false, false, false, true, false, true}, flex: []int{0, 1, 2}}
	lay := lineupOf(t.p, l.Name)
	for _, u := range l.Units {
		on, at, turn := "nowhere yet", "", ""
		if pl, ok := t.p.PlaceOf(lay, t.p.Unit(u.ID)); ok && u.On != nil {
			on, at, turn = pl.On, t.point(pl.At), fmt.Sprint(pl.Turn.Degrees())
		}
		how := u.Mount
		if u.Pinned {
			how += ", pinned"
		}
		tab.add(u.ID, clean(u.Label), on, at, turn, how, milligrams(u.Mass).Scales(t.unit()))
	}
	t.lines(tab.lines(t.page())...)
	t.lines("")
}

func (t *writer) findings(l *Lineup) {
	if len(l.Findings) == 0 {
		t.lines("  No findings.", "")
		return
	}
	for _, f := range l.Findings {
		level := f.Level
		if level == string(check.Fault) {
			level = "FAULT"
		}
		t.lines(t.para(fmt.Sprintf("  %-8s ", level), fmt.Sprintf("%s [%s]", f.Text, f.Code))...)
	}
	t.lines("")
}

func (t *writer) cables(l *Lineup) {
	if len(l.Cables) > 0 {
		t.cableTable(l.Cables)
		t.lines("")
	}
}

// cableTable lists cables with the one of the kit that each takes.
func (t *writer) cableTable(cables []Cable) {
	u := string(t.unit())
	tab := table{head: []string{"Cable", "From", "To", "Run " + u, "Cut " + u, "Ready-made " + u, "Kit"},
		right: []bool{false, false, false, true, true, true, false}, flex: []int{1, 2}}
	length := func(mm float64) string { return t.num(t.upTo(micrometres(mm))) }
	orNone := func(mm float64) string {
		if mm == 0 {
			return "-"
		}
		return length(mm)
	}
	for _, c := range cables {
		tab.add(c.ID, jackName(c.From), jackName(c.To), length(c.Run), orNone(c.Cut), orNone(c.Stock), c.Kit)
	}
	t.lines(tab.lines(t.page())...)
}

// legend explains the signs of a drawing, in as many lines as it takes.
func (t *writer) legend() {
	line := ""
	for _, s := range legend(t.ascii, false) {
		if line != "" && width(line)+2+width(s) > t.page() {
			t.lines(line)
			line = ""
		}
		line += pickText(line == "", " ", "  ") + s
	}
	t.lines(line)
}

func jackName(j JackRef) string {
	if j.Jack == "" {
		return j.Unit
	}
	return j.Unit + "/" + j.Jack
}

func (t *writer) totals(l *Lineup) {
	c := l.Totals.CentreOfMass
	loaded := "board and units"
	if t.p.Board.Case != nil {
		loaded = "board, units and case"
	}
	t.lines(t.para("  ", fmt.Sprintf("In all: %s carried (%s), %d mA drawn, %s of cable on the board (without those that leave it), centre of mass at %s.",
		milligrams(l.Totals.Mass).Carried(t.unit()), loaded, l.Totals.Draw,
		t.length(t.runs(l.Cables)),
		t.point(layout.Point{X: t.nearest(c[0]), Y: t.nearest(c[1])})))...)
}

// runs adds up the runs of the cables that stay on the board, as their table shows
// them.
func (t *writer) runs(cables []Cable) (sum layout.Length) {
	for i := range cables {
		if c := &cables[i]; !layout.OffBoard(c.From.Unit) && !layout.OffBoard(c.To.Unit) {
			sum += t.upTo(micrometres(c.Run))
		}
	}
	return sum
}

// micrometres returns a length that the report gives in mm.
func micrometres(mm float64) layout.Length { return layout.Length(math.Round(mm * 1000)) }

// nearest returns a length that the report gives in mm, rounded to what a tape
// measure shows.
func (t *writer) nearest(mm float64) layout.Length {
	return t.upTo(micrometres(mm) - t.upTo(1)/2)
}

// fastener sums up what is cut of fastener.
func (t *writer) fastener() {
	laid := mount.Lay(t.p)
	if len(laid.Board) == 0 {
		return
	}
	t.lines("")
	t.title("Fastener", "-")
	t.lines("")
	for _, n := range laid.Needs(context.Background(), t.p) {
		t.lines(t.para("  ", t.needText(&n))...)
	}
	t.lines(t.para("  ", "Where each piece goes is on the placement sheet.")...)
}

func plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// milligrams returns a mass that the report gives in g.
func milligrams(g float64) layout.Mass { return layout.Mass(math.Round(g * 1000)) }

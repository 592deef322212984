package sheet

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/pack"
)

// Text writes the comparison for reading in that many columns, 80 for 0: a table of the
// boards, the staircase if it is one, why some do not do, and what was assumed.
// With draw, the smallest board that works is drawn with each of its line-ups.
func (b *Boards) Text(to io.Writer, cols int, draw, ascii bool) error {
	t := &writer{p: b.plan, ascii: ascii, width: cols}
	t.title(b.Title, "=")
	t.lines("")
	all := "line-up " + strings.Join(b.Lineups, ", ")
	if len(b.Lineups) > 1 {
		all = "line-ups " + strings.Join(b.Lineups, ", ") + " together"
	}
	t.lines(t.para("  ", "Boards for "+all+". The smallest that works is marked *.")...)
	t.lines("")
	shown := b.result.Boards
	if b.Step > 0 {
		t.stairs(b.result)
		shown = withOwn(b.result)
		s := b.result.Smallest()
		if b.Stopped && s != nil && !slices.Contains(b.result.Corners, s) {
			t.lines(t.para("  ", "The time was up before it was known how small a board can be.")...)
			t.lines("")
		}
		if s != nil && !slices.Contains(shown, s) {
			shown = append([]*boards.Board{s}, shown...)
		}
	}
	t.boardTable(shown)
	t.boardReasons(shown)
	t.boardRules(b)
	t.boardKeys(b.result.Smallest())
	if s := b.result.Smallest(); s != nil && draw {
		t.boardDrawing(s)
	}
	_, err := io.WriteString(to, t.b.String())
	return err
}

// boardName names a board: its size, and what it is called.
func (t *writer) boardName(b *boards.Board) string {
	s := t.num(b.W) + "x" + t.num(b.D)
	if b.Name != "" {
		s += " " + clean(b.Name)
	}
	return s
}

func (t *writer) boardTable(list []*boards.Board) {
	if len(list) == 0 {
		t.lines(t.para("  ", "None of the boards tried fits.")...)
		t.lines("")
		return
	}
	tab := table{head: BoardColumns(t.p), right: []bool{false, false, true, true, true, true}, flex: []int{0}}
	priced := false
	for _, b := range list {
		row := t.boardRow(b)
		priced = priced || b.Price != nil
		row[0] = pickText(b.Smallest, "* ", "  ") + row[0]
		tab.add(row...)
	}
	if !priced {
		tab.head = tab.head[:9]
		for i := range tab.rows {
			tab.rows[i] = tab.rows[i][:9]
		}
	}
	tab.head[0] = "  " + tab.head[0]
	t.lines(tab.lines(t.page())...)
	t.lines("")
	t.lines(t.para("  ", BoardKey(t.p))...)
	cabin, hold := "56 x 36 x 23 cm", fmt.Sprintf("%.0f cm in all and %.0f kg", boards.CheckedSum.MM()/10, boards.CheckedMass.Grams()/1000)
	if t.unit() == layout.Inches { // rounded down
		cabin = "22 x 14 x 9 in"
		hold = fmt.Sprintf("%.0f inches in all and %.0f lb", math.Floor(float64(boards.CheckedSum)/float64(layout.Inch)), math.Floor(float64(boards.CheckedMass)/float64(layout.Pound)))
	}
	t.lines(t.para("  ", fmt.Sprintf("Cabin: a bag of %s; hold: one of %s. Carriers differ, and the bag's own walls are not counted.", cabin, hold))...)
	t.lines("")
}

// BoardColumns heads the rows of BoardRow for boards of the plan.
func BoardColumns(p *layout.Plan) []string {
	return []string{"Board " + string((&writer{p: p}).unit()), "Works", "Spare", "Cable", "Bare", "Rig", "Case", "Cabin", "Hold", "Price"}
}

// BoardKey says what is in the columns for boards of the plan.
func BoardKey(p *layout.Plan) string {
	area, long, heavy := "cm2", "metres", "kg"
	if p.Measure() == layout.Inches {
		area, long, heavy = "square inches", "feet", "lb"
	}
	return fmt.Sprintf("Spare: %s left in the slots by the line-up that leaves least. Cable: %s of the kit for all line-ups, after a short search: a tenth more or less says nothing. Bare and rig: %s of the board, and of it with the heaviest line-up, without case. maybe: not as arranged here, but perhaps otherwise.", area, long, heavy)
}

// BoardRow is what a board tried for the plan comes to as a row of a table.
func BoardRow(p *layout.Plan, b *boards.Board) []string { return (&writer{p: p}).boardRow(b) }

// BoardAnswer says in words why a board does not work, and what was assumed of
// one that does; "" where there is nothing to say.
func BoardAnswer(b *boards.Board) string { return boardWords(b) }

func (t *writer) boardRow(b *boards.Board) []string {
	row := []string{t.boardName(b), boardAnswer(b), "-", "-", "-", "-", "-", "-", "-", "-"}
	area, long := float64(layout.Centimetre*layout.Centimetre), float64(100*layout.Centimetre)
	if t.unit() == layout.Inches {
		area, long = float64(layout.Inch*layout.Inch), float64(12*layout.Inch)
	}
	if b.Plan != nil {
		if s, ok := b.LeastSpare(); ok {
			row[2] = fmt.Sprintf("%.0f", float64(s.Area)/area)
		}
		row[3] = fmt.Sprintf("%.1f", float64(b.Cable)/long)
		row[4], row[5] = bare(b.Mass.Carried(t.unit())), bare(b.Rig.Carried(t.unit()))
		row[6], row[7], row[8] = goesWord(b.Case), goesWord(b.CarryOn), goesWord(b.Checked)
	}
	if b.Price != nil {
		row[9] = clean(b.Price.String())
	}
	return row
}

// bare takes the unit off a measure: the table's key names it.
func bare(s string) string {
	n, _, _ := strings.Cut(s, " ")
	return n
}

// boardAnswer is what a board comes to in a word or two.
func boardAnswer(b *boards.Board) string {
	switch {
	case b.Verdict == pack.Impossible:
		return "no"
	case b.Verdict == pack.Undecided:
		return "unsure"
	case b.Works:
		return "yes"
	case len(b.Faults) > 0:
		return "faults"
	}
	return "no case"
}

func goesWord(g boards.Goes) string {
	switch g {
	case boards.Unasked:
		return "-"
	case boards.NotSo:
		return "maybe"
	}
	return string(g)
}

func boardWords(b *boards.Board) string {
	switch {
	case b.Works:
		return strings.Join(b.Assumed, " ")
	case b.Verdict == pack.Impossible && b.AnySlots:
		return "proved too small: " + b.Why
	case b.Verdict == pack.Impossible:
		return "proved too small with the slots where they were tried: " + b.Why
	case b.Verdict == pack.Undecided:
		return "neither an arrangement nor a proof in the time given."
	case len(b.Faults) > 0:
		return "fits, but: " + strings.Join(b.Faults, " ")
	case b.Case == boards.No:
		return "fits, but proved not to go into the case."
	}
	return "fits, but no arrangement was found that goes into the case."
}

// boardReasons says of each board that does not work why not, and what was
// assumed of those that do.
func (t *writer) boardReasons(list []*boards.Board) {
	any := false
	say := func(b *boards.Board, text string) {
		any = true
		t.lines(t.para("  "+t.boardName(b)+": ", text)...)
	}
	for _, b := range list {
		if b.Works && boardWords(b) != "" {
			say(b, boardWords(b))
		}
	}
	for _, b := range list {
		if !b.Works {
			say(b, boardWords(b))
		}
	}
	if any {
		t.lines("")
	}
}

func (t *writer) boardRules(b *Boards) {
	t.title("What was assumed", "-")
	t.lines("")
	for _, r := range b.Rules {
		t.lines(t.para("  - ", r)...)
	}
	if b.Step > 0 && !b.Sure {
		t.lines(t.para("  - ", "A board that is narrower than one of the same depth that does not fit was not tried. Here that is a rule of thumb and no proof.")...)
	}
	for _, s := range b.Same {
		t.lines(t.para("  - ", "On any board: "+s)...)
	}
	if b.Stopped {
		t.lines(t.para("  - ", "The time was up before all was known.")...)
	}
}

// boardKeys says what to write into the plan to take a board.
func (t *writer) boardKeys(b *boards.Board) {
	if b == nil || b.Own {
		return
	}
	t.lines("")
	t.title("To take the "+t.boardName(b)+" board", "-")
	t.lines("")
	t.lines(t.para("  ", "Put these lines into the plan in place of yours, then run footplank arrange. The editor takes the board with one key: see b there.")...)
	t.lines("", "    [board]", "    size = "+t.tomlPair(b.W, b.D))
	if b.Board != nil {
		t.boardMake(&b.Plan.Board)
	}
	if b.Plan.Board.Kind == layout.Rails {
		for _, r := range b.Plan.Board.Rails {
			t.lines("    [[board.rail]]")
			t.tomlRect(r.At)
		}
	}
	for _, r := range b.Plan.Board.Risers {
		t.lines(fmt.Sprintf("    [[board.riser]] # %s", clean(r.Name)))
		t.tomlRect(r.At)
	}
	for _, s := range b.Plan.Slots {
		t.lines(fmt.Sprintf("    [[slot]] # %s", clean(s.Name)))
		t.tomlRect(s.At)
	}
	for i := range b.Plan.Units {
		if x := &b.Plan.Units[i]; x.Pinned && x.Place != nil {
			t.lines(fmt.Sprintf("    [[unit]] # %s", clean(x.ID)),
				fmt.Sprintf("    place = { on = %q, at = %s, turn = %d }", clean(x.Place.On), t.tomlPair(x.Place.At.X, x.Place.At.Y), x.Place.Turn.Degrees()))
		}
	}
}

// boardMake says what a board of the catalog is made of.
func (t *writer) boardMake(b *layout.Board) {
	t.lines(fmt.Sprintf("    surface = %q", string(b.Kind)))
	if b.Material != "" {
		t.lines(fmt.Sprintf("    material = %q", clean(b.Material)))
	}
	if b.Mass > 0 {
		t.lines(fmt.Sprintf("    mass = \"%.0fg\"", b.Mass.Grams()))
	}
	t.lines("    thickness = "+t.toml(b.Thickness), "    feet = "+t.toml(b.Feet))
}

// toml writes a length as a plan file has it, in the plan's unit.
func (t *writer) toml(l layout.Length) string {
	s := l.Number(t.unit())
	if strings.Contains(s, "/") {
		return fmt.Sprintf("%q", s+string(t.unit()))
	}
	return s
}

func (t *writer) tomlPair(x, y layout.Length) string {
	return fmt.Sprintf("[%s, %s]", t.toml(x), t.toml(y))
}

func (t *writer) tomlRect(r layout.Rect) {
	t.lines("    at = "+t.tomlPair(r.X0, r.Y0), "    size = "+t.tomlPair(r.W(), r.D()))
}

// boardDrawing draws a board with each of its line-ups.
func (t *writer) boardDrawing(b *boards.Board) {
	for i := range b.Plan.Lineups {
		l := &b.Plan.Lineups[i]
		t.lines("")
		t.title(fmt.Sprintf("%s with line-up %s", t.boardName(b), l.Name), "-")
		t.lines("")
		v := View{Cols: t.page() - 2, Lineup: l.Name, ASCII: t.ascii, Plugs: true, Switches: true, Slots: true, Window: tight(b.Plan)}
		v.Rows = rowsFor(b.Plan, v)
		for k, s := range Draw(b.Plan, v).Lines() {
			if k > 0 || strings.TrimSpace(s) != "" {
				t.lines(" " + s)
			}
		}
	}
	t.legend()
}

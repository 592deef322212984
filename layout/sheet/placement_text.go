package sheet

import (
	"context"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"footplank/layout"
	"footplank/layout/mount"
)

func placementText(w io.Writer, p *layout.Plan, cols int) error {
	t := &writer{p: p, width: cols}
	t.title("Placement sheet: "+p.Title, "=")
	t.board()
	laid := mount.Lay(p)
	t.onBoard(laid)
	t.onUnits(laid)
	t.standing()
	if len(laid.Board) == 0 {
		t.lines("", "No unit has a place yet, so there is nothing to stick down.")
	}
	t.without(laid)
	t.held(laid)
	t.toCut(laid)
	t.lines("")
	t.title("Cautions", "-")
	t.lines("")
	for _, s := range cautions(p) {
		t.lines(t.para("  - ", s)...)
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}

// onBoard lists the strips of the board, which stay there in every line-up.
func (t *writer) onBoard(r *mount.Result) {
	if len(r.Board) == 0 {
		return
	}
	t.lines("")
	t.title("On the board", "-")
	t.lines("")
	text := "These strips stay on the board in every line-up. A place is the front-left corner of a strip, from the front-left corner of the surface that it lies on, to the right and to the back; a size is to the right x to the back."
	if slices.ContainsFunc(r.Board, func(b mount.BoardPiece) bool { return b.Kind == mount.HookAndLoop }) {
		board, unit := mount.Sides(t.p, mount.HookAndLoop)
		text += fmt.Sprintf(" Of hook-and-loop the board carries the %s and every unit the %s. Interlocking strips mate with themselves.", board, unit)
	}
	t.lines(t.para("", text)...)
	t.lines("")
	for i := range r.Board {
		b := &r.Board[i]
		c := cornerOf(&t.p.Board, b.Surface)
		var names []string
		for _, id := range b.Units {
			names = append(names, t.p.Unit(id).Label)
		}
		t.lines(t.para(fmt.Sprintf("  [ ] %2d  ", i+1), fmt.Sprintf("%s at %s, %s: %s, roll %s wide; for %s",
			b.Surface, t.corner(b.At.Move(layout.Point{X: -c.X, Y: -c.Y})), t.size(b.At), sideName(b.Kind, b.Side), t.wide(b.Width), strings.Join(names, ", ")))...)
	}
}

// sideName names what is cut: "interlock", "hook", "loop".
func sideName(k mount.Kind, s mount.Side) string {
	if k == mount.Interlock {
		return string(k)
	}
	return string(s)
}

// onUnits lists the pieces on the bases of the units.
func (t *writer) onUnits(r *mount.Result) {
	if len(r.Bases) == 0 {
		return
	}
	t.lines("")
	t.title("On the units", "-")
	t.lines("")
	t.lines(t.para("", "Turn each unit over left to right, so that its front wall stays towards you. Places are from the front-left corner of the base as you then see it. What is on the left seen from above is on the right here.")...)
	last := ""
	for i := range r.Bases {
		b := &r.Bases[i]
		if b.Unit != last {
			last = b.Unit
			u := t.p.Unit(b.Unit)
			t.lines("")
			t.lines(t.para("  [ ] ", fmt.Sprintf("%s (%s): %s, roll %s wide", u.Label, u.ID, sideName(b.Kind, b.Side), t.wide(b.Width)))...)
		}
		t.lines(fmt.Sprintf("      at %-15s %s", t.corner(b.At), t.size(b.At)))
	}
}

// standing tells where the units go: those that never move, and by line-up those
// that do.
func (t *writer) standing() {
	var common []string
	for i := range t.p.Lineups {
		l := &t.p.Lineups[i]
		placed, _ := t.p.Standings(l)
		var moving []string
		for k := range placed {
			u, pl := placed[k].Unit, placed[k].Place
			c := cornerOf(&t.p.Board, pl.On)
			line := fmt.Sprintf("%s (%s): %s at %s", u.Label, u.ID, pl.On, t.point(layout.Point{X: pl.At.X - c.X, Y: pl.At.Y - c.Y}))
			if pl.Turn != 0 {
				line += fmt.Sprintf(", turned %d degrees clockwise", pl.Turn.Degrees())
			}
			if t.p.InSlots(u.ID) || u.Place == nil {
				moving = append(moving, line)
			} else if i == 0 {
				common = append(common, line)
			}
		}
		if i == 0 {
			t.places("Units in every line-up", common)
		}
		t.places("Line-up "+l.Name, moving)
	}
}

func (t *writer) places(title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	t.lines("")
	t.title(title, "-")
	t.lines("")
	for _, s := range lines {
		t.lines(t.para("  ", s)...)
	}
}

func (t *writer) corner(r layout.Rect) string { return t.point(layout.Point{X: r.X0, Y: r.Y0}) }

func (t *writer) size(r layout.Rect) string { return t.num(r.W()) + " x " + t.num(r.D()) }

// without names the units that get no piece.
func (t *writer) without(r *mount.Result) {
	var names []string
	for i := range t.p.Units {
		u := &t.p.Units[i]
		if !slices.ContainsFunc(r.Pieces, func(m mount.Piece) bool { return m.Unit == u.ID }) {
			names = append(names, fmt.Sprintf("%s (%s)", u.Label, u.ID))
		}
	}
	if len(names) > 0 && len(r.Pieces) > 0 {
		t.lines("")
		t.lines(t.para("", "Without a piece, for they have no place yet or no room for one beneath them: "+strings.Join(names, ", ")+".")...)
	}
}

// held shows how each unit is held, in the line-up where it is held worst.
func (t *writer) held(r *mount.Result) {
	if len(r.Holds) == 0 {
		return
	}
	t.lines("")
	t.title("How they hold", "-")
	t.lines("")
	jerk := t.p.Fastening.JerkG
	if jerk <= 0 {
		jerk = mount.JerkG
	}
	t.lines(t.para("", fmt.Sprintf("Each unit's hardest load: the board carried upright by its edge, or turned over, and bumped with %g times the weight; or a cable pulled with %g N. Fastener may carry a tenth of what it is published to hold.", jerk, mount.CablePull))...)
	t.lines("")
	rows := &table{head: []string{"Unit", "Area mm2", "Hardest load", "N", "May carry N"}, right: []bool{false, true, false, true, true}, flex: []int{0}}
	for i := range t.p.Units {
		u := &t.p.Units[i]
		var worst *mount.Hold
		for k := range r.Holds {
			if h := &r.Holds[k]; h.Unit == u.ID && (worst == nil || h.Use > worst.Use) {
				worst = h
			}
		}
		if worst != nil {
			rows.add(clean(u.Label), strconv.FormatFloat(math.Floor(worst.Area), 'f', 0, 64), string(worst.Load),
				strconv.FormatFloat(worst.Newtons, 'f', 1, 64), strconv.FormatFloat(math.Floor(worst.Limit*10)/10, 'f', 1, 64))
		}
	}
	t.lines(rows.lines(t.page())...)
}

// toCut lists what is cut from which roll.
func (t *writer) toCut(r *mount.Result) {
	needs := r.Needs(context.Background(), t.p)
	if len(needs) == 0 {
		return
	}
	t.lines("")
	t.title("To cut", "-")
	for i := range needs {
		n := &needs[i]
		t.lines("")
		t.lines(t.para("  ", t.needText(n))...)
		for _, c := range n.Rolls {
			if len(c.Cuts) == 0 {
				continue
			}
			from := "a new roll"
			if c.Owned {
				from = "your roll"
			}
			t.lines(t.para("    ", fmt.Sprintf("From %s of %s: %s; %s left", from, t.length(c.Length), t.counted(c.Cuts), t.length(c.Length-t.shown(c.Cuts))))...)
		}
	}
}

// shown adds up lengths as they are shown.
func (t *writer) shown(list []layout.Length) layout.Length { return layout.Together(list, t.unit()) }

// counted lists lengths, equal ones together: "3 x 62, 30".
func (t *writer) counted(cuts []layout.Length) string {
	var out []string
	for i := 0; i < len(cuts); {
		n := i
		for n < len(cuts) && cuts[n] == cuts[i] {
			n++
		}
		s := t.num(cuts[i])
		if n-i > 1 {
			s = fmt.Sprintf("%d x %s", n-i, s)
		}
		out = append(out, s)
		i = n
	}
	return strings.Join(out, ", ")
}

// wide writes the width of a roll: in mm too where no ruler in inches has it.
func (t *writer) wide(w layout.Length) string {
	if t.unit() == layout.Inches && w.Marked() {
		return t.length(w)
	}
	return w.Number(layout.Millimetres) + " mm"
}

// needText says what is cut of one side of one roll.
func (t *writer) needText(n *mount.Need) string {
	name := string(n.Kind)
	if n.Kind == mount.HookAndLoop {
		name += ", " + string(n.Side) + " side"
	}
	var parts []string
	for _, of := range []struct {
		cuts []layout.Length
		what string
	}{{n.OnBoard, "board"}, {n.OnUnits, "units"}} {
		if k := len(of.cuts); k > 0 {
			parts = append(parts, fmt.Sprintf("%d %s, %s in all, for the %s", k, plural(k, "piece"), t.length(t.shown(of.cuts)), of.what))
		}
	}
	return fmt.Sprintf("%s, roll %s wide: %s", name, t.wide(n.Width), strings.Join(parts, "; "))
}

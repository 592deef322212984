package tui

import (
	"io"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"footplank/layout/check"
	"footplank/layout/sheet"
)

// paint is a style made ready: what to write before and after a text. A frame
// has hundreds of short pieces, for which asking the style each time is slow.
type paint struct{ on, off string }

func (p paint) over(s string) string {
	if p.on == "" || s == "" {
		return s
	}
	return p.on + s + p.off
}

// styles is every style of the editor, and the signs that go with them.
type styles struct {
	title, quiet, strong, key, chosen paint
	fault, caution, note, good        paint
	marks                             [64]paint // by sheet.Mark
	measure                           paint     // distances while a unit is moved
	chosenLabel                       paint     // on the board
	audioRun, powerRun, chosenRun     paint
	audioLines, powerLines            *lineSet
	chosenLines                       *lineSet
	sign                              signs
}

// signs are the editor's own characters beside those of the drawing.
type signs struct {
	pointer                           string // before what is selected
	fixed, swap, pinFixed, pinSwap    string
	fault, caution, note, good, empty string
	left, right, up, down             string
	times, dash, rule, bar, cursor    string
	dot, more, ellipsis               string
	end                               string // of the chosen cable
	full, spare                       string // cells of a bar
}

var lineSigns = signs{
	pointer: "▸", fixed: "■", swap: "□", pinFixed: "◆", pinSwap: "◇",
	fault: "!", caution: "~", note: "i", good: "✓", empty: "?",
	left: "←", right: "→", up: "↑", down: "↓",
	times: "×", dash: "–", rule: "─", bar: "│", cursor: "▏", dot: "·", more: "…", ellipsis: "…",
	end: "●", full: "█", spare: "░",
}

var plainSigns = signs{
	pointer: ">", fixed: "F", swap: "S", pinFixed: "P", pinSwap: "p",
	fault: "!", caution: "~", note: "i", good: "ok", empty: "?",
	left: "<", right: ">", up: "^", down: "v",
	times: "x", dash: "-", rule: "-", bar: "|", cursor: "|", dot: "-", more: "...", ellipsis: "~",
	end: "@", full: "#", spare: ".",
}

// newStyles makes the styles: of the terminal's own sixteen colours, or of
// none at all.
func newStyles(noColor, ascii bool) *styles {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.ANSI)
	if noColor {
		r.SetColorProfile(termenv.Ascii)
	}
	plain := r.NewStyle()
	colour := func(n string) lipgloss.Style { return plain.Foreground(lipgloss.Color(n)) }
	const red, green, magenta, cyan = "1", "2", "5", "6"
	faint := plain.Faint(true)
	s := &styles{
		title: ready(plain.Bold(true)), quiet: ready(faint), strong: ready(plain.Bold(true)),
		key: ready(plain.Bold(true)), chosen: ready(plain.Reverse(true)), chosenLabel: ready(plain.Reverse(true)),
		fault: ready(colour(red).Bold(true)), caution: ready(colour(magenta)), note: ready(faint), good: ready(colour(green)),
		audioRun: ready(colour(magenta)), powerRun: ready(plain), chosenRun: ready(plain.Bold(true)),
		audioLines: &audioLines, powerLines: &powerLines, chosenLines: &chosenLines,
		sign: lineSigns,
	}
	if ascii {
		s.sign = plainSigns
		s.audioLines, s.powerLines, s.chosenLines = &plainAudio, &plainPower, &plainChosen
	}
	s.measure = ready(plain.Bold(true))
	for mark, p := range map[sheet.Mark]paint{
		sheet.RailFill: ready(faint), sheet.FixtureFill: ready(faint), sheet.RiserEdge: ready(faint),
		sheet.SlotEdge: ready(faint), sheet.AreaName: ready(faint), sheet.Ruler: ready(faint),
		sheet.FixedEdge: ready(colour(cyan)), sheet.SwapEdge: ready(colour(green)), sheet.PinnedEdge: ready(colour(cyan).Bold(true)),
		sheet.FaultEdge: ready(colour(red).Bold(true)), sheet.SelectedEdge: ready(plain.Bold(true)),
		sheet.GhostEdge: ready(faint), sheet.GhostLabel: ready(faint),
		sheet.PlugMark: ready(faint), sheet.SweepMark: ready(faint), sheet.TurnMark: ready(plain.Bold(true)),
		sheet.OtherEdge: ready(plain.Bold(true)), sheet.WasEdge: ready(faint), sheet.Caption: ready(faint),
		sheet.InterlockMark: ready(colour(cyan)), sheet.HookMark: ready(colour(green)),
	} {
		s.marks[mark] = p
	}
	return s
}

// ready takes a style apart into what it writes before and after a text.
func ready(s lipgloss.Style) paint {
	on, off, _ := strings.Cut(s.Render("x"), "x")
	return paint{on, off}
}

// level returns the style and the sign of a level of finding.
func (s *styles) level(l check.Level) (paint, string) {
	switch l {
	case check.Fault:
		return s.fault, s.sign.fault
	case check.Caution:
		return s.caution, s.sign.caution
	}
	return s.note, s.sign.note
}

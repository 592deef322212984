package sheet

import (
	"fmt"
	"io"
	"strings"

	"footplank/layout"
	"footplank/layout/arrange"
)

// LineupSets says which line-ups go together, as programs read it: the largest
// sets that fit on one board, and the smallest that do not. Lists are never null.
type LineupSets struct {
	Fit   []LineupSet `json:"fit"`
	Clash []LineupSet `json:"clash"`
	// Whole is set when nothing was left undecided.
	Whole bool `json:"whole"`

	plan *layout.Plan
}

// LineupSet is one of them. Proved: of a set that fits, that no other line-up
// goes with it; of a clash, that it is one. Units and why are of a clash.
type LineupSet struct {
	Lineups []string `json:"lineups"`
	Proved  bool     `json:"proved"`
	Units   []string `json:"units"`
	Why     string   `json:"why"`
}

// NewLineupSets gathers what arranging the plan's line-ups came to.
func NewLineupSets(p *layout.Plan, s *arrange.LineupSets) *LineupSets {
	out := &LineupSets{Fit: []LineupSet{}, Clash: []LineupSet{}, Whole: s.Whole, plan: p}
	for _, x := range s.Fit {
		out.Fit = append(out.Fit, LineupSet{some(x.Lineups), x.Proved, some(x.Units), x.Why})
	}
	for _, x := range s.Clash {
		out.Clash = append(out.Clash, LineupSet{some(x.Lineups), x.Proved, some(x.Units), x.Why})
	}
	return out
}

// JSON writes a report with the sets under "lineup_sets".
func (s *LineupSets) JSON(to io.Writer, r *Report) error {
	return encode(to, struct {
		*Report
		Sets *LineupSets `json:"lineup_sets"`
	}{r, s})
}

// Text writes the sets for reading in that many columns, 80 for 0.
func (s *LineupSets) Text(to io.Writer, cols int) error {
	t := &writer{p: s.plan, width: cols}
	t.title("Which line-ups go together", "-")
	t.lines("")
	if len(s.Fit) == 0 {
		t.lines("  No line-up is known to fit, not even by itself.")
	}
	for _, x := range s.Fit {
		words := pickText(x.Proved, "no other goes with them: proved", "whether another goes with them was not decided")
		if len(x.Lineups) == 1 {
			words = strings.ReplaceAll(words, "them", "it")
		}
		t.lines(t.para("  Fit      ", fmt.Sprintf("%s; %s.", strings.Join(x.Lineups, ", "), words))...)
	}
	for _, x := range s.Clash {
		t.lines(t.para("  Clash    ", t.clash(&x))...)
	}
	if !s.Whole {
		t.lines(t.para("  ", "Not everything was decided: there may be larger sets. Give it more --seconds.")...)
	}
	_, err := io.WriteString(to, t.b.String())
	return err
}

func (t *writer) clash(x *LineupSet) string {
	names := strings.Join(x.Lineups, ", ")
	switch {
	case !x.Proved:
		return names + ": not decided."
	case len(x.Lineups) == 1:
		return fmt.Sprintf("%s does not fit by itself: %s", names, x.Why)
	case len(x.Lineups) == 2:
		return fmt.Sprintf("%s and %s fit each, but not both: %s", x.Lineups[0], x.Lineups[1], x.Why)
	}
	return fmt.Sprintf("%s do not fit all together, though without any one of them the others do: %s", names, x.Why)
}

package sheet

import (
	"fmt"
	"io"
	"strings"

	"footplank/layout"
	"footplank/layout/changeover"
)

// ChangeoverSchema names the form of changeover cards as JSON; a change that
// breaks readers changes it.
const ChangeoverSchema = "footplank/changeover/1"

// Changeover is cards for between sets as programs read them. Lists are never
// null.
type Changeover struct {
	Schema string           `json:"schema"`
	Title  string           `json:"title"`
	Cards  []ChangeoverCard `json:"cards"`

	plan *layout.Plan
}

// ChangeoverCard is one card. Counts has the kinds that it has steps of;
// AsideFewest is set when no order sets fewer units aside.
type ChangeoverCard struct {
	From        string           `json:"from"`
	To          string           `json:"to"`
	Total       int              `json:"total"`
	Counts      map[string]int   `json:"counts"`
	Aside       int              `json:"set_aside"`
	AsideFewest bool             `json:"set_aside_fewest"`
	Steps       []ChangeoverStep `json:"steps"`

	places string // how places are measured
}

// ChangeoverStep is one step; N counts from 1. What a kind of step does not have
// is null, empty or 0.
type ChangeoverStep struct {
	N     int              `json:"n"`
	Kind  string           `json:"kind"`
	Unit  string           `json:"unit"`
	From  *ChangeoverPlace `json:"from"`
	To    *ChangeoverPlace `json:"to"`
	Aside bool             `json:"aside"`
	Sort  string           `json:"sort"`
	Cable string           `json:"cable"`
	Label string           `json:"label"`
	Ends  []ChangeoverEnd  `json:"ends"`
	Stays []JackRef        `json:"stays"`
	Clear []string         `json:"clear"`
	Volts float64          `json:"volts"`
	Units []string         `json:"units"`
	Text  string           `json:"text"`
}

// ChangeoverPlace is where a unit stands.
type ChangeoverPlace struct {
	On   string  `json:"on"`
	X    float64 `json:"x_mm"`
	Y    float64 `json:"y_mm"`
	Turn int     `json:"turn"`
}

// ChangeoverEnd is a jack that is pulled or plugged; Tight is the unit that
// leaves the plug no room, or "".
type ChangeoverEnd struct {
	JackRef
	Tight string `json:"tight"`
}

// NewChangeover returns the cards as programs read them.
func NewChangeover(p *layout.Plan, cards []*changeover.Card) *Changeover {
	out := &Changeover{Schema: ChangeoverSchema, Title: p.Title, Cards: []ChangeoverCard{}, plan: p}
	for _, c := range cards {
		x := ChangeoverCard{From: c.From, To: c.To, Total: len(c.Steps), Counts: map[string]int{},
			Aside: c.SetAside(), AsideFewest: c.AsideFewest, Steps: []ChangeoverStep{}, places: c.PlacesAre()}
		for i := range c.Steps {
			x.Counts[string(c.Steps[i].Kind)]++
			x.Steps = append(x.Steps, changeoverStep(i+1, &c.Steps[i]))
		}
		out.Cards = append(out.Cards, x)
	}
	return out
}

func changeoverStep(n int, s *changeover.Step) ChangeoverStep {
	out := ChangeoverStep{N: n, Kind: string(s.Kind), Unit: s.Unit, From: changeoverPlace(s.From), To: changeoverPlace(s.To),
		Aside: s.Aside, Sort: string(s.Sort), Cable: s.Cable, Label: s.Label, Ends: []ChangeoverEnd{}, Stays: []JackRef{},
		Clear: append([]string{}, s.Clear...), Volts: float64(s.Millivolts) / 1000, Units: append([]string{}, s.Units...), Text: s.Text}
	for _, e := range s.Ends {
		out.Ends = append(out.Ends, ChangeoverEnd{JackRef(e.JackRef), e.Tight})
	}
	for _, r := range s.Stays {
		out.Stays = append(out.Stays, JackRef(r))
	}
	return out
}

func changeoverPlace(p *layout.Placement) *ChangeoverPlace {
	if p == nil {
		return nil
	}
	return &ChangeoverPlace{p.On, p.At.X.MM(), p.At.Y.MM(), p.Turn.Degrees()}
}

// JSON writes the cards as JSON, two spaces to a level, with a newline behind.
func (c *Changeover) JSON(to io.Writer) error { return encode(to, c) }

// Text writes the cards for reading in that many columns, 80 for 0.
func (c *Changeover) Text(to io.Writer, cols int) error {
	t := &writer{p: c.plan, width: cols}
	t.title(c.Title, "=")
	for i := range c.Cards {
		t.lines("")
		t.changeover(&c.Cards[i])
	}
	_, err := io.WriteString(to, t.b.String())
	return err
}

// ChangeoverLines is a card without a title, in lines of at most w cells.
func ChangeoverLines(p *layout.Plan, c *changeover.Card, w int) []string {
	t := &writer{p: p, width: w}
	t.steps(&NewChangeover(p, []*changeover.Card{c}).Cards[0])
	return strings.Split(strings.TrimRight(t.b.String(), "\n"), "\n")
}

func (t *writer) changeover(c *ChangeoverCard) {
	t.title(fmt.Sprintf("From %s to %s: %d %s", c.From, c.To, c.Total, plural(c.Total, "step")), "-")
	t.lines("")
	t.steps(c)
}

func (t *writer) steps(c *ChangeoverCard) {
	if c.Total == 0 {
		t.lines(t.para("  ", pickText(c.From == c.To, "It is the same line-up: there is nothing to do.", "Both have the same board: there is nothing to do."))...)
		return
	}
	t.lines(t.para("  ", ChangeoverCounts(c))...)
	if c.tight() {
		t.lines(t.para("  ", "Tight: the plug has no room to go straight in or out where both units stand. Take it in hand with the one that changes, while that one is loose.")...)
	}
	if c.places != "" {
		t.lines(t.para("  ", c.places)...)
	}
	t.lines("")
	last := ""
	for i := range c.Steps {
		s := &c.Steps[i]
		// A card is read by the foot of a stage: each kind of work begins
		// with its name.
		head := strings.Repeat(" ", 8)
		if s.Kind != last {
			head = fmt.Sprintf("%-8s", s.Kind)
		}
		last = s.Kind
		t.lines(t.para(fmt.Sprintf("  %s%3d  ", head, s.N), s.Text)...)
	}
}

func pickText(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

func (c *ChangeoverCard) tight() bool {
	for i := range c.Steps {
		for _, e := range c.Steps[i].Ends {
			if e.Tight != "" {
				return true
			}
		}
	}
	return false
}

// ChangeoverCounts says how many steps of each kind a card has.
func ChangeoverCounts(c *ChangeoverCard) string {
	var parts []string
	for _, k := range changeover.Kinds() {
		if n := c.Counts[string(k)]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, k))
		}
	}
	text := strings.Join(parts, ", ") + "."
	switch {
	case c.Aside > 0 && c.AsideFewest:
		text += fmt.Sprintf(" %d %s to be set aside for a while; no order does with fewer.", c.Aside, plural(c.Aside, "unit"))
	case c.Aside > 0:
		text += fmt.Sprintf(" %d %s to be set aside for a while.", c.Aside, plural(c.Aside, "unit"))
	}
	return text
}

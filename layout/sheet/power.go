package sheet

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// PowerSchema names the form of the power map as JSON; a change that breaks
// readers changes it.
const PowerSchema = "footplank/power/1"

// Power is the power map of a plan as programs read it. Lists are never null.
type Power struct {
	Schema   string        `json:"schema"`
	Title    string        `json:"title"`
	Verdict  string        `json:"verdict"` // as in package power
	Why      string        `json:"why"`
	Best     bool          `json:"best"` // proved
	Lineups  []PowerLineup `json:"lineups"`
	Tour     []TourStop    `json:"tour"`
	Cautions []string      `json:"cautions"`

	plan *layout.Plan
}

// PowerLineup is what feeds what in a line-up.
type PowerLineup struct {
	Name     string      `json:"name"`
	Leads    []PowerLead `json:"leads"`
	Loads    []Supply    `json:"supplies"`
	Findings []Finding   `json:"findings"`
}

// PowerLead is a lead with what its output is to be set to and how it is made.
type PowerLead struct {
	Lead
	EveryLineup bool   `json:"every_lineup"` // the unit has this output in all
	SetTo       bool   `json:"set_to_volts"` // the output has other positions
	AC          bool   `json:"ac"`
	Gauge       int    `json:"awg"`
	Reversing   bool   `json:"reversing"`
	Adaptor     string `json:"adaptor"`
	Link        bool   `json:"link"` // it feeds an expander
}

// Supply is what a supply gives in all; Limit is 0 where only its outputs
// bound it.
type Supply struct {
	Unit  string  `json:"unit"`
	Watts float64 `json:"watts"`
	Limit float64 `json:"limit_watts"`
}

// TourStop is one supply in one country.
type TourStop struct {
	Country   string `json:"country"`
	Name      string `json:"name"`
	Volts     []int  `json:"volts"`
	Hertz     []int  `json:"hertz"`
	Plugs     string `json:"plugs"` // letters
	Supply    string `json:"supply"`
	Answer    string `json:"answer"`
	Universal bool   `json:"universal"`
	Need      string `json:"need"` // what to bring, "" for nothing
	Text      string `json:"text"`
}

// NewPower makes the plan's power map as it stands.
func NewPower(p *layout.Plan) (*Power, error) {
	m, err := power.Map(context.Background(), p)
	if err != nil {
		return nil, err
	}
	m.Route(p, wiring.Wire(p).Settled)
	w := &Power{Schema: PowerSchema, Title: p.Title, Verdict: m.Verdict, Why: m.Why, Best: m.Best, Lineups: []PowerLineup{},
		Tour: []TourStop{}, Cautions: append([]string{}, m.Cautions...), plan: p}
	for i := range p.Lineups {
		w.Lineups = append(w.Lineups, powerLineup(p, m, p.Lineups[i].Name))
	}
	for _, s := range m.Tour {
		w.Tour = append(w.Tour, TourStop{s.Country.Code, s.Country.Name, append([]int{}, s.Country.Volts...), append([]int{}, s.Country.Hertz...),
			s.Country.Plugs, s.Supply, s.Answer, s.Universal, s.Plug, s.Text})
	}
	return w, nil
}

func powerLineup(p *layout.Plan, m *power.Result, name string) PowerLineup {
	out := PowerLineup{Name: name, Leads: []PowerLead{}, Loads: []Supply{}, Findings: []Finding{}}
	how := map[string]power.Assignment{}
	for _, a := range m.In(p, name) {
		how[a.Unit] = a
	}
	for i := range m.Leads {
		if d := &m.Leads[i]; d.Lineup == name {
			a := how[d.Unit]
			out.Leads = append(out.Leads, PowerLead{leadOf(d), a.Lineup == "", a.Switched, d.AC, d.Gauge, d.Reversing, d.Adaptor, a.Link})
		}
	}
	for _, l := range m.Loads {
		if l.Lineup == name {
			out.Loads = append(out.Loads, Supply{l.Supply, round3(l.Watts), round3(l.Limit)})
		}
	}
	for _, f := range m.Issues {
		if f.Lineup == "" || f.Lineup == name {
			out.Findings = append(out.Findings, Finding{f.Code, f.Level, append([]string{}, f.Units...), f.Text, round3(f.Measured), round3(f.Limit), f.Unit})
		}
	}
	return out
}

// Faulty reports whether one of these line-ups has a fault.
func (w *Power) Faulty() bool {
	return slices.ContainsFunc(w.Lineups, func(l PowerLineup) bool {
		return slices.ContainsFunc(l.Findings, func(f Finding) bool { return f.Level == power.Fault })
	})
}

// JSON writes the map as JSON, two spaces to a level, with a newline behind.
func (w *Power) JSON(to io.Writer) error {
	return encode(to, w)
}

// Text writes the map for reading in that many columns, 80 for 0: cautions first, then each
// line-up, then the tour.
func (w *Power) Text(to io.Writer, cols int) error {
	t := &writer{p: w.plan, width: cols}
	t.title(w.Title, "=")
	t.lines("")
	for _, s := range w.Cautions {
		t.lines(t.para("  ! ", s)...)
	}
	t.lines("")
	verdict := map[string]string{
		power.Holds:      "One power map holds for every line-up.",
		power.Tight:      "One power map holds for every line-up, with less spare than the plan asks.",
		power.Impossible: "No power map holds for every line-up.",
		power.Undecided:  "No power map was found, and none ruled out.",
	}[w.Verdict]
	t.lines(t.para("  ", strings.TrimSpace(verdict+" "+w.Why))...)
	t.lines("")
	for i := range w.Lineups {
		t.power(&w.Lineups[i])
	}
	t.tour(w.Tour)
	_, err := io.WriteString(to, t.b.String())
	return err
}

func (t *writer) power(l *PowerLineup) {
	t.title("Line-up "+l.Name, "-")
	t.lines("")
	if len(l.Leads) > 0 {
		t.powerTable(l.Leads)
		t.lines("")
	}
	for _, s := range l.Loads {
		text := fmt.Sprintf("gives %.1f W", s.Watts)
		if s.Limit > 0 {
			text = fmt.Sprintf("%s gives %.1f W of %.1f W", bar(s.Watts, s.Limit), s.Watts, s.Limit)
		}
		t.lines(t.para("  ", clip(clean(t.label(s.Unit)), 30)+"  "+text)...)
	}
	if len(l.Loads) > 0 {
		t.lines("")
	}
	t.findings(&Lineup{Findings: l.Findings})
}

// powerTable lists leads; a star marks what is the same in every line-up.
func (t *writer) powerTable(leads []PowerLead) {
	u := string(t.unit())
	tab := table{head: []string{"Output", "Of", "", "Feeds", "Volts", "Load", "mA", "Cut " + u, "AWG"},
		right: []bool{false, false, false, false, true, false, true, true, true}, flex: []int{0, 1, 3}}
	special := slices.ContainsFunc(leads, func(d PowerLead) bool { return leadKind(&d) != "plain" })
	if special {
		tab.head = append(tab.head, "Lead")
	}
	for _, d := range leads {
		star, v, cut := "", fmt.Sprintf("%g", d.Volts), "-"
		if d.EveryLineup {
			star = "*"
		}
		if d.SetTo {
			v = "set " + v
		}
		if d.AC {
			v += " AC"
		}
		if d.Cut > 0 {
			cut = t.num(t.upTo(micrometres(d.Cut)))
		}
		row := []string{clean(d.Output), clean(t.label(d.Supply)), star, clean(t.label(d.Unit)), v, bar(float64(d.Milliamps), float64(d.Limit)),
			fmt.Sprintf("%d of %d", d.Milliamps, d.Limit), cut, fmt.Sprint(d.Gauge)}
		if special {
			row = append(row, leadKind(&d))
		}
		tab.add(row...)
	}
	t.lines(tab.lines(t.page())...)
	t.lines("  * the same output in every line-up")
}

// leadKind says what kind of lead it must be; what is not plain has a column.
func leadKind(d *PowerLead) string {
	switch {
	case d.Reversing && d.Adaptor != "":
		return "REVERSING, " + d.Adaptor
	case d.Reversing:
		return "REVERSING"
	case d.Adaptor != "":
		return d.Adaptor
	}
	return "plain"
}

// bar draws a load as six cells, a sign of plain text that needs no colour. What
// is beside it reads as numbers.
func bar(load, limit float64) string {
	const cells = 6
	n := 0
	if limit > 0 {
		n = min(cells, int(load/limit*cells+0.5))
	}
	if n == 0 && load > 0 {
		n = 1
	}
	return "[" + strings.Repeat("#", n) + strings.Repeat(".", cells-n) + "]"
}

func (t *writer) label(unit string) string {
	if u := t.p.Unit(unit); u != nil {
		return u.Label
	}
	return unit
}

func (t *writer) tour(stops []TourStop) {
	if len(stops) == 0 {
		return
	}
	t.title("On tour", "-")
	t.lines("")
	for _, s := range stops {
		text := s.Text
		if s.Need != "" {
			text += " Bring " + s.Need + "."
		}
		if s.Universal {
			text += " It takes every mains of the table."
		}
		t.lines(t.para("  "+s.Country+"  ", text)...)
	}
}

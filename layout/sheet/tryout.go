package sheet

import (
	"io"

	"footplank/layout"
	"footplank/layout/tryout"
)

// TryoutSchema names the form of tryouts as JSON; a change that breaks readers
// changes it.
const TryoutSchema = "footplank/tryout/1"

// Tryout is the answers to one or several candidates for a slot, as programs read
// them. Lengths are in mm as in Report; lists are never null.
type Tryout struct {
	Schema     string            `json:"schema"`
	Title      string            `json:"title"`
	Slot       string            `json:"slot"`
	InsteadOf  string            `json:"instead_of"`
	Candidates []TryoutCandidate `json:"candidates"`

	plan    *layout.Plan // as the questions were asked about
	answers []*tryout.Answer
}

// TryoutCandidate is one answer. Verdict is "fits", "moves", "impossible" or
// "undecided", by room alone; Works is set when it has its power and its cables
// have a way too. Proved: with "moves" that no fewer units can move, with
// "impossible" that it cannot fit.
type TryoutCandidate struct {
	Kind       string          `json:"kind"` // "unit", "form" or "size"
	Name       string          `json:"name"`
	Unit       string          `json:"unit"`
	Lineups    []string        `json:"lineups"`
	Verdict    string          `json:"verdict"`
	Works      bool            `json:"works"`
	Proved     bool            `json:"proved"`
	Places     []TryoutPlace   `json:"places"`
	Moves      []TryoutMove    `json:"moves"`
	Moved      int             `json:"units_moved"`
	FixedMoved int             `json:"fixed_units_moved"`
	Distance   float64         `json:"distance_mm"`
	Steps      []string        `json:"proved_on_the_way"`
	Conflict   *TryoutConflict `json:"conflict"`
	Growth     []TryoutGrowth  `json:"growth"`
	Without    []string        `json:"room_without"`
	Power      TryoutPower     `json:"power"`
	Cables     []TryoutCable   `json:"cables_to_add"`
	Blocked    []string        `json:"cables_blocked"`
	Plugs      []TryoutPlug    `json:"plugs_changed"`
	Findings   []Finding       `json:"findings"`
	Notes      []string        `json:"notes"`
}

// TryoutPlug is a jack that gets another plug than it has.
type TryoutPlug struct {
	JackRef
	From string `json:"from"`
	To   string `json:"to"`
}

// TryoutPlace is where the tried unit stands in some line-ups.
type TryoutPlace struct {
	Lineups []string `json:"lineups"`
	ChangeoverPlace
}

// TryoutMove is one step: a unit to another place. Fixed is set where its
// interlocking fastener has to be lifted.
type TryoutMove struct {
	Unit    string          `json:"unit"`
	Lineups []string        `json:"lineups"`
	Fixed   bool            `json:"fixed"`
	From    ChangeoverPlace `json:"from"`
	To      ChangeoverPlace `json:"to"`
}

// TryoutConflict is units that cannot stand together in a line-up, or in several
// at once. Smallest and minimal are proved: no smaller set, and none of them to
// spare.
type TryoutConflict struct {
	Lineups  []string `json:"lineups"`
	Units    []string `json:"units"`
	Smallest bool     `json:"smallest"`
	Minimal  bool     `json:"minimal"`
	Why      string   `json:"why"`
}

// TryoutGrowth is how much larger slot or board would make room. Exact: a
// millimetre less would not, proved. Case: the board would not go into its case.
type TryoutGrowth struct {
	What  string  `json:"what"`
	Side  string  `json:"side"`
	By    float64 `json:"by_mm"`
	Exact bool    `json:"exact"`
	Case  bool    `json:"larger_case"`
}

// TryoutPower is what feeds the tried unit, by line-up, or who competes.
type TryoutPower struct {
	OK      bool               `json:"ok"`
	Text    string             `json:"text"`
	Outputs map[string]JackRef `json:"outputs"`
	Rivals  []string           `json:"rivals"`
}

// TryoutCable is a cable to add to the kit.
type TryoutCable struct {
	Cut   float64     `json:"cut_mm"`
	Stock float64     `json:"stock_mm"`
	Plugs [2]string   `json:"plugs"`
	Uses  []TryoutUse `json:"uses"`
}

// TryoutUse is where an added cable goes.
type TryoutUse struct {
	Lineup string  `json:"lineup"`
	From   JackRef `json:"from"`
	To     JackRef `json:"to"`
}

// NewTryout gathers the answers to questions about the plan.
func NewTryout(p *layout.Plan, answers []*tryout.Answer) *Tryout {
	t := &Tryout{Schema: TryoutSchema, Title: p.Title, Candidates: []TryoutCandidate{}, plan: p, answers: answers}
	for _, a := range answers {
		t.Slot, t.InsteadOf = a.Question.Slot, a.Question.InsteadOf
		t.Candidates = append(t.Candidates, tryoutCandidate(a))
	}
	return t
}

func tryoutCandidate(a *tryout.Answer) TryoutCandidate {
	c := TryoutCandidate{
		Kind: a.Question.Candidate.Kind, Name: a.Question.Candidate.Name, Unit: a.Unit, Lineups: some(a.Lineups),
		Verdict: string(a.Verdict), Works: a.Works(), Proved: a.Proved,
		Places: []TryoutPlace{}, Moves: []TryoutMove{}, Moved: a.Units, FixedMoved: a.FixedUnits, Distance: a.Distance.MM(),
		Steps: some(a.Steps), Growth: []TryoutGrowth{}, Without: some(a.Without),
		Power:  TryoutPower{OK: a.Power.OK, Text: a.Power.Text, Outputs: map[string]JackRef{}, Rivals: some(a.Power.Rivals)},
		Cables: []TryoutCable{}, Blocked: some(a.Blocked), Plugs: []TryoutPlug{}, Findings: []Finding{}, Notes: some(a.Notes),
	}
	for _, p := range a.Places {
		c.Places = append(c.Places, TryoutPlace{some(p.Lineups), *changeoverPlace(&p.At)})
	}
	for _, m := range a.Moved {
		c.Moves = append(c.Moves, TryoutMove{m.Unit, some(m.Lineups), m.Fixed, *changeoverPlace(&m.From), *changeoverPlace(&m.To)})
	}
	if x := a.Conflict; x != nil {
		c.Conflict = &TryoutConflict{some(x.Lineups), some(x.Units), x.Smallest, x.Minimal, x.Why}
	}
	for _, g := range a.Growth {
		c.Growth = append(c.Growth, TryoutGrowth{g.What, g.Side.String(), g.By.MM(), g.Exact, g.Case})
	}
	for l, r := range a.Power.Outputs {
		c.Power.Outputs[l] = JackRef(r)
	}
	for _, k := range a.Cables {
		x := TryoutCable{Cut: k.Cut.MM(), Stock: k.Stock.MM(), Plugs: k.Plugs, Uses: []TryoutUse{}}
		for _, u := range k.Uses {
			x.Uses = append(x.Uses, TryoutUse{u.Lineup, JackRef(u.From), JackRef(u.To)})
		}
		c.Cables = append(c.Cables, x)
	}
	for _, p := range a.Plugs {
		c.Plugs = append(c.Plugs, TryoutPlug{JackRef(p.Jack), p.From, p.To})
	}
	for i := range a.Findings {
		f := &a.Findings[i]
		c.Findings = append(c.Findings, Finding{f.Code, string(f.Level), some(f.Units), f.Text, round3(f.Measured), round3(f.Limit), f.Unit})
	}
	return c
}

// some is a list that is never null.
func some(list []string) []string { return append([]string{}, list...) }

// JSON writes the answers as JSON, two spaces to a level, with a newline behind.
func (t *Tryout) JSON(to io.Writer) error { return encode(to, t) }

package sheet

import (
	"io"

	"footplank/layout"
	"footplank/layout/boards"
)

// BoardsSchema names the form of a comparison of boards as JSON; a change that
// breaks readers changes it.
const BoardsSchema = "footplank/boards/1"

// Boards is a comparison of boards as programs read it. Lists are never null.
// Step is 0 for a list of boards; for a staircase Corners has the names of its
// corners, and Sure is set when the boards that were not tried are known too.
type Boards struct {
	Schema   string       `json:"schema"`
	Title    string       `json:"title"`
	Lineups  []string     `json:"lineups"`
	Mounting string       `json:"mounting"` // "free", "settled" or "all free"
	Rules    []string     `json:"rules"`
	Same     []string     `json:"faults_on_any_board"`
	Step     float64      `json:"step_mm"`
	Sure     bool         `json:"sure"`
	Stopped  bool         `json:"stopped"`
	Boards   []BoardEntry `json:"boards"`

	plan   *layout.Plan
	result *boards.Result
}

// BoardEntry is one board. What follows Faults is known when Verdict is "fits",
// else 0, empty or null. Proof tells what "impossible" is proved for.
type BoardEntry struct {
	Name     string       `json:"name"` // "" for the size alone
	Own      bool         `json:"own"`
	Width    float64      `json:"width_mm"`
	Depth    float64      `json:"depth_mm"`
	Verdict  string       `json:"verdict"` // "fits", "impossible" or "undecided"
	Why      string       `json:"why"`
	Units    []string     `json:"units"`
	Proof    string       `json:"proof"` // "", "any slots" or "slots tried"
	Works    bool         `json:"works"`
	Smallest bool         `json:"smallest"`
	Corner   bool         `json:"corner"`
	Assumed  []string     `json:"assumed"`
	Faults   []string     `json:"faults"`
	Spare    []BoardSpare `json:"spare"`
	Cable    float64      `json:"cable_mm"` // of the kit for all line-ups, cut
	Longest  float64      `json:"longest_lineup_mm"`
	Mass     float64      `json:"board_g"`
	Rig      float64      `json:"rig_g"` // with the heaviest line-up
	Outside  *[3]float64  `json:"outside_mm"`
	Case     string       `json:"case"` // "", "yes", "no" or "not so": not as arranged
	CarryOn  string       `json:"carry_on"`
	Checked  string       `json:"checked_bag"`
	Price    *BoardPrice  `json:"price"`
	Risers   []BoardPart  `json:"risers"`
	Slots    []BoardPart  `json:"slots"`
	Places   []BoardUnit  `json:"places"`
}

// BoardSpare is the area that a line-up leaves free in the slots.
type BoardSpare struct {
	Lineup string  `json:"lineup"`
	Area   float64 `json:"area_cm2"`
}

// BoardPrice is a sum of money as its currency's unit counts it.
type BoardPrice struct {
	Amount   float64 `json:"amount"`
	Currency string  `json:"currency"`
}

// BoardPart is where a riser or a slot is on a board.
type BoardPart struct {
	Name  string  `json:"name"`
	X     float64 `json:"x_mm"`
	Y     float64 `json:"y_mm"`
	Width float64 `json:"width_mm"`
	Depth float64 `json:"depth_mm"`
}

// BoardUnit is where a unit stands in a line-up.
type BoardUnit struct {
	Lineup string  `json:"lineup"`
	Unit   string  `json:"unit"`
	On     string  `json:"on"`
	X      float64 `json:"x_mm"`
	Y      float64 `json:"y_mm"`
	Turn   int     `json:"turn"`
}

// NewBoards returns the comparison as programs read it. Neither the plan nor the
// result may change while it is in use.
func NewBoards(p *layout.Plan, r *boards.Result, lineups []string) *Boards {
	out := &Boards{Schema: BoardsSchema, Title: p.Title, Lineups: append([]string{}, lineups...), Mounting: string(r.Mounting),
		Rules: append([]string{}, r.Rules...), Same: append([]string{}, r.Same...), Step: r.Step.MM(), Sure: r.Sure,
		Stopped: r.Stopped, Boards: []BoardEntry{}, plan: p, result: r}
	if len(lineups) == 0 {
		for i := range p.Lineups {
			out.Lineups = append(out.Lineups, p.Lineups[i].Name)
		}
	}
	corner := map[*boards.Board]bool{}
	for _, b := range r.Corners {
		corner[b] = true
	}
	for _, b := range r.Boards {
		e := boardEntry(b)
		e.Corner = corner[b]
		out.Boards = append(out.Boards, e)
	}
	return out
}

func boardEntry(b *boards.Board) BoardEntry {
	e := BoardEntry{Name: b.Name, Own: b.Own, Width: b.W.MM(), Depth: b.D.MM(), Verdict: b.Verdict.String(), Why: b.Why,
		Units: append([]string{}, b.Units...), Works: b.Works, Smallest: b.Smallest, Assumed: append([]string{}, b.Assumed...),
		Faults: append([]string{}, b.Faults...), Spare: []BoardSpare{}, Cable: b.Cable.MM(), Longest: b.Longest.MM(),
		Mass: b.Mass.Grams(), Rig: b.Rig.Grams(), Case: string(b.Case), CarryOn: string(b.CarryOn), Checked: string(b.Checked),
		Risers: []BoardPart{}, Slots: []BoardPart{}, Places: []BoardUnit{}}
	if b.Why != "" {
		e.Proof = "slots tried"
		if b.AnySlots {
			e.Proof = "any slots"
		}
	}
	if b.Price != nil {
		e.Price = &BoardPrice{float64(b.Price.Milli) / 1000, b.Price.Currency}
	}
	for _, s := range b.Spare {
		e.Spare = append(e.Spare, BoardSpare{s.Lineup, round3(float64(s.Area) / 1e8)})
	}
	if b.Plan != nil {
		e.Outside = &[3]float64{b.Outside.W.MM(), b.Outside.D.MM(), b.Outside.H.MM()}
		e.parts(b.Plan)
	}
	return e
}

// parts tells where everything is on the board.
func (e *BoardEntry) parts(p *layout.Plan) {
	part := func(name string, r layout.Rect) BoardPart {
		return BoardPart{name, r.X0.MM(), r.Y0.MM(), r.W().MM(), r.D().MM()}
	}
	for _, r := range p.Board.Risers {
		e.Risers = append(e.Risers, part(r.Name, r.At))
	}
	for _, s := range p.Slots {
		e.Slots = append(e.Slots, part(s.Name, s.At))
	}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		for _, u := range p.UnitsIn(l) {
			if pl, ok := p.PlaceOf(l, u); ok {
				e.Places = append(e.Places, BoardUnit{l.Name, u.ID, pl.On, pl.At.X.MM(), pl.At.Y.MM(), pl.Turn.Degrees()})
			}
		}
	}
}

// JSON writes the comparison as JSON, two spaces to a level, with a newline
// behind.
func (b *Boards) JSON(to io.Writer) error { return encode(to, b) }

package sheet

import (
	"encoding/json"
	"io"
	"math"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/mount"
	"footplank/layout/wiring"
)

// Schema names the form of the report; a change that breaks readers changes it.
const Schema = "footplank/report/1"

// Report is a plan with its findings, cables and fastener pieces, as programs
// read it. Lengths are in mm with at most three decimals, masses in g; boxes are
// x0, y0, z0, x1, y1, z1 in the board's frame. Lists are in the plan's order and
// never null.
type Report struct {
	Schema    string     `json:"schema"`
	Title     string     `json:"title"`
	Board     Board      `json:"board"`
	Lineups   []Lineup   `json:"lineups"`
	Fasteners []Fastener `json:"fasteners"`
	// Strips is the fastener that stays on the board, BasePieces what stays on
	// the units, Rolls what both are cut from.
	Strips     []Strip     `json:"fastener_strips"`
	BasePieces []BasePiece `json:"fastener_bases"`
	Rolls      []Roll      `json:"fastener_rolls"`
	Kit        []KitCable  `json:"kit"`

	plan *layout.Plan // for drawings
}

// Board is the board of a report.
type Board struct {
	Width     float64    `json:"width_mm"`
	Depth     float64    `json:"depth_mm"`
	Mass      float64    `json:"mass_g"` // of the bare board with its risers
	Overhang  Edges      `json:"overhang_mm"`
	Surfaces  []Surface  `json:"surfaces"`
	Obstacles []Obstacle `json:"obstacles"`
	Slots     []Slot     `json:"slots"`
}

// Edges is a length for each edge of the board.
type Edges struct {
	Front float64 `json:"front"`
	Back  float64 `json:"back"`
	Left  float64 `json:"left"`
	Right float64 `json:"right"`
}

// Surface is the deck or a riser; Z is the height of its top above the deck's.
type Surface struct {
	Name      string  `json:"name"`
	X         float64 `json:"x_mm"`
	Y         float64 `json:"y_mm"`
	Z         float64 `json:"z_mm"`
	Width     float64 `json:"width_mm"`
	Depth     float64 `json:"depth_mm"`
	Thickness float64 `json:"thickness_mm"`
}

// Obstacle is a part of the board that takes room above the deck.
type Obstacle struct {
	Name string     `json:"name"`
	Box  [6]float64 `json:"box"`
}

// Slot is a region whose units change per line-up.
type Slot struct {
	Name  string  `json:"name"`
	On    string  `json:"on"`
	X     float64 `json:"x_mm"`
	Y     float64 `json:"y_mm"`
	Width float64 `json:"width_mm"`
	Depth float64 `json:"depth_mm"`
}

// Lineup is one line-up. Verdict is that of the check, "fits", "faults" or
// "unplaced", unless SetVerdict gave that of a search.
type Lineup struct {
	Name     string    `json:"name"`
	Verdict  string    `json:"verdict"`
	Units    []Unit    `json:"units"`
	Cables   []Cable   `json:"cables"`
	Leads    []Lead    `json:"leads"`
	Findings []Finding `json:"findings"`
	Totals   Totals    `json:"totals"`
}

// Unit is a unit of a line-up. One without a place has null for its place and
// no boxes. X and Y are the front-left corner of its turned body.
type Unit struct {
	ID     string    `json:"id"`
	Label  string    `json:"label"`
	Form   string    `json:"form"`
	Mount  string    `json:"mount"`
	Pinned bool      `json:"pinned"`
	On     *string   `json:"on"`
	X      *float64  `json:"x_mm"`
	Y      *float64  `json:"y_mm"`
	Turn   *int      `json:"turn"` // degrees clockwise
	Mass   float64   `json:"mass_g"`
	Boxes  []PartBox `json:"boxes"`
}

// PartBox is one box of a placed unit: "body", "sweep" or "plug"; Jack is set
// for plugs.
type PartBox struct {
	Part string     `json:"part"`
	Jack string     `json:"jack"`
	Box  [6]float64 `json:"box"`
}

// JackRef is one end of a cable; Jack is "" at the ends of the chain.
type JackRef struct {
	Unit string `json:"unit"`
	Jack string `json:"jack"`
}

// Cable is one audio cable. Cut and Stock are 0 for a cable that leaves the
// board, Stock also where no stock length is long enough. Kit is the ID of the
// cable of the kit that is used, "" for a cable that leaves the board.
type Cable struct {
	ID    string       `json:"id"`
	From  JackRef      `json:"from"`
	To    JackRef      `json:"to"`
	Path  [][3]float64 `json:"path_mm"`
	Run   float64      `json:"run_mm"`
	Cut   float64      `json:"cut_mm"`
	Stock float64      `json:"stock_mm"`
	Kit   string       `json:"kit"`
}

// Lead is one power lead. Path is empty when one of its ends has no place.
type Lead struct {
	ID        string       `json:"id"`
	Supply    string       `json:"supply"`
	Output    string       `json:"output"`
	Unit      string       `json:"unit"`
	Volts     float64      `json:"volts"`
	Milliamps int          `json:"milliamps"`
	Limit     int          `json:"limit_ma"`
	Path      [][3]float64 `json:"path_mm"`
	Run       float64      `json:"run_mm"`
	Cut       float64      `json:"cut_mm"`
	Drop      float64      `json:"drop_v"`
}

// Finding is one finding of the check.
type Finding struct {
	Code     string   `json:"code"`
	Level    string   `json:"level"`
	Units    []string `json:"units"`
	Text     string   `json:"text"`
	Measured float64  `json:"measured"`
	Limit    float64  `json:"limit"`
	Unit     string   `json:"unit"`
}

// Totals sums up a line-up. Mass is what is carried: board, all units of the
// line-up and the case. The centre of mass is that of the board with its placed
// units. Cable is the length of all runs on the board.
type Totals struct {
	Mass         float64    `json:"mass_g"`
	Draw         int        `json:"draw_ma"`
	Cable        float64    `json:"cable_mm"`
	CentreOfMass [2]float64 `json:"centre_of_mass_mm"`
}

// KitCable is one cable of the kit that is carried to every gig.
type KitCable struct {
	ID     string   `json:"id"`
	Cut    float64  `json:"cut_mm"`
	Stock  float64  `json:"stock_mm"`
	UsedIn []string `json:"used_in"`
}

// NewReport checks the plan as it stands and gathers the report. The plan must
// not change while the report is in use.
func NewReport(p *layout.Plan) *Report {
	r := &Report{
		Schema: Schema, Title: p.Title, Board: boardOf(p),
		Lineups: make([]Lineup, 0, len(p.Lineups)), Kit: []KitCable{}, plan: p,
	}
	cables := wiring.Wire(p)
	leads, laid := laidPower(p, cables), mount.Lay(p)
	found := check.WithCables(check.AllOn(p, leads, laid), cables, nil)
	for i := range p.Lineups {
		l := reportLineup(p, &p.Lineups[i], cables.Wirings[i].Cables, found[i])
		l.Leads = append(l.Leads, leadsOf(leads, l.Name)...)
		r.Lineups = append(r.Lineups, l)
	}
	for i := range cables.Kit {
		r.Kit = append(r.Kit, kitOf(&cables.Kit[i]))
	}
	r.fasteners(p, laid)
	return r
}

// SetVerdict replaces the verdict of a line-up, for instance by the answer of a
// search: "impossible" or "undecided".
func (r *Report) SetVerdict(lineup, verdict string) {
	for i := range r.Lineups {
		if r.Lineups[i].Name == lineup {
			r.Lineups[i].Verdict = verdict
		}
	}
}

// JSON writes the report as JSON, two spaces to a level, with a newline behind.
func (r *Report) JSON(w io.Writer) error {
	return encode(w, r)
}

func encode(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

func boardOf(p *layout.Plan) Board {
	b := &p.Board
	out := Board{
		Width: b.W.MM(), Depth: b.D.MM(), Mass: round3(b.TotalMass().Grams()),
		Overhang: Edges{b.Overhang.Front.MM(), b.Overhang.Back.MM(), b.Overhang.Left.MM(), b.Overhang.Right.MM()},
		Surfaces: []Surface{}, Obstacles: []Obstacle{}, Slots: []Slot{},
	}
	for _, s := range b.Surfaces() {
		out.Surfaces = append(out.Surfaces, Surface{s.Name, s.At.X0.MM(), s.At.Y0.MM(), s.Z.MM(),
			s.At.W().MM(), s.At.D().MM(), s.Thickness.MM()})
	}
	for _, o := range b.Obstacles() {
		out.Obstacles = append(out.Obstacles, Obstacle{o.Name, box6(o.Box)})
	}
	for _, s := range p.Slots {
		out.Slots = append(out.Slots, Slot{s.Name, s.On, s.At.X0.MM(), s.At.Y0.MM(), s.At.W().MM(), s.At.D().MM()})
	}
	return out
}

func reportLineup(p *layout.Plan, l *layout.Lineup, cables []wiring.Cable, found check.Result) Lineup {
	out := Lineup{Name: l.Name, Verdict: found.Verdict,
		Units: []Unit{}, Cables: []Cable{}, Leads: []Lead{}, Findings: []Finding{}}
	for _, f := range found.Findings {
		out.Findings = append(out.Findings, Finding{f.Code, string(f.Level), append([]string{}, f.Units...),
			f.Text, round3(f.Measured), round3(f.Limit), f.Unit})
	}
	placed, _ := p.Standings(l)
	at := map[string]*layout.Standing{}
	for i := range placed {
		at[placed[i].Unit.ID] = &placed[i]
	}
	mass := p.Board.TotalMass()
	if p.Board.Case != nil {
		mass += p.Board.Case.Mass
	}
	for _, u := range p.UnitsIn(l) {
		out.Units = append(out.Units, unitOf(u, at[u.ID]))
		mass += u.Mass
		if u.Fed() {
			out.Totals.Draw += u.Draw.Milliamps
		}
	}
	for _, c := range cables {
		out.Cables = append(out.Cables, cableOf(&c))
	}
	_, x, y := p.Balance(l)
	out.Totals.Mass = round3(mass.Grams())
	out.Totals.Cable = wiring.Total(cables).MM()
	out.Totals.CentreOfMass = [2]float64{round3(x / float64(layout.Millimetre)), round3(y / float64(layout.Millimetre))}
	return out
}

// unitOf returns a unit at its place; s is nil if it has none.
func unitOf(u *layout.Unit, s *layout.Standing) Unit {
	out := Unit{ID: u.ID, Label: u.Label, Form: u.Form, Mount: string(u.Mount), Pinned: u.Pinned,
		Mass: round3(u.Mass.Grams()), Boxes: []PartBox{}}
	if s == nil {
		return out
	}
	on, x, y, turn := s.Place.On, s.Place.At.X.MM(), s.Place.At.Y.MM(), s.Place.Turn.Degrees()
	out.On, out.X, out.Y, out.Turn = &on, &x, &y, &turn
	for _, b := range s.Boxes {
		out.Boxes = append(out.Boxes, PartBox{string(b.Part), b.Jack, box6(b.Box)})
	}
	return out
}

func cableOf(c *wiring.Cable) Cable {
	out := Cable{ID: c.ID, From: JackRef(c.From), To: JackRef(c.To), Path: [][3]float64{},
		Run: c.Run.MM(), Cut: c.Cut.MM(), Stock: c.Stock.MM(), Kit: c.Kit}
	for _, p := range c.Path {
		out.Path = append(out.Path, [3]float64{p.X.MM(), p.Y.MM(), p.Z.MM()})
	}
	return out
}

func box6(b layout.Box) [6]float64 {
	return [6]float64{b.X0.MM(), b.Y0.MM(), b.Z0.MM(), b.X1.MM(), b.Y1.MM(), b.Z1.MM()}
}

func rect4(r layout.Rect) [4]float64 {
	return [4]float64{r.X0.MM(), r.Y0.MM(), r.X1.MM(), r.Y1.MM()}
}

// round3 keeps three decimals. Lengths need no rounding: a micrometre is the
// third decimal of a millimetre.
func round3(f float64) float64 {
	f = math.Round(f*1000) / 1000
	if f == 0 || math.IsNaN(f) || math.IsInf(f, 0) {
		return 0 // neither -0 nor what JSON cannot say
	}
	return f
}

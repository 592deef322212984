package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/wiring"
)

// WiringSchema names the form of the wiring as JSON; a change that breaks
// readers changes it.
const WiringSchema = "footplank/wiring/1"

// Wiring is the cables of a plan as programs read them: runs, the kit, the
// cutting list, the load. Lengths are in mm as in Report; lists are never null.
type Wiring struct {
	Schema  string         `json:"schema"`
	Title   string         `json:"title"`
	Lineups []WiringLineup `json:"lineups"`
	Plugs   []ChosenPlug   `json:"chosen_plugs"`
	Kit     []WiringKit    `json:"kit"`
	Spare   []SpareCable   `json:"spare"`
	Reels   Reels          `json:"reels"`
	plan    *layout.Plan   // for the player's measure
}

// WiringLineup is the cables of one line-up. Cable is the length of all runs on
// the board.
type WiringLineup struct {
	Name     string        `json:"name"`
	Cables   []WiringCable `json:"cables"`
	Cable    float64       `json:"cable_mm"`
	Load     []Stretch     `json:"load"`
	Findings []Finding     `json:"findings"`
}

// WiringCable is a cable with the forms of its plugs, "" off the board, and where
// their legs point, named as at their unit's turn 0, "" for a plug without one.
type WiringCable struct {
	Cable
	FromPlug string `json:"from_plug"`
	ToPlug   string `json:"to_plug"`
	FromLeg  string `json:"from_leg"`
	ToLeg    string `json:"to_leg"`
	Stereo   bool   `json:"stereo"` // one of the two of a stereo link
}

// Stretch is a part of the chain without a buffer inside. Peak is where a plain
// pickup's resonance comes to lie, in Hz, 0 where no pickup drives it. Whole is
// false when cables are missing for want of a place.
type Stretch struct {
	Where      string   `json:"where"`
	From       string   `json:"from"`
	To         string   `json:"to"`
	Through    []string `json:"through"`
	Cables     int      `json:"cables"`
	Length     float64  `json:"length_mm"`
	Picofarads float64  `json:"picofarads"`
	Peak       float64  `json:"peak_hz"`
	Whole      bool     `json:"whole"`
}

// WiringKit is a cable of the kit with its plugs and where it goes. Owned is set
// for one that the player has; its cut is then its own length, its name what the
// player calls it.
type WiringKit struct {
	KitCable
	Owned bool      `json:"owned"`
	Name  string    `json:"name"`
	Label string    `json:"label"`
	Plugs [2]string `json:"plugs"`
	Uses  []KitUse  `json:"uses"`
}

// KitUse is where a cable of the kit goes in a line-up.
type KitUse struct {
	Lineup string  `json:"lineup"`
	Cable  string  `json:"cable"`
	From   JackRef `json:"from"`
	To     JackRef `json:"to"`
}

// Reels is the list by which what is to be made of the kit is cut. Length is that
// of a new reel. Proved is set when no list needs fewer new reels.
type Reels struct {
	Length float64 `json:"length_mm"`
	Proved bool    `json:"proved"`
	List   []Reel  `json:"list"`
}

// Reel is what to cut from one reel, by IDs of the kit, and what is left. Owned is
// set for the one that the player has.
type Reel struct {
	Length float64  `json:"length_mm"`
	Owned  bool     `json:"owned"`
	Kit    []string `json:"kit"`
	Left   float64  `json:"left_mm"`
}

// NewWiring works out the plan's cables as it stands. The plan must not change
// while the result is in use.
func NewWiring(p *layout.Plan) *Wiring {
	r := wiring.Wire(p)
	w := &Wiring{Schema: WiringSchema, Title: p.Title, Lineups: make([]WiringLineup, 0, len(p.Lineups)), Kit: []WiringKit{},
		Plugs: chosenPlugs(p), Spare: spareCables(r), Reels: Reels{Length: r.Reel.MM(), Proved: r.Proved, List: []Reel{}}, plan: p}
	for i := range r.Wirings {
		w.Lineups = append(w.Lineups, wiringLineup(&r.Wirings[i], r.Issues))
	}
	for i, k := range r.Kit {
		x := WiringKit{KitCable: kitOf(&r.Kit[i]), Owned: k.Owned, Name: k.Name, Label: k.Label, Plugs: k.Plugs, Uses: []KitUse{}}
		for _, u := range k.Uses {
			cs := r.Of(u.Lineup).Cables
			c := cs[slices.IndexFunc(cs, func(c wiring.Cable) bool { return c.ID == u.Cable })]
			x.Uses = append(x.Uses, KitUse{u.Lineup, u.Cable, JackRef(c.From), JackRef(c.To)})
		}
		w.Kit = append(w.Kit, x)
	}
	for _, b := range r.List {
		w.Reels.List = append(w.Reels.List, Reel{b.Length.MM(), b.Owned, append([]string{}, b.Kit...), b.Left.MM()})
	}
	return w
}

func wiringLineup(w *wiring.Wiring, issues []wiring.Issue) WiringLineup {
	out := WiringLineup{Name: w.Lineup, Cables: []WiringCable{}, Cable: wiring.Total(w.Cables).MM(), Load: []Stretch{}, Findings: []Finding{}}
	for i := range w.Cables {
		c := &w.Cables[i]
		out.Cables = append(out.Cables, WiringCable{cableOf(c), c.Plugs[0], c.Plugs[1], string(c.Legs[0]), string(c.Legs[1]), c.Stereo})
	}
	for _, s := range w.Load {
		out.Load = append(out.Load, Stretch{Where: s.Where, From: s.From, To: s.To, Through: append([]string{}, s.Through...),
			Cables: s.Cables, Length: s.Length.MM(), Picofarads: round3(s.Picofarads), Peak: round3(s.Resonance), Whole: !s.Short})
	}
	for _, f := range issues {
		if f.Lineup == w.Lineup {
			out.Findings = append(out.Findings, Finding{f.Code, f.Level, append([]string{}, f.Units...), f.Text,
				round3(f.Measured), round3(f.Limit), f.Unit})
		}
	}
	return out
}

// kitOf returns a cable of the kit with the line-ups that use it.
func kitOf(k *wiring.KitCable) KitCable {
	out := KitCable{ID: k.ID, Cut: k.Cut.MM(), Stock: k.Stock.MM(), UsedIn: []string{}}
	for _, u := range k.Uses {
		out.UsedIn = append(out.UsedIn, u.Lineup)
	}
	return out
}

// Faulty reports whether a line-up of the wiring has a fault.
func (w *Wiring) Faulty() bool {
	for _, l := range w.Lineups {
		if slices.ContainsFunc(l.Findings, func(f Finding) bool { return f.Level == wiring.Fault }) {
			return true
		}
	}
	return false
}

// JSON writes the wiring as JSON, two spaces to a level, with a newline behind.
func (w *Wiring) JSON(to io.Writer) error {
	return encode(to, w)
}

// Text writes the wiring for reading in that many columns, 80 for 0: for each line-up its
// cables, their load and what is wrong, then the kit and how to cut it.
func (w *Wiring) Text(to io.Writer, cols int) error {
	t := &writer{p: w.plan, width: cols}
	t.title(w.Title, "=")
	t.lines("")
	for i := range w.Lineups {
		t.wiring(&w.Lineups[i])
	}
	t.chosenPlugs(w.Plugs)
	t.kit(w)
	t.spare(w.Spare)
	t.reels(w)
	_, err := io.WriteString(to, t.b.String())
	return err
}

func (t *writer) wiring(l *WiringLineup) {
	t.title("Line-up "+l.Name, "-")
	t.lines("")
	if len(l.Cables) == 0 {
		t.lines("  No cables: the chain is empty, or its units have no place yet.", "")
	} else {
		cables := make([]Cable, len(l.Cables))
		for i, c := range l.Cables {
			cables[i] = c.Cable
		}
		t.cableTable(cables)
		t.lines(t.para("  ", fmt.Sprintf("In all %s on the board, without the cables that leave it.", t.length(t.runs(cables))))...)
		t.lines("")
	}
	if len(l.Load) > 0 {
		t.load(l.Load)
	}
	t.findings(&Lineup{Findings: l.Findings})
}

// load says what the cables ask of what drives them, and what was taken for the
// cables that leave the board.
func (t *writer) load(load []Stretch) {
	c, u := wiring.Cabling(t.p), t.unit()
	each := fmt.Sprintf("%.0f pF for each metre", c.Capacitance)
	if u == layout.Inches {
		each = fmt.Sprintf("%.0f pF for each foot", c.Capacitance*12*layout.Inch.MM()/1000)
	}
	t.lines(t.para("  ", fmt.Sprintf("Load, with %s for the instrument's cable, %s for any other that leaves the board, and %s:",
		wiring.Metres(c.Instrument, u), wiring.Metres(c.Amp, u), each))...)
	for i := range load {
		t.stretch(&load[i])
	}
	t.lines("")
}

// stretch says what a part of the chain asks of what drives it.
func (t *writer) stretch(s *Stretch) {
	text := fmt.Sprintf("%s to %s", s.From, s.To)
	if len(s.Through) > 0 {
		text += " through " + strings.Join(s.Through, ", ")
	}
	text += fmt.Sprintf(": %s of cable, %.0f pF", wiring.Metres(micrometres(s.Length), t.unit()), s.Picofarads)
	if !s.Whole {
		text += " and more, for not every unit has a place"
	}
	if s.Peak > 0 {
		text += fmt.Sprintf("; a plain pickup peaks at %.1f kHz", s.Peak/1000)
	}
	t.lines(t.para("    "+strings.ToUpper(s.Where[:1])+s.Where[1:]+": ", text)...)
}

// kit lists the cables to carry, each with where it goes.
func (t *writer) kit(w *Wiring) {
	t.title("Kit for all line-ups", "-")
	t.lines("")
	if len(w.Kit) == 0 {
		t.lines("  No cables.")
		return
	}
	for i := range w.Kit {
		k := &w.Kit[i]
		t.lines(t.para(fmt.Sprintf("  %-3s", k.ID), fmt.Sprintf("%s, %s; %s", t.length(micrometres(k.Cut)), t.origin(k), wiring.BothPlugs(k.Plugs)))...)
		for _, s := range whereabouts(k.Uses, len(w.plan.Lineups)) {
			t.lines(t.para("       ", s)...)
		}
	}
	t.lines("")
	t.lines(t.para("  ", t.kitSum(w.Kit))...)
}

// whereabouts says where a cable goes, links that several line-ups share in one
// line.
func whereabouts(uses []KitUse, lineups int) []string {
	var links []string
	in := map[string][]string{}
	for _, u := range uses {
		k := jackName(u.From) + " to " + jackName(u.To)
		if in[k] == nil {
			links = append(links, k)
		}
		in[k] = append(in[k], u.Lineup)
	}
	for i, k := range links {
		where := strings.Join(in[k], ", ")
		if len(in[k]) == lineups && lineups > 1 {
			where = "every line-up"
		}
		links[i] = fmt.Sprintf("%s: %s", where, k)
	}
	return links
}

// reels says how to cut the kit.
func (t *writer) reels(w *Wiring) {
	if len(w.Reels.List) == 0 {
		return
	}
	t.lines("")
	t.title("Cut list", "-")
	t.lines("")
	for _, line := range t.reelWords(&w.Reels) {
		t.lines(t.para("  ", line)...)
	}
	cut := map[string]string{}
	for _, k := range w.Kit {
		cut[k.ID] = k.ID + " " + t.num(micrometres(k.Cut))
	}
	for i, b := range w.Reels.List {
		var parts []string
		for _, id := range b.Kit {
			parts = append(parts, cut[id])
		}
		t.lines(t.para(reelName(w.Reels.List, i), fmt.Sprintf("%s; %s left", strings.Join(parts, ", "), t.length(micrometres(b.Left))))...)
	}
}

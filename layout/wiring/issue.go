package wiring

import (
	"fmt"
	"strings"

	"footplank/layout"
)

// Levels of issues, as those of findings.
const (
	Fault   = "fault"
	Caution = "caution"
	Note    = "note"
)

// Codes of issues. They are stable: scripts may rely on them. Each comment gives
// the level, and what Measured and Limit are.
const (
	// NoWay: no way through for a cable. Fault. No measure.
	NoWay = "no-way"
	// BendTight: a cable must bend more tightly than it likes. Caution.
	// Measured is the bend's radius in mm, Limit five outside diameters
	// (rfessentials).
	BendTight = "bend-tight"
	// PlugSeat: the plug of the form chosen cannot seat, for something is in
	// its way. Fault. No measure.
	PlugSeat = "plug-seat"
	// ChainOrder: units follow each other in another order than most have
	// them. Note. No measure.
	ChainOrder = "chain-order"
	// LongUnbuffered: a pickup drives a long way of cable. Note above
	// UnbufferedNote, caution above UnbufferedCaution. Measured and Limit are
	// lengths in mm.
	LongUnbuffered = "long-unbuffered"
	// ReelShort: a cable is longer than the reel. Caution. Measured is its
	// cut in mm, Limit the reel.
	ReelShort = "reel-short"
	// KitShort: a cable that the player has nearly reaches and would be in the
	// kit if it were longer. Caution. Measured is its length in mm, Limit what
	// is needed.
	KitShort = "kit-short"
	// FeedbackLoop: the signal comes back to where it was. Fault. No measure.
	FeedbackLoop = "feedback-loop"
	// UsedTwice: a jack has two plugs. Fault. Measured is how many.
	UsedTwice = "used-twice"
)

// Issue is one thing wrong or worth knowing in one line-up.
type Issue struct {
	Code, Level string
	Lineup      string
	Units       []string // IDs; may be empty
	Text        string   // a sentence or two, lengths in the plan's unit
	// Measured and Limit are what was found and what is allowed, in Unit.
	Measured, Limit float64
	Unit            string
}

// finder gathers the issues of one line-up.
type finder struct {
	p     *layout.Plan
	l     *layout.Lineup
	w     *Wiring
	r     *Result
	found []Issue
}

func (f *finder) all() {
	f.twice()
	f.loops()
	f.runs()
	f.short()
	f.seats()
	f.loads()
	f.order()
}

func (f *finder) add(i Issue) {
	i.Lineup = f.l.Name
	f.found = append(f.found, i)
}

// runs reports what is wrong with the cables' ways.
func (f *finder) runs() {
	for i := range f.w.Cables {
		c := &f.w.Cables[i]
		if c.Blocked != "" {
			f.add(Issue{Code: NoWay, Level: Fault, Units: c.units(),
				Text: fmt.Sprintf("No way through for the cable %s: %s. Move one of the two, or what is between them.", f.between(c), c.Blocked)})
			continue
		}
		if c.Bend > 0 && c.Bend < c.BendRadius {
			f.add(Issue{Code: BendTight, Level: Caution, Units: c.units(),
				Text: fmt.Sprintf("The cable %s must bend to a radius of %s, and wants %s. Give it more room, or take a thinner cable.",
					f.between(c), f.atMost(c.Bend), f.atLeast(c.BendRadius)),
				Measured: c.Bend.MM(), Limit: c.BendRadius.MM(), Unit: "mm"})
		}
		if f.r.tooLong(c) {
			f.add(Issue{Code: ReelShort, Level: Caution, Units: c.units(),
				Text: fmt.Sprintf("The cable %s is cut to %s, and the reel has %s. Take a longer reel.",
					f.between(c), f.atLeast(c.Cut), f.atMost(f.r.Reel)),
				Measured: c.Cut.MM(), Limit: f.r.Reel.MM(), Unit: "mm"})
		}
	}
}

// twice reports jacks with two plugs. The reader of plan files refuses them; a
// plan that is being edited may have them.
func (f *finder) twice() {
	count := map[layout.JackRef]int{}
	for _, k := range f.p.ChainLinks(f.l) {
		for _, r := range []layout.JackRef{k.From, k.To} {
			if layout.OffBoard(r.Unit) {
				continue
			}
			if count[r]++; count[r] == 2 {
				f.add(Issue{Code: UsedTwice, Level: Fault, Units: []string{r.Unit}, Measured: 2, Limit: 1,
					Text: fmt.Sprintf("The jack %q of %s has two plugs, and one jack takes one cable. Take one of the two out of the chain.", r.Jack, f.label(r.Unit))})
			}
		}
	}
}

// loops reports a link by which the signal comes back, as layout.PassOf tells
// the passes of a unit apart: one that the chain passes twice may send and
// return, or carry two lines.
func (f *finder) loops() {
	next := map[string][]string{}
	nodes := f.p.Nodes(f.l)
	var reaches func(from, to string, seen map[string]bool) bool
	reaches = func(from, to string, seen map[string]bool) bool {
		seen[from] = true
		for _, n := range next[from] {
			if n == to || !seen[n] && reaches(n, to, seen) {
				return true
			}
		}
		return from == to
	}
	for _, k := range f.p.ChainLinks(f.l) {
		if layout.OffBoard(k.From.Unit) || layout.OffBoard(k.To.Unit) {
			continue
		}
		a, b := layout.PassOf(nodes, k.From), layout.PassOf(nodes, k.To)
		if reaches(b, a, map[string]bool{}) {
			f.add(Issue{Code: FeedbackLoop, Level: Fault, Units: []string{k.From.Unit, k.To.Unit},
				Text: fmt.Sprintf("The signal goes from %s back to %s, from which it came: a loop that howls. Take that cable out.", f.label(k.From.Unit), f.label(k.To.Unit))})
			continue
		}
		next[a] = append(next[a], b)
	}
}

func (f *finder) label(id string) string {
	if u := f.p.Unit(id); u != nil {
		return u.Label
	}
	return ends(id)
}

// ends names an end of the chain in a sentence.
func ends(id string) string {
	switch id {
	case layout.Amp:
		return "amplifier"
	}
	return id
}

// between says where a cable goes: "from Rosin to Low Bow".
func (f *finder) between(c *Cable) string {
	return "from " + f.the(c.From.Unit) + " to " + f.the(c.To.Unit)
}

func (f *finder) the(id string) string {
	if layout.OffBoard(id) {
		return "the " + ends(id)
	}
	return f.label(id)
}

// atLeast and atMost write lengths as layout.Length.AtLeast and AtMost round them.
func (f *finder) atLeast(l layout.Length) string { return f.spaced(l.AtLeast(f.p.Measure())) }
func (f *finder) atMost(l layout.Length) string  { return f.spaced(l.AtMost(f.p.Measure())) }

func (f *finder) spaced(l layout.Length) string {
	u := f.p.Measure()
	return l.Number(u) + " " + string(u)
}

// metres writes long lengths: "5.4 m", "17.7 ft".
func (f *finder) metres(l layout.Length) string { return Metres(l, f.p.LengthUnit) }

// Metres writes a length in metres, or in feet where the plan is in inches, with
// one decimal.
func Metres(l layout.Length, u layout.LengthUnit) string {
	if u == layout.Inches {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", float64(l)/float64(12*layout.Inch)), ".0") + " ft"
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", l.MM()/1000), ".0") + " m"
}

func picofarads(pf float64) string { return fmt.Sprintf("%.0f pF", pf) }

func hertz(f float64) string {
	if f >= 1000 {
		return fmt.Sprintf("%.1f kHz", f/1000)
	}
	return fmt.Sprintf("%.0f Hz", f)
}

package wiring

import (
	"cmp"

	"footplank/layout"
	"footplank/layout/route"
)

// Defaults of a plan's Cabling. All are common practice, no source, but for the
// capacitance: 30 pF/ft (soundonsound nov09; psg.com).
const (
	DefaultReel        = 5000 * layout.Millimetre
	DefaultInstrument  = 3000 * layout.Millimetre
	DefaultAmp         = 6000 * layout.Millimetre
	DefaultCapacitance = 30 / 0.3048 // pF/m
)

// Wiring is one line-up's cables and their load.
type Wiring struct {
	Lineup string
	Cables []Cable
	Load   []Stretch
}

// Result is the wiring of a whole plan.
type Result struct {
	Wirings []Wiring   // of every line-up, in the plan's order
	Kit     []KitCable // the longest first
	// Spare is what the kit does not take of the cables that the player has.
	Spare []layout.OwnedCable
	// Reel is the length of the new reels that List cuts from what the kit
	// needs besides the player's own cables; what is longer is in no reel.
	Reel   layout.Length
	List   []Reel
	Proved bool // no list needs fewer reels
	Issues []Issue
}

// Of returns the wiring of the line-up of that name, or nil.
func (r *Result) Of(lineup string) *Wiring {
	for i := range r.Wirings {
		if r.Wirings[i].Lineup == lineup {
			return &r.Wirings[i]
		}
	}
	return nil
}

// Cabling returns what the plan says of its cables, with the defaults for what
// it does not say.
func Cabling(p *layout.Plan) layout.Cabling {
	c := p.Cabling
	c.Reel = cmp.Or(c.Reel, DefaultReel)
	c.Instrument = cmp.Or(c.Instrument, DefaultInstrument)
	c.Amp = cmp.Or(c.Amp, DefaultAmp)
	c.Diameter = cmp.Or(c.Diameter, route.PatchDiameter)
	c.Capacitance = cmp.Or(c.Capacitance, DefaultCapacitance)
	return c
}

// Wire returns the cables of every line-up, the kit that wires them all, the
// list to cut it by, the load of the cables, and what is wrong or worth knowing.
// It changes nothing and always answers the same for the same plan.
func Wire(p *layout.Plan) *Result {
	return WireWith(p, func(l *layout.Lineup) []Cable { return Cables(p, l) })
}

// WireWith is Wire with cables that lay puts on the board, which is what Cables
// returns, however it is come by.
func WireWith(p *layout.Plan, lay func(l *layout.Lineup) []Cable) *Result {
	r := &Result{Wirings: make([]Wiring, 0, len(p.Lineups)), Reel: Cabling(p).Reel}
	for i := range p.Lineups {
		l := &p.Lineups[i]
		r.Wirings = append(r.Wirings, Wiring{Lineup: l.Name, Cables: lay(l)})
	}
	r.Kit = kit(r.Wirings, p.Owned.Cables, p.LengthUnit)
	r.Spare = spare(r.Kit, p.Owned.Cables)
	r.cutList(p.Owned.Reel)
	for i := range r.Wirings {
		w, l := &r.Wirings[i], &p.Lineups[i]
		w.Load = load(p, l, w.Cables, r.Kit)
		f := &finder{p: p, l: l, w: w, r: r}
		f.all()
		r.Issues = append(r.Issues, f.found...)
	}
	return r
}

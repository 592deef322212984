package layout

import (
	"cmp"
	"maps"
	"slices"
)

// Names that stand for the ends of the chain, off the board.
const (
	Instrument = "instrument"
	Amp        = "amp"
	Desk       = "desk"
)

// OffBoard reports whether a name in the chain is an end of it, not a unit.
func OffBoard(name string) bool { return name == Instrument || name == Amp || name == Desk }

// Slot is a region of a surface, and a stretch of the chain, whose units
// change per line-up. A unit in a slot has its body inside the region; its
// plugs may stand out.
type Slot struct {
	Name string
	On   string
	At   Rect
}

// Stop is one entry of the chain.
type Stop struct {
	Slot string // name of a slot, or "" for a unit or an end
	Unit string // ID of a unit, or Instrument, Amp or Desk
	// In and Out are the jacks that the signal comes in by and leaves by;
	// "" for the unit's usual ones, "in" and "out". With them a unit can
	// stand twice in the chain: preamp in>send ... preamp return>out.
	In, Out string
}

// Jacks returns the jacks that the signal comes in by and leaves by, with the
// usual ones where the stop names none.
func (s Stop) Jacks() (in, out string) { return cmp.Or(s.In, "in"), cmp.Or(s.Out, "out") }

// JackRef names a jack of a unit, or an end of the chain with Jack "".
type JackRef struct{ Unit, Jack string }

// Link is one cable that the plan needs.
type Link struct{ From, To JackRef }

// Chain is the way of the signal, from the instrument on.
type Chain struct {
	Stops []Stop
	Links []Link // cables besides the chain: a tuner output, a DI
	// LeftToRight is set when the signal runs from the player's left to the
	// right; the usual way is from the right to the left.
	LeftToRight bool
}

// Lineup is one gig's choice of units for the slots.
type Lineup struct {
	Name string
	// Fill lists, for each slot that is not empty, its units in the order
	// of the signal.
	Fill map[string][]string
	// Place is where units stand in this line-up, before Unit.Place.
	Place map[string]Placement
}

// Limits are the plan's own values for the checks; each has a default.
type Limits struct {
	Mass      Mass    // of the loaded board with its case
	MassGiven bool    // by the plan: then to pass it is a fault, else a caution
	Reach     Length  // least distance between switch centres of two units
	StepOver  Length  // how much taller a unit in front of a switch may be
	FootForce float64 // newtons of a foot that presses a switch or treadle
}

// PowerRules are the plan's rules for sharing out the supply.
type PowerRules struct {
	Sharing  bool     // several units on one output
	Headroom int      // percent kept spare
	Tour     []string // ISO 3166 two-letter country codes
}

// Cabling is what the plan says of its cables; what is zero has its default,
// which layout/wiring knows.
type Cabling struct {
	Reel            Length  // that patch cable is cut from
	Instrument, Amp Length  // the cables that leave the board: the instrument's, and any other
	Capacitance     float64 // picofarads per metre
	Diameter        Length  // of patch cable, outside
}

// Plan is everything in one plan file, catalog forms filled in.
type Plan struct {
	Title      string
	LengthUnit LengthUnit
	Board      Board
	Slots      []Slot
	Units      []Unit
	Chain      Chain
	Lineups    []Lineup // at least one
	Power      PowerRules
	Limits     Limits
	Cabling    Cabling
	Fastening  Fastening
	Owned      Owned
	// Prices is what things cost, by the name that a shopping list gives
	// them: IDs of units, "board", forms of plugs, "interlock 25mm" and so on.
	Prices map[string]Price
	// Feeds tells which output feeds which unit in which line-up, as the
	// power map chose without regard to places; nil where there is no map.
	// It is replaced whole and never changed, so that clones may share it.
	Feeds Feeds
	// PlugForms are the forms of plugs that the program may choose from, in
	// the catalog's order; none, and every jack keeps the plug that it has.
	PlugForms []PlugForm
}

// Unit returns the unit with that ID, or nil.
func (p *Plan) Unit(id string) *Unit {
	for i := range p.Units {
		if p.Units[i].ID == id {
			return &p.Units[i]
		}
	}
	return nil
}

// Slot returns the slot with that name, or nil.
func (p *Plan) Slot(name string) *Slot {
	for i := range p.Slots {
		if p.Slots[i].Name == name {
			return &p.Slots[i]
		}
	}
	return nil
}

// LineupNamed returns the line-up with that name, or nil.
func (p *Plan) LineupNamed(name string) *Lineup {
	for i := range p.Lineups {
		if p.Lineups[i].Name == name {
			return &p.Lineups[i]
		}
	}
	return nil
}

// SlotOf returns the slot that the line-up puts the unit into, or nil.
func (p *Plan) SlotOf(l *Lineup, id string) *Slot {
	for i := range p.Slots {
		if slices.Contains(l.Fill[p.Slots[i].Name], id) {
			return &p.Slots[i]
		}
	}
	return nil
}

// InSlots reports whether any line-up puts the unit into a slot. A unit that
// none does stands on the board in every line-up.
func (p *Plan) InSlots(id string) bool {
	for i := range p.Lineups {
		if p.SlotOf(&p.Lineups[i], id) != nil {
			return true
		}
	}
	return false
}

// Present reports whether the unit is on the board in the line-up.
func (p *Plan) Present(l *Lineup, id string) bool {
	return p.SlotOf(l, id) != nil || !p.InSlots(id)
}

// UnitsIn returns the units on the board in the line-up, in the plan's order.
func (p *Plan) UnitsIn(l *Lineup) []*Unit {
	var out []*Unit
	for i := range p.Units {
		if p.Present(l, p.Units[i].ID) {
			out = append(out, &p.Units[i])
		}
	}
	return out
}

// PlaceOf returns where the unit stands in the line-up.
func (p *Plan) PlaceOf(l *Lineup, u *Unit) (Placement, bool) {
	if pl, ok := l.Place[u.ID]; ok {
		return pl, true
	}
	if u.Place != nil {
		return *u.Place, true
	}
	return Placement{}, false
}

// SetPlace puts the unit at pl: for every line-up when it is in all of them,
// else for this one.
func (p *Plan) SetPlace(l *Lineup, u *Unit, pl Placement) {
	if !p.InSlots(u.ID) {
		for i := range p.Lineups {
			delete(p.Lineups[i].Place, u.ID)
		}
		u.Place = &pl
		return
	}
	if l.Place == nil {
		l.Place = map[string]Placement{}
	}
	l.Place[u.ID] = pl
}

// Clone returns a copy that shares nothing that an edit changes: units,
// placements, slots, line-ups, prices and what is owned are copied, forms' parts
// are shared.
func (p *Plan) Clone() *Plan {
	q := *p
	q.Board.Risers = slices.Clone(p.Board.Risers)
	q.Slots = slices.Clone(p.Slots)
	q.Units = slices.Clone(p.Units)
	for i := range q.Units {
		if pl := q.Units[i].Place; pl != nil {
			c := *pl
			q.Units[i].Place = &c
		}
	}
	q.Chain.Stops = slices.Clone(p.Chain.Stops)
	q.Chain.Links = slices.Clone(p.Chain.Links)
	o := &q.Owned
	o.Cables, o.Leads = slices.Clone(o.Cables), slices.Clone(o.Leads)
	o.Plugs, o.Rolls = slices.Clone(o.Plugs), slices.Clone(o.Rolls)
	q.Prices = maps.Clone(p.Prices)
	q.Lineups = slices.Clone(p.Lineups)
	for i := range q.Lineups {
		l := &q.Lineups[i]
		fill := make(map[string][]string, len(l.Fill))
		for k, v := range l.Fill {
			fill[k] = slices.Clone(v)
		}
		place := make(map[string]Placement, len(l.Place))
		for k, v := range l.Place {
			place[k] = v
		}
		l.Fill, l.Place = fill, place
	}
	return &q
}

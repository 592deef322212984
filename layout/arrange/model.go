package arrange

import (
	"slices"

	"footplank/layout"
	"footplank/pack"
)

// Split says when a unit of a slot is one item in several line-ups.
type Split int

const (
	// Apart makes it an item in each: the only way that proves anything of
	// the plan itself.
	Apart Split = iota
	// AsTheyStand makes it one item in the line-ups that it stands at the same
	// place in; those that it has no place in are one as well.
	AsTheyStand
)

// Plugs says what room plugs take in a model, where the plan leaves their choice
// to the program.
type Plugs int

const (
	// PlugsAsTheyAre takes those that the plan has now.
	PlugsAsTheyAre Plugs = iota
	// PlugsToChoose gives every item a few choices; what stands as it does now
	// keeps what it has. Whether they seat has to be asked: Seats.
	PlugsToChoose
	// PlugsAtLeast takes the room that all choices have in common: what is
	// refused so is refused with any plugs, what fits may not seat.
	PlugsAtLeast
)

// Model is a plan as a packing problem, for who asks the engine more than
// Arrange does. The plan must not change while the model is in use.
type Model struct {
	pr   *problem
	cost *cost
}

// ModelItem is what an item of the packing problem stands for.
type ModelItem struct {
	Unit    *layout.Unit
	Lineups []string
	// Held is set when it has a single place: pinned, or there for the sake of
	// line-ups that the model leaves out.
	Held bool
}

// NewModel makes the packing problem of the line-ups named, all if none is. Of a
// model of some line-ups, units that stand in the others too keep their places.
// With room the case leaves that room only; nil leaves what Board.CaseRoom says.
// Where units are named by ID it has only those: what is refused so is refused
// with all.
func NewModel(p *layout.Plan, lineups []string, split Split, pl Plugs, room *layout.Rect, units ...string) (*Model, error) {
	chosen, err := choose(p, lineups)
	if err != nil {
		return nil, err
	}
	m := mode{apart: split == Apart, standing: split == AsTheyStand, plugs: plugs(pl)}
	return &Model{pr: newProblem(p, chosen, m, room, units...)}, nil
}

// Problem returns the packing problem, to be read only.
func (m *Model) Problem() *pack.Problem { return &m.pr.pack }

// Items returns what the items of the problem stand for, in their order.
func (m *Model) Items() []ModelItem {
	out := make([]ModelItem, len(m.pr.items))
	for i, it := range m.pr.items {
		out[i] = ModelItem{Unit: it.unit, Held: it.held}
		for _, k := range it.lineups {
			out[i].Lineups = append(out[i].Lineups, m.pr.lineups[k].Name)
		}
	}
	return out
}

// SlotOf returns the slot that item i is in, nil if in none.
func (m *Model) SlotOf(i int) *layout.Slot {
	it := m.pr.items[i]
	return m.pr.plan.SlotOf(m.pr.lineups[it.lineups[0]], it.unit.ID)
}

// Now returns where the items stand in q, the model's plan or a copy of it with
// other places: pack.NoPlace for those without a place. whole is false when some
// item stands where it may not.
func (m *Model) Now(q *layout.Plan) (places []pack.Place, whole bool) {
	whole = true
	for i, it := range m.pr.items {
		place := pack.Place{Region: pack.NoPlace}
		if pl, ok := q.PlaceOf(q.LineupNamed(m.pr.lineups[it.lineups[0]].Name), q.Unit(it.unit.ID)); ok {
			at := slices.IndexFunc(it.spots, func(s spot) bool { return s.surface == pl.On && s.turn == pl.Turn })
			for at >= 0 && at < len(it.spots) && !m.pr.means(i, at, pl) {
				at++
			}
			if at < 0 || at == len(it.spots) {
				whole = false
			} else {
				place = pack.Place{Region: at, X: int64(pl.At.X), Y: int64(pl.At.Y)}
			}
		}
		places = append(places, place)
	}
	return places, whole
}

// Placement returns what a place of item i means on the board.
func (m *Model) Placement(i int, p pack.Place) layout.Placement { return m.pr.placement(i, p) }

// Placed returns a copy of the plan with its units where the places say.
func (m *Model) Placed(places []pack.Place) *layout.Plan { return m.pr.placed(places) }

// Objective returns what Arrange improves: see the package's Cost.
func (m *Model) Objective() pack.MoveObjective {
	if m.cost == nil {
		m.cost = newCost(m.pr)
	}
	return m.cost
}

// Tidy moves the items for which may is set to whole steps of the tape, by less
// than a step each, where that is free and costs next to nothing.
func (m *Model) Tidy(places []pack.Place, may []bool) {
	m.Objective()
	step := m.pr.step()
	for moved := true; moved; {
		moved = false
		for i := range places {
			moved = may[i] && m.pr.tidyOne(places, i, step, m.cost) || moved
		}
	}
}

// GoesIn reports whether the board goes into its case in every line-up, if it
// has one.
func (m *Model) GoesIn(places []pack.Place) bool { return m.pr.goesIn(places) }

// Seats reports whether plugs that seat were found for the places.
func (m *Model) Seats(places []pack.Place) bool { return m.pr.seats(places) }

// ChoosesPlugs reports whether the plan leaves the choice of any plug to the
// program.
func ChoosesPlugs(p *layout.Plan) bool { return choosesPlugs(p) }

// Middle returns the room that the case leaves with the board in the middle of
// it; nil without a case.
func (m *Model) Middle() *layout.Rect {
	if !m.pr.cased {
		return nil
	}
	return m.pr.middle()
}

// Reason puts the engine's reason into words and names the units it concerns.
func (m *Model) Reason(r *pack.Reason) (text string, units []string) { return m.pr.why(r) }

package plan

import (
	"fmt"
	"slices"

	"footplank/catalog"
	"footplank/layout"
)

// Bounds of what a plan may hold, far beyond any real board.
const (
	maxUnits   = 200
	maxSlots   = 50
	maxLineups = 63 // as many as the packing problem has groups
	maxParts   = 64 // jacks, switches, rails, ... of one thing
)

// Values that a plan may leave out.
const (
	// DefaultMassLimit is the NIOSH load constant: the heaviest load that
	// one person should lift under ideal conditions.
	DefaultMassLimit = 23 * layout.Kilogram
	// DefaultReach is half a 95th-percentile man's street shoe, 6 mm of
	// switch and 5 mm to spare, computed from ANSUR II foot breadths.
	DefaultReach = 72 * layout.Millimetre
	// DefaultStepOver and DefaultFootForce are common practice, no source.
	DefaultStepOver  = 40 * layout.Millimetre
	DefaultFootForce = 300.0 // newtons
	defaultTitle     = "Untitled board"
	defaultHeadroom  = 20
	defaultThickness = 15 * layout.Millimetre
	defaultFeet      = 10 * layout.Millimetre // height of the board's feet
)

// reader makes a plan of a tree.
type reader struct {
	*problems
	forms    *catalog.Catalog
	unit     layout.LengthUnit
	plan     *layout.Plan
	unitAt   map[string]int   // offsets of the ids of units
	mountAt  map[string]int   // offsets of the mounts that are stated
	filledBy map[string]bool  // units in some line-up's fill
	feedAt   map[string]*node // outputs that units name to draw from
	unformed map[string]bool  // units whose form is unknown, and so their jacks
	priceAt  map[string]int   // offsets of prices in the tables of what they are for
}

// read makes a plan of the tree of a text; what is wrong with it is in p.
func read(p *problems, root *node, c *catalog.Catalog) *layout.Plan {
	r := &reader{problems: p, forms: c, unit: layout.Millimetres, plan: &layout.Plan{},
		unitAt: map[string]int{}, mountAt: map[string]int{}, feedAt: map[string]*node{}, filledBy: map[string]bool{}, unformed: map[string]bool{}, priceAt: map[string]int{}}
	v := r.table(root, "", 0, "title", "length_unit", "board", "slot", "unit", "chain", "lineup", "limits", "power", "cable", "fastener", "owned", "prices")
	q := r.plan
	q.Title = defaultTitle
	if s, ok := v.text("title"); ok && s != "" {
		q.Title = s
	}
	if s, ok := v.word("length_unit", string(layout.Millimetres), string(layout.Inches)); ok {
		r.unit = layout.LengthUnit(s)
	}
	q.LengthUnit = r.unit
	r.readBoard(v)
	r.readSlots(v)
	r.readUnits(v)
	r.readFeeds()
	r.readLineups(v)
	r.settleMounts()
	r.readChain(v)
	r.readLimits(v)
	r.readPower(v)
	r.readCable(v)
	r.readFastener(v)
	r.readOwned(v)
	r.readPrices(v)
	return q
}

func (r *reader) readLimits(v view) {
	l := &r.plan.Limits
	*l = layout.Limits{Mass: DefaultMassLimit, Reach: DefaultReach, StepOver: DefaultStepOver, FootForce: DefaultFootForce}
	t, ok := v.sub("limits", "mass", "reach", "step_over", "foot_force")
	if !ok {
		return
	}
	if m, ok := t.mass("mass"); ok {
		l.Mass, l.MassGiven = m, true
	}
	if n, ok := t.length("reach", upTo(500*layout.Millimetre)); ok {
		l.Reach = n
	}
	if n, ok := t.length("step_over", upTo(500*layout.Millimetre)); ok {
		l.StepOver = n
	}
	if f, ok := t.number("foot_force", 0, 3000); ok {
		l.FootForce = f
	}
}

func (r *reader) readPower(v view) {
	w := &r.plan.Power
	t, ok := v.sub("power", "sharing", "headroom", "tour")
	w.Headroom = defaultHeadroom
	if !ok {
		return
	}
	s, _ := t.word("sharing", "never", "allowed")
	w.Sharing = s == "allowed"
	if n, ok := t.whole("headroom", 0, 90); ok {
		w.Headroom = n
	}
	items, _ := t.list("tour", 0, "countries")
	for _, n := range items {
		if n.kind != stringKind || len(n.text) != 2 || !isCapital(n.text[0]) || !isCapital(n.text[1]) {
			t.errorf(n.off, "tour: found %s, want a country's two capital letters by ISO 3166, like \"IE\"", n.found())
			continue
		}
		if slices.Contains(w.Tour, n.text) {
			t.errorf(n.off, "tour: %q is given twice", n.text)
			continue
		}
		w.Tour = append(w.Tour, n.text)
	}
}

func isCapital(c byte) bool { return c >= 'A' && c <= 'Z' }

// surfaces returns the names of the board's surfaces.
func (r *reader) surfaces() []string {
	names := []string{layout.DeckName}
	for _, s := range r.plan.Board.Risers {
		names = append(names, s.Name)
	}
	return names
}

// surface reads the name of a surface; without the key it is the deck.
func (v view) surface(key string) (string, bool) {
	if !v.has(key) {
		return layout.DeckName, true
	}
	n := v.value(key)
	return v.surfaceOf(n, key)
}

func (v view) surfaceOf(n *node, key string) (string, bool) {
	names := v.surfaces()
	if n.kind != stringKind || !slices.Contains(names, n.text) {
		v.errorf(n.off, "%s: found %s, which is no surface of the board: %s", key, n.found(), wanted(n.text, names))
		return "", false
	}
	return n.text, true
}

// place reads where a unit stands.
func (v view) place(key string) (*layout.Placement, bool) {
	t, ok := v.sub(key, "on", "at", "turn")
	if !ok {
		return nil, false
	}
	on, ok1 := t.surface("on")
	ok2 := t.need("at", "[from the left, from the front]")
	at, ok3 := t.point("at", anywhere)
	turn, ok4 := layout.Turn(0), true
	if n := t.value("turn"); n != nil {
		turn, ok4 = t.turnOf(n, "turn")
	}
	return &layout.Placement{On: on, At: at, Turn: turn}, ok1 && ok2 && ok3 && ok4
}

func (v view) turnOf(n *node, key string) (layout.Turn, bool) {
	_, f, ok := n.decimal()
	t, err := layout.TurnOf(int(min(max(f, -1), 360)))
	if !ok || err != nil || f != float64(t.Degrees()) {
		v.errorf(n.off, "%s: found %s, want 0, 90, 180 or 270 degrees", key, n.found())
		return 0, false
	}
	return t, true
}

// line names the line of an offset, to point at what came before.
func (r *reader) line(off int) string {
	l, _ := r.position(off)
	return fmt.Sprintf("line %d", l)
}

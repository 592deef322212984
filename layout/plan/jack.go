package plan

import (
	"fmt"
	"slices"

	"footplank/layout"
)

var (
	jackKinds = []string{string(layout.Phone), string(layout.MiniTRS), string(layout.XLR), string(layout.DIN), string(layout.DC), string(layout.Mains)}
	signals   = []string{string(layout.Audio), string(layout.Control), string(layout.Power), string(layout.Line)}
)

// usualSignal is what a jack of a kind carries when nothing says otherwise.
var usualSignal = map[layout.JackKind]layout.Signal{
	layout.Phone: layout.Audio, layout.MiniTRS: layout.Control, layout.XLR: layout.Audio,
	layout.DIN: layout.Control, layout.DC: layout.Power, layout.Mains: layout.Line,
}

// readJacks reads the unit's own jacks: one with the id of a jack of the form
// changes the keys it gives, another adds a jack.
func (v view) readJacks(u *layout.Unit) {
	at := map[string]int{}
	for i, n := range v.tables("jack", maxParts) {
		t := v.table(n, fmt.Sprintf("%s: jack %d", v.name, i+1), n.off,
			"id", "kind", "signal", "dir", "wall", "along", "height", "plug", "leg")
		if !t.need("id", "a name like \"in\", \"out\" or \"send\"") {
			continue
		}
		id, ok := t.id(t.value("id"), "id")
		if !ok {
			continue
		}
		t.name = fmt.Sprintf("%s: jack %q", v.name, id)
		if _, twice := at[id]; twice {
			t.errorf(t.offset("id"), "there is a jack of that id already")
			continue
		}
		at[id] = n.off
		if v.unformed[u.ID] {
			continue // what it would change is not known
		}
		if old := u.Jack(id); old != nil {
			t.readJack(old, u, false)
		} else {
			j := layout.Jack{ID: id, Height: u.Body.H / 2}
			if t.readJack(&j, u, true) {
				u.Jacks = append(u.Jacks, j)
			}
		}
	}
	v.readWhichJacks(u, at)
	for i := range u.Jacks {
		v.jackOnWall(u, &u.Jacks[i], at)
	}
}

// readWhichJacks reads which jacks the unit has, where it has not all of its form's,
// or not in the form's order. at has the tables of the jacks that have one.
func (v view) readWhichJacks(u *layout.Unit, at map[string]int) {
	const what = "the jacks that it has, like [\"in\", \"out\"]; what there is to say of one stands under [[unit.jack]]"
	items, ok := v.list("jacks", 0, what)
	if !ok || v.unformed[u.ID] {
		return
	}
	var there []layout.Jack
	named := map[string]bool{}
	for _, n := range items {
		switch j := u.Jack(n.text); {
		case n.kind != stringKind || j == nil:
			v.errorf(n.off, "jacks: found %s, which is no jack of the unit or its form: %s", n.found(), wanted(n.text, jackIDs(u)))
		case named[n.text]:
			v.errorf(n.off, "jacks: %q is given twice", n.text)
		default:
			named[n.text] = true
			there = append(there, *j)
		}
	}
	for _, j := range u.Jacks {
		if off, told := at[j.ID]; told && !named[j.ID] {
			v.errorf(off, "jack %q: told of here, but not among the jacks that the unit has (%s): want it there too, or not here", j.ID, v.line(v.offset("jacks")))
			there = append(there, j)
		}
	}
	u.Jacks = there
}

// readJack reads the keys of a jack into j and reports whether a new jack has
// all it needs.
func (v view) readJack(j *layout.Jack, u *layout.Unit, fresh bool) bool {
	whole := true
	if fresh {
		whole = v.need("kind", anyOf(jackKinds))
		whole = v.need("wall", anyOf(layout.WallNames())) && whole
		whole = v.need("along", "how far along its wall, from the left for front and back, from the front for the sides") && whole
	}
	kind := j.Kind
	if s, ok := v.word("kind", jackKinds...); ok {
		j.Kind = layout.JackKind(s)
	}
	if s, ok := v.word("signal", signals...); ok {
		j.Signal = layout.Signal(s)
	} else if j.Kind != kind {
		j.Signal = usualSignal[j.Kind]
	}
	if s, ok := v.word("dir", string(layout.In), string(layout.Out)); ok {
		j.Dir = layout.Direction(s)
	} else if fresh && (j.Kind == layout.DC || j.Kind == layout.Mains) {
		j.Dir = layout.In
	} else if fresh {
		whole = v.need("dir", `"in" or "out"`) && whole
	}
	if s, ok := v.word("wall", layout.WallNames()...); ok {
		j.Wall, _ = layout.WallOf(s)
	}
	if l, ok := v.length("along", onBody); ok {
		j.Along = l
	}
	if l, ok := v.length("height", upTo(bodyHeight.hi)); ok {
		j.Height = l
	}
	v.readPlug(j, j.Kind != kind)
	v.readLeg(j)
	return whole
}

// readPlug gives the jack its plug. A jack whose kind changed does not keep
// the plug of the old kind.
func (v view) readPlug(j *layout.Jack, changed bool) {
	if changed {
		j.Plug, _ = v.forms.DefaultPlug(j.Kind)
	}
	n := v.value("plug")
	if n == nil {
		return
	}
	var mates []string
	for _, p := range v.forms.Plugs() {
		if p.Kind == j.Kind {
			mates = append(mates, p.Name)
		}
	}
	if p, ok := v.forms.Plug(n.text); ok && n.kind == stringKind {
		if p.Kind != j.Kind {
			v.errorf(n.off, "plug: %q goes into a jack of kind %q, not %q: want %s", n.text, p.Kind, j.Kind, anyOf(mates))
			return
		}
		j.Plug, j.PlugGiven = p.PlugForm, true
		return
	}
	v.errorf(n.off, "plug: found %s: %s", n.found(), wanted(n.text, mates))
}

// readLeg reads which way a right-angle plug's leg points. Along a wall it can
// only point to that wall's ends.
func (v view) readLeg(j *layout.Jack) {
	sides := []string{string(layout.LegUp), string(layout.LegDown), string(layout.LegLeft), string(layout.LegRight)}
	if j.Wall == layout.Left || j.Wall == layout.Right {
		sides[2], sides[3] = string(layout.LegFront), string(layout.LegBack)
	}
	if s, ok := v.word("leg", sides...); ok {
		j.Leg, j.LegGiven = layout.LegSide(s), true
	} else if j.Leg != "" && !slices.Contains(sides, string(j.Leg)) {
		j.Leg = layout.LegUp
	}
}

// jackOnWall notes a jack beside its wall, which a measured body may cause.
func (v view) jackOnWall(u *layout.Unit, j *layout.Jack, at map[string]int) {
	long := u.Body.W
	if j.Wall == layout.Left || j.Wall == layout.Right {
		long = u.Body.D
	}
	off, ok := at[j.ID]
	if !ok {
		off = v.offset("body")
	}
	if u.Body.W == 0 {
		return
	}
	if j.Along > long {
		v.errorf(off, "jack %q: %s along the %s wall, which is %s long: want its own along in a [[unit.jack]]",
			j.ID, j.Along.Format(v.unit), j.Wall, long.Format(v.unit))
	}
	if j.Height > u.Height() {
		v.errorf(off, "jack %q: %s high in a unit of %s: want its own height in a [[unit.jack]]",
			j.ID, j.Height.Format(v.unit), u.Height().Format(v.unit))
	}
}

// readSwitches reads the switches, which replace the form's. Those that the
// form leaves must lie on a measured body too.
func (v view) readSwitches(u *layout.Unit) {
	if !v.has("switch") {
		for i, s := range u.Switches {
			if s.At.X > u.Body.W || s.At.Y > u.Body.D {
				v.errorf(v.offset("body"), "the form's switch %d is at %s, %s, off a body of %s: want [[unit.switch]] with its place",
					i+1, s.At.X.Format(v.unit), s.At.Y.Format(v.unit), v.size(u.Body))
			}
		}
		return
	}
	u.Switches = nil
	for i, n := range v.tables("switch", maxParts) {
		t := v.table(n, fmt.Sprintf("%s: switch %d", v.name, i+1), n.off, "name", "at", "height")
		s := layout.Switch{Height: u.Body.H}
		s.Name, _ = t.text("name")
		if l, ok := t.length("height", upTo(bodyHeight.hi)); ok {
			s.Height = l
		}
		if !t.need("at", "[from the left, from the front] of the unit") {
			continue
		}
		at, ok := t.point("at", onBody)
		if ok && u.Body.W > 0 && (at.X > u.Body.W || at.Y > u.Body.D) {
			t.errorf(t.offset("at"), "at: off the body of %s", v.size(u.Body))
		}
		s.At = at
		u.Switches = append(u.Switches, s)
	}
}

package plan

import (
	"fmt"
	"slices"
	"strings"

	"footplank/catalog"
	"footplank/layout"
)

// Sizes of units that make sense, generously.
var (
	bodySide   = span{5 * layout.Millimetre, 1000 * layout.Millimetre}
	bodyHeight = span{layout.Millimetre, 500 * layout.Millimetre}
	onBody     = upTo(bodySide.hi)
)

var unitKeys = []string{"id", "label", "form", "mount", "pinned", "place", "on", "turns", "often", "uses",
	"body", "overall", "mass", "treadle", "buffer", "sweep", "draw", "jack", "jacks", "switch", "base", "output", "watts", "mains", "owned", "price"}

func (r *reader) readUnits(top view) {
	for _, n := range top.tables("unit", maxUnits) {
		if r.full() {
			return
		}
		v := r.table(n, "unit", n.off, unitKeys...)
		id := ""
		if v.need("id", "one that the chain and the line-ups can name") {
			id, _ = v.id(v.value("id"), "id")
		}
		if id != "" {
			v.name = fmt.Sprintf("unit %q", id)
			at := v.offset("id")
			switch first, twice := r.unitAt[id]; {
			case twice:
				v.errorf(at, "there is a unit of that id already, in %s", r.line(first))
				continue
			case layout.ReservedID(id):
				v.errorf(at, "the id %q has a meaning of its own in a plan: want another", id)
			}
			r.unitAt[id] = at
		}
		u := v.readUnit(id)
		if id != "" {
			r.plan.Units = append(r.plan.Units, u)
		}
	}
}

// readUnit reads a unit: its form's values first, then what the plan says.
func (v view) readUnit(id string) layout.Unit {
	var u layout.Unit
	if n := v.value("form"); n != nil {
		if f, ok := v.forms.Unit(n.text); ok && n.kind == stringKind {
			u = f.Template()
			u.Form = f.Name
		} else {
			v.errorf(n.off, "form: found %s: %s", n.found(), v.wantedForm(n.text))
			v.unformed[id] = true
		}
	} else if !v.has("body") {
		v.errorf(v.off, "neither form nor body: want the name of a form, or body = [width, depth, height]")
	}
	// A form's summary is far too long to be drawn, so the id is the label.
	u.ID, u.Label = id, id
	if s, ok := v.text("label"); ok && s != "" {
		u.Label = s
	}
	v.readBody(&u)
	if m, ok := v.mass("mass"); ok {
		u.Mass = m
	}
	if b, ok := v.flag("treadle"); ok {
		u.Treadle = b
	}
	if b, ok := v.flag("buffer"); ok {
		u.Buffer = b
	}
	v.readSweep(&u)
	v.readJacks(&u)
	v.readSwitches(&u)
	v.readDraw(&u)
	v.readOutputs(&u)
	v.readMains(&u)
	v.readMount(&u)
	v.readFreedom(&u)
	v.readBase(&u)
	if has, ok := v.flag("owned"); ok {
		u.ToBuy = !has
	}
	v.ownPrice(id)
	return u
}

// wantedForm names the nearest form, or where to find the list of them.
func (v view) wantedForm(written string) string {
	var names []string
	for _, f := range v.forms.Units() {
		names = append(names, f.Name)
	}
	if n := catalog.Nearest(written, names); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	return "no such form; \"footplank forms\" lists them, or give body = [width, depth, height]"
}

// readBody reads the sizes. A measured body alone keeps what the form's knobs
// and nuts add to it.
func (v view) readBody(u *layout.Unit) {
	const what = "width, depth, height"
	form := *u
	if l, ok := v.lengths("body", what, bodySide, bodySide, bodyHeight); ok {
		u.Body = layout.Size{W: l[0], D: l[1], H: l[2]}
	}
	b := u.Body
	u.Overall = layout.Size{W: b.W + max(0, form.Overall.W-form.Body.W), D: b.D + max(0, form.Overall.D-form.Body.D),
		H: b.H + max(0, form.Overall.H-form.Body.H)}
	l, ok := v.lengths("overall", what, bodySide, bodySide, bodyHeight)
	if !ok {
		return
	}
	u.Overall = layout.Size{W: l[0], D: l[1], H: l[2]}
	if l[0] < b.W || l[1] < b.D || l[2] < b.H {
		v.errorf(v.offset("overall"), "overall: smaller than the body of %s, want its size with knobs and jack nuts", v.size(b))
	}
}

// size writes a size as players do: 70 x 120 x 55mm.
func (r *reader) size(s layout.Size) string {
	return s.W.Number(r.unit) + " x " + s.D.Number(r.unit) + " x " + s.H.Format(r.unit)
}

func (v view) readSweep(u *layout.Unit) {
	if v.none("sweep") {
		u.Sweep = nil
		return
	}
	t, ok := v.sub("sweep", "front", "back", "left", "right", "from", "top")
	if !ok {
		return
	}
	s := layout.Sweep{Top: u.Height()}
	if u.Sweep != nil {
		s = *u.Sweep
	}
	for key, to := range map[string]*layout.Length{"front": &s.Front, "back": &s.Back, "left": &s.Left, "right": &s.Right} {
		if l, ok := t.length(key, overhang); ok {
			*to = l
		}
	}
	if l, ok := t.length("from", upTo(bodyHeight.hi)); ok {
		s.From = l
	}
	if l, ok := t.length("top", bodyHeight); ok {
		s.Top = l
	}
	if s.Top <= s.From && u.Body.H > 0 {
		t.errorf(t.off, "from %s to %s: want its top above where it starts", s.From.Format(v.unit), s.Top.Format(v.unit))
	}
	u.Sweep = &s
}

// readMount reads how the unit is held. What the plan does not say follows
// from the line-ups; see settleMounts.
func (v view) readMount(u *layout.Unit) {
	u.Mount = ""
	if s, ok := v.word("mount", string(layout.Fixed), string(layout.Swap)); ok {
		u.Mount = layout.Mount(s)
	}
	if v.has("mount") {
		v.mountAt[u.ID] = v.offset("mount")
	}
	u.Pinned, _ = v.flag("pinned")
	if p, ok := v.place("place"); ok {
		u.Place = p
	}
}

// readFreedom reads where and how the unit may stand, and how it is used.
func (v view) readFreedom(u *layout.Unit) {
	items, _ := v.list("on", 0, "surfaces")
	for _, n := range items {
		if s, ok := v.surfaceOf(n, "on"); ok {
			u.On = v.once(u.On, s, n, "on")
		}
	}
	if v.has("on") && len(items) == 0 && v.value("on").kind == listKind {
		v.errorf(v.offset("on"), "on: an empty list, want at least one of %s", anyOf(v.surfaces()))
	}
	items, _ = v.list("turns", 0, "degrees")
	for _, n := range items {
		t, ok := v.turnOf(n, "turns")
		if ok && slices.Contains(u.Turns, t) {
			v.errorf(n.off, "turns: %d is given twice", t.Degrees())
		} else if ok {
			u.Turns = append(u.Turns, t)
		}
	}
	u.Often, _ = v.whole("often", 0, 3)
	items, _ = v.list("uses", 0, "jacks")
	for _, n := range items {
		if n.kind == stringKind && v.unformed[u.ID] {
			continue
		}
		if n.kind != stringKind || u.Jack(n.text) == nil {
			v.errorf(n.off, "uses: found %s, which is no jack of the unit: %s", n.found(), wanted(n.text, jackIDs(u)))
			continue
		}
		u.Uses = v.once(u.Uses, n.text, n, "uses")
	}
}

// once appends a word that is not in the list yet.
func (v view) once(list []string, s string, n *node, key string) []string {
	if slices.Contains(list, s) {
		v.errorf(n.off, "%s: %q is given twice", key, s)
		return list
	}
	return append(list, s)
}

func jackIDs(u *layout.Unit) []string {
	ids := make([]string, len(u.Jacks))
	for i, j := range u.Jacks {
		ids[i] = j.ID
	}
	return ids
}

// settleMounts gives a unit without a stated mount the usual one: hook-and-loop
// for what changes per line-up, else fixed.
func (r *reader) settleMounts() {
	for i := range r.plan.Units {
		u := &r.plan.Units[i]
		if u.Mount == "" {
			u.Mount = layout.Fixed
			if r.filledBy[u.ID] {
				u.Mount = layout.Swap
			}
		}
	}
}

// unitIDs returns the ids of the plan's units.
func (r *reader) unitIDs() []string {
	ids := make([]string, len(r.plan.Units))
	for i := range r.plan.Units {
		ids[i] = r.plan.Units[i].ID
	}
	return ids
}

func (r *reader) wantedUnit(written string) string {
	if n := catalog.Nearest(written, r.unitIDs()); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	return "want the id of a [[unit]]: " + strings.TrimPrefix(wanted("", r.unitIDs()), "want ")
}

package plan

import (
	"fmt"

	"footplank/catalog"
	"footplank/layout"
)

var baseMargin = span{layout.Millimetre / 2, 50 * layout.Millimetre}

// readFastener reads what the plan says of its fastener. What it does not say
// stays zero: layout/mount knows what is usual.
func (r *reader) readFastener(top view) {
	v, ok := top.sub("fastener", "interlock", "hook_and_loop", "units_carry", "margin", "jerk")
	if !ok {
		return
	}
	f := &r.plan.Fastening
	f.Interlock = v.roll("interlock", catalog.Interlock)
	f.HookAndLoop = v.roll("hook_and_loop", catalog.HookAndLoop)
	if s, ok := v.word("units_carry", string(layout.Hook), string(layout.Loop)); ok {
		f.UnitSide = layout.Side(s)
	}
	f.Margin, _ = v.length("margin", baseMargin)
	f.JerkG, _ = v.number("jerk", 1, 50)
}

// roll looks a fastener of a kind up in the catalog.
func (v view) roll(key, kind string) layout.FastenerRoll {
	n := v.value(key)
	if n == nil {
		return layout.FastenerRoll{}
	}
	var names []string
	for _, f := range v.forms.Fasteners() {
		if f.Kind != kind {
			continue
		}
		if n.kind == stringKind && f.Name == n.text {
			return layout.FastenerRoll{Name: f.Name, Widths: f.Widths, StrengthKPa: f.StrengthKPa}
		}
		names = append(names, f.Name)
	}
	if f, ok := v.forms.Fastener(n.text); ok && n.kind == stringKind {
		v.errorf(n.off, "%s: %q is of kind %q: want %s", key, n.text, f.Kind, anyOf(names))
	} else {
		v.errorf(n.off, "%s: found %s, which is no fastener of kind %q: %s", key, n.found(), kind, wanted(n.text, names))
	}
	return layout.FastenerRoll{}
}

var baseParts = []string{string(layout.Foot), string(layout.BatteryDoor), string(layout.Screw), string(layout.BaseLabel)}

// readBase reads what is on the unit's base, which replaces the form's. The file
// has it as a tape measure finds it, with the unit turned over from left to
// right; the plan has it seen from above:
//
//	 base, turned over             from above
//	+--------------+           +--------------+
//	|   (o)        |           |        (o)   |
//	|              |    ->     |              |
//	+--------------+           +--------------+
//	 at                                 at
func (v view) readBase(u *layout.Unit) {
	if !v.has("base") {
		if f, ok := v.forms.Unit(u.Form); ok {
			u.OnBase = catalog.FitBase(u.OnBase, f.Unit.Body, u.Body)
		}
		return
	}
	u.OnBase = nil
	for i, n := range v.tables("base", maxParts) {
		t := v.table(n, fmt.Sprintf("%s: base %d", v.name, i+1), n.off, "kind", "at", "size")
		t.need("kind", anyOf(baseParts))
		kind, _ := t.word("kind", baseParts...)
		at, ok := t.rect(partSide)
		if !ok {
			continue
		}
		if b := u.Body; b.W > 0 && !(layout.Rect{X1: b.W, Y1: b.D}).Contains(at) {
			t.errorf(t.offset("at"), "reaches from %s to %s and from %s to %s, off the base of %s x %s",
				at.X0.Format(v.unit), at.X1.Format(v.unit), at.Y0.Format(v.unit), at.Y1.Format(v.unit), b.W.Format(v.unit), b.D.Format(v.unit))
		}
		u.OnBase = append(u.OnBase, layout.BaseSpot{Kind: layout.BasePart(kind), At: u.TurnedOver(at)})
	}
}

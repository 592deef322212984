package plan

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// Sizes that make sense, generously.
var (
	boardSide  = span{50 * layout.Millimetre, 3000 * layout.Millimetre}
	partSide   = span{layout.Millimetre, 3000 * layout.Millimetre}
	thickness  = span{layout.Millimetre / 2, 100 * layout.Millimetre}
	riserTop   = span{5 * layout.Millimetre, 500 * layout.Millimetre}
	overhang   = upTo(500 * layout.Millimetre)
	caseInside = span{20 * layout.Millimetre, 4000 * layout.Millimetre}
)

func (r *reader) readBoard(top view) {
	b := &r.plan.Board
	b.Kind, b.Thickness = layout.Solid, defaultThickness
	if !top.has("board") {
		top.errorf(0, "no [board]: want one with at least its size and its material or mass")
		return
	}
	v, ok := top.sub("board", "size", "surface", "material", "mass", "thickness", "overhang", "plug_room", "feet",
		"price", "owned", "rail", "case", "riser", "fixture")
	if !ok {
		return
	}
	v.need("size", "[width, depth]")
	if l, ok := v.lengths("size", "width, depth", boardSide, boardSide); ok {
		b.W, b.D = l[0], l[1]
	}
	if s, ok := v.word("surface", string(layout.Solid), string(layout.Rails)); ok {
		b.Kind = layout.SurfaceKind(s)
	}
	b.Mass, _ = v.mass("mass")
	if !v.has("mass") && !v.has("material") {
		v.errorf(v.off, "neither material nor mass: want material = %s, or mass = \"2.6kg\"", anyOf(r.materials()))
	}
	b.Material, b.Density = v.material()
	if t, ok := v.length("thickness", thickness); ok {
		b.Thickness = t
	}
	b.Overhang = v.edges("overhang", overhang)
	b.PlugRoom = v.edges("plug_room", overhang)
	if l, ok := v.length("feet", upTo(boardSide.hi)); ok {
		b.Feet = l
		if b.W > 0 && 2*l >= min(b.W, b.D) {
			v.errorf(v.offset("feet"), "feet: %s in from each edge meet in the middle of the board", l.Format(r.unit))
		}
	}
	v.ownPrice("board")
	r.plan.Owned.Board, _ = v.flag("owned")
	r.readRails(v)
	r.readRisers(v)
	r.readFixtures(v)
	r.readCase(v)
}

func (r *reader) materials() []string {
	var names []string
	for _, m := range r.forms.Materials() {
		names = append(names, m.Name)
	}
	return names
}

// material reads the name of a material of the catalog and gives its density.
func (v view) material() (string, float64) {
	n := v.value("material")
	if n == nil {
		return "", 0
	}
	if n.kind == stringKind {
		if m, ok := v.forms.Material(n.text); ok {
			return m.Name, m.Density
		}
	}
	v.errorf(n.off, "material: found %s: %s", n.found(), wanted(n.text, v.materials()))
	return "", 0
}

// onBoard notes a part that is not wholly on the board.
func (v view) onBoard(at layout.Rect) bool {
	b := &v.plan.Board
	if b.W == 0 || b.Rect().Contains(at) {
		return true
	}
	v.errorf(v.offset("at"), "reaches from %s to %s and from %s to %s, off the board of %s x %s",
		at.X0.Format(v.unit), at.X1.Format(v.unit), at.Y0.Format(v.unit), at.Y1.Format(v.unit), b.W.Format(v.unit), b.D.Format(v.unit))
	return false
}

func (r *reader) readRails(board view) {
	b := &r.plan.Board
	rails := board.tables("rail", maxParts)
	switch {
	case b.Kind == layout.Rails && len(rails) == 0:
		board.errorf(board.offset("surface"), "surface \"rails\" without a [[board.rail]]: want at least one, with at and size")
	case b.Kind != layout.Rails && len(rails) > 0:
		board.errorf(rails[0].off, "a rail on a board whose surface is %q: want surface = \"rails\"", b.Kind)
	}
	var read []layout.Rail
	for i, n := range rails {
		v := r.table(n, fmt.Sprintf("rail %d", i+1), n.off, "at", "size")
		at, ok := v.rect(partSide)
		if !ok || !v.onBoard(at) {
			continue
		}
		for j, o := range read {
			if o.At.Overlaps(at) {
				v.errorf(v.offset("at"), "lies over rail %d", j+1)
			}
		}
		read = append(read, layout.Rail{At: at})
	}
	b.Rails = read
}

func (r *reader) readRisers(board view) {
	b := &r.plan.Board
	for _, n := range board.tables("riser", maxParts) {
		v := r.table(n, "riser", n.off, "name", "at", "size", "height", "thickness", "material", "overhang", "leg")
		s := layout.Riser{Thickness: b.Thickness, Density: b.Density}
		if v.need("name", "one that units can name as their surface") {
			s.Name, _ = v.id(v.value("name"), "name")
		}
		if s.Name != "" {
			v.name = fmt.Sprintf("riser %q", s.Name)
			if slices.Contains(r.surfaces(), s.Name) {
				v.errorf(v.offset("name"), "there is a surface of that name already")
				s.Name = ""
			}
		}
		at, ok := v.rect(partSide)
		ok = ok && v.onBoard(at)
		s.At = at
		if t, ok := v.length("thickness", thickness); ok {
			s.Thickness = t
		}
		if _, d := v.material(); d > 0 {
			s.Density = d
		}
		s.Overhang = v.edges("overhang", overhang)
		v.need("height", "that of its top above the deck's top")
		if s.Height, ok = okAnd(ok)(v.length("height", riserTop)); ok && s.Height <= s.Thickness {
			v.errorf(v.offset("height"), "height %s: not above its thickness of %s, so nothing is left under it",
				s.Height.Format(r.unit), s.Thickness.Format(r.unit))
		}
		v.legs(&s, ok)
		for _, o := range b.Risers {
			if ok && o.At.Overlaps(s.At) {
				v.errorf(v.offset("at"), "lies over riser %q", o.Name)
			}
		}
		// A riser with something wrong stays, so that units may name it.
		if s.Name != "" {
			b.Risers = append(b.Risers, s)
		}
	}
}

// okAnd passes a value through and joins its ok to the one given.
func okAnd(before bool) func(layout.Length, bool) (layout.Length, bool) {
	return func(l layout.Length, ok bool) (layout.Length, bool) { return l, ok && before }
}

// legs reads a riser's legs, else gives it its end panels.
func (v view) legs(s *layout.Riser, sound bool) {
	legs := v.tables("leg", maxParts)
	for i, n := range legs {
		t := v.table(n, fmt.Sprintf("%s: leg %d", v.name, i+1), n.off, "at", "size")
		at, ok := t.rect(partSide)
		if !ok {
			continue
		}
		if sound && !s.At.Contains(at) {
			t.errorf(t.offset("at"), "is not wholly under the riser")
		}
		s.Legs = append(s.Legs, layout.Leg{At: at})
	}
	if len(legs) == 0 {
		if sound && s.At.W() < 2*s.Thickness {
			v.errorf(v.offset("size"), "too narrow for its two end panels of %s: want a wider riser, or a [[board.riser.leg]]", s.Thickness.Format(v.unit))
		}
		s.Legs = s.EndPanels()
	}
}

func (r *reader) readFixtures(board view) {
	b := &r.plan.Board
	for i, n := range board.tables("fixture", maxParts) {
		v := r.table(n, fmt.Sprintf("fixture %d", i+1), n.off, "name", "at", "size", "height", "from")
		f := layout.Fixture{Name: fmt.Sprintf("fixture %d", i+1)}
		if s, ok := v.text("name"); ok && s != "" {
			f.Name = s
		}
		at, ok := v.rect(partSide)
		from, _ := v.length("from", span{-riserTop.hi, riserTop.hi})
		v.need("height", "that of its top above the deck's top")
		top, tall := v.length("height", riserTop)
		if tall && top <= from {
			v.errorf(v.offset("from"), "from %s: not below its top at %s", from.Format(r.unit), top.Format(r.unit))
		}
		if ok && tall {
			f.Box = layout.BoxOn(at, from, top)
			b.Fixtures = append(b.Fixtures, f)
		}
	}
}

func (r *reader) readCase(board view) {
	v, ok := board.sub("case", "name", "inside", "below", "mass")
	if !ok {
		return
	}
	b := &r.plan.Board
	c := &layout.Case{Name: "case", Below: b.Thickness + defaultFeet}
	if s, ok := v.text("name"); ok && s != "" {
		c.Name = s
	}
	v.need("inside", "[width, depth, height]")
	if l, ok := v.lengths("inside", "width, depth, height", caseInside, caseInside, caseInside); ok {
		c.Inside = layout.Size{W: l[0], D: l[1], H: l[2]}
	}
	if l, ok := v.length("below", upTo(riserTop.hi)); ok {
		c.Below = l
	}
	if c.Inside.H > 0 && c.Below >= c.Inside.H {
		v.errorf(v.offset("inside"), "inside: %s high, but the board and its feet take %s of that",
			c.Inside.H.Format(r.unit), c.Below.Format(r.unit))
	}
	c.Mass, _ = v.mass("mass")
	b.Case = c
}

func (r *reader) readSlots(top view) {
	for _, n := range top.tables("slot", maxSlots) {
		v := r.table(n, "slot", n.off, "name", "on", "at", "size")
		var s layout.Slot
		if v.need("name", "one that the chain and the line-ups can name") {
			s.Name, _ = v.id(v.value("name"), "name")
		}
		if s.Name != "" {
			v.name = fmt.Sprintf("slot %q", s.Name)
			if r.plan.Slot(s.Name) != nil {
				v.errorf(v.offset("name"), "there is a slot of that name already")
				continue
			}
		}
		on, ok1 := v.surface("on")
		at, ok2 := v.rect(partSide)
		s.On, s.At = on, at
		if f, ok := r.plan.Board.Surface(on); ok && ok1 && ok2 && !f.At.Empty() && !f.At.Grow(f.Overhang).Contains(at) {
			v.errorf(v.offset("at"), "reaches from %s to %s and from %s to %s, beyond surface %q and its overhang",
				at.X0.Format(r.unit), at.X1.Format(r.unit), at.Y0.Format(r.unit), at.Y1.Format(r.unit), on)
		}
		if s.Name != "" {
			r.plan.Slots = append(r.plan.Slots, s)
		}
	}
}

package catalog

import "footplank/layout"

// boardForm reads one [[board]].
func (a *assembly) boardForm(tb *table) *BoardForm {
	f := &BoardForm{Summary: tb.str("summary")}
	b := &f.Board
	tb.need("size")
	if l, ok := tb.lengths("size", 2, layout.Centimetre, maxBoard); ok {
		b.W, b.D = l[0], l[1]
	}
	b.Kind = layout.SurfaceKind(tb.word("surface", string(layout.Solid), string(layout.Rails)))
	b.Thickness = tb.length("thickness", 15*layout.Millimetre, layout.Millimetre, maxUnit)
	b.Mass = tb.mass("mass")
	b.Feet = tb.length("feet", 0, 0, maxBoard)
	b.Overhang, b.PlugRoom = tb.edgesAt("overhang"), tb.edgesAt("plug_room")
	if b.Material = tb.str("material"); b.Material != "" {
		a.density(tb, b.Material, &b.Density)
	} else if b.Mass == 0 {
		tb.errKey("material", "want a material or a mass, to know what the board weighs")
	}
	for _, r := range tb.subs("rail") {
		b.Rails = append(b.Rails, layout.Rail{At: r.rect("board", b.Rect())})
		r.end()
	}
	switch {
	case b.Kind == layout.Rails && len(b.Rails) == 0:
		tb.errKey("surface", "surface: \"rails\" wants at least one [[board.rail]]")
	case b.Kind == layout.Solid && len(b.Rails) > 0:
		tb.errKey("rail", "rails on a solid board, want surface = \"rails\"")
	}
	risers := tb.subs("riser")
	b.Risers = make([]layout.Riser, len(risers))
	for i, r := range risers {
		a.riser(r, &b.Risers[i], b)
	}
	for _, x := range tb.subs("fixture") {
		b.Fixtures = append(b.Fixtures, x.fixture(b))
	}
	b.Case = tb.caseOf(b)
	f.Price = tb.price("price")
	f.Values = tb.values()
	tb.end()
	return f
}

func (tb *table) edgesAt(key string) layout.Edges {
	s, ok := tb.sub(key)
	if !ok {
		return layout.Edges{}
	}
	defer s.end()
	return s.edges(maxUnit)
}

func (a *assembly) riser(tb *table, r *layout.Riser, b *layout.Board) {
	tb.need("name")
	tb.need("height")
	r.Name = tb.str("name")
	if r.Name == layout.DeckName {
		tb.errKey("name", "name: %q is the board's own surface, want another", r.Name)
	}
	r.At = tb.rect("board", b.Rect())
	r.Height = tb.length("height", maxUnit, 2*layout.Millimetre, maxUnit)
	r.Thickness = tb.length("thickness", min(b.Thickness, r.Height-1), layout.Millimetre, r.Height-1)
	r.Overhang = tb.edgesAt("overhang")
	for _, l := range tb.subs("leg") {
		r.Legs = append(r.Legs, layout.Leg{At: l.rect("board", b.Rect())})
		l.end()
	}
	if r.Legs == nil {
		r.Legs = r.EndPanels()
	}
	m := tb.str("material")
	if m == "" {
		m = b.Material
	}
	if m != "" {
		a.density(tb, m, &r.Density)
	}
	tb.end()
}

func (tb *table) fixture(b *layout.Board) layout.Fixture {
	tb.need("height")
	from := tb.length("from", 0, 0, maxUnit)
	top := tb.length("height", maxUnit, from+1, maxUnit)
	x := layout.Fixture{Name: tb.str("name"), Box: layout.BoxOn(tb.rect("board", b.Rect()), from, top)}
	tb.end()
	return x
}

func (tb *table) caseOf(b *layout.Board) *layout.Case {
	s, ok := tb.sub("case")
	if !ok {
		return nil
	}
	s.need("inside")
	c := &layout.Case{Name: s.str("name"), Mass: s.mass("mass")}
	if l, ok := s.lengths("inside", 3, layout.Centimetre, maxBoard); ok {
		c.Inside = layout.Size{W: l[0], D: l[1], H: l[2]}
		if c.Inside.W < b.W || c.Inside.D < b.D {
			s.errKey("inside", "inside: %s x %s does not hold the board of %s x %s", c.Inside.W, c.Inside.D, b.W, b.D)
		}
	}
	c.Below = s.length("below", b.Thickness+10*layout.Millimetre, 0, maxBoard)
	s.end()
	return c
}

// rect reads at and size, and holds the rectangle to what it must lie in. what
// names that.
func (tb *table) rect(what string, in layout.Rect) layout.Rect {
	tb.need("at")
	tb.need("size")
	at, ok1 := tb.lengths("at", 2, 0, maxBoard)
	size, ok2 := tb.lengths("size", 2, layout.Millimetre, maxBoard)
	if !ok1 || !ok2 {
		return layout.Rect{}
	}
	r := layout.RectAt(layout.Point{X: at[0], Y: at[1]}, size[0], size[1])
	if !in.Contains(r) {
		tb.errKey("size", "reaches to %s, %s, beyond the %s's %s x %s", r.X1, r.Y1, what, in.X1, in.Y1)
	}
	return r
}

// density looks a material up once all files are read.
func (a *assembly) density(tb *table, material string, into *float64) {
	a.late = append(a.late, func(c *Catalog) {
		m, ok := c.materials[material]
		if !ok {
			tb.errKey("material", "no material %q, %s", material, wanted(material, names(c.materials)))
			return
		}
		*into = m.Density
	})
}

// material reads one [[material]].
func material(tb *table) *Material {
	tb.need("density")
	m := &Material{Summary: tb.str("summary"), Density: tb.number("density", 1, 1, 25_000), Values: tb.values()}
	tb.end()
	return m
}

// fastener reads one [[fastener]].
func fastener(tb *table) *Fastener {
	tb.need("kind")
	f := &Fastener{Summary: tb.str("summary"), Kind: tb.word("kind", Interlock, HookAndLoop)}
	tb.need("widths")
	f.Widths, _ = tb.lengths("widths", 0, layout.Millimetre, maxUnit)
	tb.need("strength_kpa")
	f.StrengthKPa = tb.number("strength_kpa", 1, 0.1, 10_000)
	usual := "tension"
	if f.Kind == HookAndLoop {
		usual = "shear"
	}
	f.Test = tb.word("test", usual, "tension", "shear")
	f.Hook = tb.length("hook", 0, 0, maxUnit)
	f.Loop = tb.length("loop", 0, 0, maxUnit)
	f.Values = tb.values()
	tb.end()
	return f
}

// plugForm reads one [[plug]].
func plugForm(tb *table) *PlugForm {
	f := &PlugForm{Summary: tb.str("summary"), Default: tb.flag("default")}
	for _, k := range []string{"kind", "out", "width"} {
		tb.need(k)
	}
	f.Kind = layout.JackKind(tb.word("kind", jackKinds...))
	f.Out = tb.length("out", layout.Millimetre, layout.Millimetre, maxUnit)
	f.Width = tb.length("width", layout.Millimetre, layout.Millimetre, maxUnit)
	f.Leg = tb.length("leg", 0, 0, maxUnit)
	f.Diameter = tb.length("diameter", 0, 0, maxUnit)
	f.Shank = tb.length("shank", 0, 0, maxUnit)
	f.Values = tb.values()
	tb.end()
	return f
}

// plug looks a jack's plug up once all files are read.
func (a *assembly) plug(tb *table, f *UnitForm, i int) {
	a.late = append(a.late, func(c *Catalog) {
		j := &f.Unit.Jacks[i]
		name := j.Plug.Name
		if name == "" {
			p, ok := c.DefaultPlug(j.Kind)
			if !ok {
				tb.errKey("kind", "no plug of kind %q is the default one, want plug = \"...\"", j.Kind)
			}
			j.Plug = p
			return
		}
		p, ok := c.plugs[name]
		switch {
		case !ok:
			tb.errKey("plug", "no plug %q, %s", name, wanted(name, names(c.plugs)))
		case p.Kind != j.Kind:
			tb.errKey("plug", "plug %q is of kind %q, the jack is %q: want %s", name, p.Kind, j.Kind, oneOf(c.plugNames(j.Kind)))
		default:
			j.Plug = p.PlugForm
		}
	})
}

func (c *Catalog) plugNames(k layout.JackKind) []string {
	var out []string
	for _, p := range c.Plugs() {
		if p.Kind == k {
			out = append(out, p.Name)
		}
	}
	return out
}

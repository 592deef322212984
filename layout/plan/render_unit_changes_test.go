package plan

import (
	"slices"

	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
)

// unitParts finds the tables of that key of all units of the text.
func unitParts(root *node, key string) []*node {
	var out []*node
	if x := root.get("unit"); x != nil {
		for _, n := range x.value.items {
			if y := n.get(key); y != nil {
				out = append(out, y.value)
			}
		}
	}
	return append(out, lineupPlaces(root)...)
}

func lineupPlaces(root *node) []*node {
	var out []*node
	if x := root.get("lineup"); x != nil {
		for _, n := range x.value.items {
			if y := n.get("place"); y != nil {
				for _, z := range y.value.keys {
					out = append(out, z.value)
				}
			}
		}
	}
	return out
}

func parts(key string) func(root *node, _, _ *layout.Plan) []*node {
	return func(root *node, _, _ *layout.Plan) []*node { return unitParts(root, key) }
}

// aUnit draws one of the units of the plan.
func aUnit(t *rapid.T, p *layout.Plan) *layout.Unit { return pick(t, "unit", p.Units) }

var unitChanges = []anyChange{
	{name: "new unit", do: func(t *rapid.T, p *layout.Plan) {
		d := &Doc{Plan: p, forms: catalog.Builtin()}
		u, err := d.NewUnit(rapid.SampledFrom(catalog.Builtin().Units()).Draw(t, "form").Name, rapid.SampledFrom([]string{"", "New One"}).Draw(t, "label"))
		if err != nil {
			t.Fatal(err)
		}
		u.ToBuy = rapid.Bool().Draw(t, "to buy")
		p.Units = slices.Insert(p.Units, rapid.IntRange(0, len(p.Units)).Draw(t, "where"), u)
	}},
	{name: "measured unit", do: func(t *rapid.T, p *layout.Plan) {
		u := layout.Unit{ID: fresh(t, "id"), Label: "Own", Mount: layout.Fixed, Body: layout.Size{W: 60 * mm, D: 110 * mm, H: 40 * mm}, Mass: 250 * layout.Gram}
		u.Overall = u.Body
		plug, _ := catalog.Builtin().Plug("phone-flat")
		u.Jacks = []layout.Jack{{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Left, Along: 30 * mm, Height: 20 * mm, Plug: plug.PlugForm, PlugGiven: true}}
		if rapid.Bool().Draw(t, "treadle") {
			u.Treadle, u.Sweep = true, &layout.Sweep{Top: 40 * mm}
		}
		if p.Unit(u.ID) == nil {
			p.Units = append(p.Units, u)
		}
	}},
	{name: "unit gone", do: func(t *rapid.T, p *layout.Plan) { _ = p.RemoveUnit(aUnit(t, p).ID) },
		takes: func(root *node, was, is *layout.Plan) []*node {
			out := itemsBut(root, "unit", "id", func(s string) bool { return is.Unit(s) != nil })
			if x := root.get("chain"); x != nil && x.value.get("link") != nil {
				out = append(out, x.value.get("link").value)
			}
			return append(out, lineupPlaces(root)...)
		}},
	{name: "unit renamed", do: func(t *rapid.T, p *layout.Plan) { _ = p.RenameUnit(aUnit(t, p).ID, fresh(t, "id")) }, takes: parts("place")},
	{name: "unit moved in the list", do: func(t *rapid.T, p *layout.Plan) {
		_ = p.MoveUnit(aUnit(t, p).ID, rapid.IntRange(0, len(p.Units)).Draw(t, "index"))
	}, moves: true},
	{name: "another form", do: func(t *rapid.T, p *layout.Plan) {
		d := &Doc{Plan: p, forms: catalog.Builtin()}
		if err := d.SetForm(aUnit(t, p), rapid.SampledFrom(catalog.Builtin().Units()).Draw(t, "form").Name); err != nil {
			t.Fatal(err)
		}
	}, takes: func(root *node, was, is *layout.Plan) []*node {
		var out []*node
		for _, key := range []string{"jack", "switch", "base", "output", "draw", "sweep", "mains"} {
			out = append(out, unitParts(root, key)...)
		}
		return out
	}},
	{name: "freedom", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		u.Often = rapid.IntRange(0, 3).Draw(t, "often")
		u.Turns = rapid.SampledFrom([][]layout.Turn{nil, {0, 2}, {0, 1, 2, 3}}).Draw(t, "turns")
		u.On = rapid.SampledFrom([][]string{nil, {layout.DeckName}}).Draw(t, "on")
		u.Pinned, u.ToBuy, u.Buffer = rapid.Bool().Draw(t, "pinned"), rapid.Bool().Draw(t, "to buy"), rapid.Bool().Draw(t, "buffer")
		u.Label = rapid.StringMatching(`[ !$-~é漢]{1,20}`).Draw(t, "label")
		u.Uses = nil
		if len(u.Jacks) > 0 && rapid.Bool().Draw(t, "uses") {
			u.Uses = []string{u.Jacks[0].ID}
		}
	}},
	{name: "measures", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		by := millimetres(t, "larger", 0, 20)
		u.Body.W, u.Overall.W = u.Body.W+by, u.Overall.W+by
		u.Overall.H += millimetres(t, "taller", 0, 5)
		u.Mass += layout.Mass(rapid.IntRange(0, 5000).Draw(t, "heavier")) * layout.Gram
	}},
	{name: "jacks", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		if len(u.Jacks) == 0 {
			return
		}
		j := pick(t, "jack", u.Jacks)
		j.Height = mm * layout.Length(rapid.IntRange(1, 10).Draw(t, "height"))
		j.LegGiven, j.Leg = true, layout.LegDown
		plug, _ := catalog.Builtin().DefaultPlug(j.Kind)
		j.Plug, j.PlugGiven, j.Usual = plug, true, layout.Seat{}
	}},
	{name: "new jack", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		plug, _ := catalog.Builtin().DefaultPlug(layout.XLR)
		j := layout.Jack{ID: fresh(t, "jack"), Kind: layout.XLR, Signal: layout.Audio, Dir: layout.Out, Wall: layout.Front, Along: 10 * mm, Height: 5 * mm, Plug: plug}
		if u.Jack(j.ID) == nil {
			u.Jacks = append(u.Jacks, j)
		}
	}},
	{name: "jacks that are not there, or in another order", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		var there []layout.Jack
		for _, i := range rapid.Permutation(indices(len(u.Jacks))).Draw(t, "order") {
			if rapid.IntRange(0, 3).Draw(t, "keep") > 0 {
				there = append(there, u.Jacks[i])
			}
		}
		if rapid.Bool().Draw(t, "in order") {
			kept := func(j layout.Jack) bool {
				return slices.ContainsFunc(there, func(k layout.Jack) bool { return k.ID == j.ID })
			}
			there = slices.DeleteFunc(slices.Clone(u.Jacks), func(j layout.Jack) bool { return !kept(j) })
		}
		u.Jacks, u.Uses = there, nil
		u.Outputs = slices.DeleteFunc(slices.Clone(u.Outputs), func(o layout.Output) bool { return u.Jack(o.Jack) == nil })
		if u.PowerIn() == nil {
			u.Draw = nil
		}
	}, takes: func(root *node, _, _ *layout.Plan) []*node {
		return append(unitParts(root, "jack"), append(unitParts(root, "output"), unitParts(root, "draw")...)...)
	}},
	{name: "neither sweep nor mains", do: func(t *rapid.T, p *layout.Plan) { u := aUnit(t, p); u.Sweep, u.Mains = nil, nil },
		takes: func(root *node, _, _ *layout.Plan) []*node {
			return append(unitParts(root, "sweep"), unitParts(root, "mains")...)
		}},
	{name: "sweep", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		u.Sweep = &layout.Sweep{Back: millimetres(t, "behind", 0, 9), From: 10 * mm, Top: u.Height() + millimetres(t, "above", 0, 30)}
	}, takes: parts("sweep")},
	{name: "switches", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		u.Switches = nil
		for i := range rapid.IntRange(0, 3).Draw(t, "switches") {
			u.Switches = append(u.Switches, layout.Switch{Name: rapid.SampledFrom([]string{"", "on"}).Draw(t, "name"), At: layout.Point{X: layout.Length(i+1) * 2 * mm, Y: 3 * mm},
				Height: rapid.SampledFrom([]layout.Length{u.Body.H, 30 * mm}).Draw(t, "height")})
		}
	}, takes: parts("switch")},
	{name: "base", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		u.OnBase = nil
		for i := range rapid.IntRange(0, 3).Draw(t, "spots") {
			u.OnBase = append(u.OnBase, layout.BaseSpot{Kind: layout.Screw, At: layout.RectAt(layout.Point{X: layout.Length(i) * 2 * mm, Y: mm}, 2*mm, 3*mm)})
		}
	}, takes: parts("base")},
	{name: "draw", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		if u.Draw == nil {
			u.Draw = &layout.Draw{}
		}
		low := rapid.SampledFrom([]int{9000, 9600, 12_000}).Draw(t, "volts")
		*u.Draw = layout.Draw{Millivolts: low, Milliamps: rapid.IntRange(1, 200).Draw(t, "milliamps"), CentrePositive: rapid.Bool().Draw(t, "positive"),
			AC: rapid.Bool().Draw(t, "ac"), Isolated: rapid.Bool().Draw(t, "isolated"), Battery: rapid.Bool().Draw(t, "battery"),
			MaxMillivolts: rapid.SampledFrom([]int{0, 18_000}).Draw(t, "up to"), Lead: rapid.SampledFrom([]layout.LeadKind{"", layout.PlainLead}).Draw(t, "lead")}
	}},
	{name: "no draw", do: func(t *rapid.T, p *layout.Plan) { aUnit(t, p).Draw = nil }, takes: parts("draw")},
	{name: "outputs", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		u.Outputs = slices.Clone(u.Outputs)
		for i := range u.Outputs {
			o := &u.Outputs[i]
			o.Milliamps += 5
			o.Isolated, o.Group, o.Choices, o.MaxMillivolts = false, "a", nil, 0
			if rapid.Bool().Draw(t, "choices") {
				o.Choices = []layout.Setting{{Millivolts: 12_000, Milliamps: o.Milliamps}, {Millivolts: 18_000, Milliamps: 50}}
			}
		}
		u.Milliwatts = 1500 * rapid.IntRange(1, 20).Draw(t, "watts")
		u.Mains = &layout.MainsInput{Volts: 230, MaxVolts: rapid.SampledFrom([]int{230, 240}).Draw(t, "volts"), Hertz: 50, MaxHertz: rapid.SampledFrom([]int{50, 60}).Draw(t, "hertz")}
	}, takes: parts("output")},
	{name: "placed", do: func(t *rapid.T, p *layout.Plan) {
		p.SetPlace(pick(t, "line-up", p.Lineups), aUnit(t, p), placement(t, "place"))
	}, takes: parts("place")},
	{name: "taken off", do: func(t *rapid.T, p *layout.Plan) {
		u := aUnit(t, p)
		u.Place = nil
		for i := range p.Lineups {
			delete(p.Lineups[i].Place, u.ID)
		}
	}, takes: parts("place")},
	{name: "unit's price", do: func(t *rapid.T, p *layout.Plan) { setPrice(p, aUnit(t, p).ID, aPrice(t)) }},
}

func setPrice(p *layout.Plan, name string, price layout.Price) {
	if name == "" {
		return
	}
	if p.Prices == nil {
		p.Prices = map[string]layout.Price{}
	}
	p.Prices[name] = price
}

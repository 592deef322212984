package plan

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
)

func edges(t *rapid.T) layout.Edges {
	side := func(name string) layout.Length { return mm * layout.Length(rapid.IntRange(0, 3).Draw(t, name)) }
	return layout.Edges{Front: side("front"), Back: side("back"), Left: side("left"), Right: side("right")}
}

// spot draws a rectangle on the board.
func spot(t *rapid.T, b *layout.Board, w, d layout.Length) layout.Rect {
	x, y := rapid.IntRange(0, 20).Draw(t, "x"), rapid.IntRange(0, 20).Draw(t, "y")
	return layout.RectAt(layout.Point{X: (b.W - w) * layout.Length(x) / 20, Y: (b.D - d) * layout.Length(y) / 20}, w, d)
}

// boardKey finds a table of the board in the text.
func boardKey(key string) func(root *node, _, _ *layout.Plan) []*node {
	return func(root *node, _, _ *layout.Plan) []*node {
		if x := root.get("board").value.get(key); x != nil {
			return []*node{x.value}
		}
		return nil
	}
}

var boardChanges = []anyChange{
	{name: "title", do: func(t *rapid.T, p *layout.Plan) {
		p.Title = rapid.StringMatching(`[ !$-~é漢]{1,20}`).Draw(t, "title")
	}},
	{name: "length unit", do: func(t *rapid.T, p *layout.Plan) {
		p.LengthUnit = rapid.SampledFrom([]layout.LengthUnit{layout.Millimetres, layout.Inches}).Draw(t, "unit")
	}},
	{name: "board size", do: func(t *rapid.T, p *layout.Plan) {
		p.Board.W += millimetres(t, "wider", 0, 50)
		p.Board.D += millimetres(t, "deeper", 0, 50)
	}},
	{name: "board rest", do: func(t *rapid.T, p *layout.Plan) {
		b := &p.Board
		m := rapid.SampledFrom(catalog.Builtin().Materials()).Draw(t, "material")
		b.Material, b.Density = m.Name, m.Density
		b.Mass = rapid.SampledFrom([]layout.Mass{0, 2600 * layout.Gram, 333_333}).Draw(t, "mass")
		b.Thickness = rapid.SampledFrom([]layout.Length{15 * mm, 9 * mm, 12_700}).Draw(t, "thickness")
		b.Feet = mm * layout.Length(rapid.IntRange(0, 20).Draw(t, "feet"))
	}},
	{name: "board edges", do: func(t *rapid.T, p *layout.Plan) { p.Board.Overhang, p.Board.PlugRoom = edges(t), edges(t) }},
	{name: "case", do: func(t *rapid.T, p *layout.Plan) {
		b := &p.Board
		b.Case = &layout.Case{Name: rapid.SampledFrom([]string{"case", "bag"}).Draw(t, "name"), Inside: layout.Size{W: b.W + 50*mm, D: b.D + 50*mm, H: 200 * mm},
			Below: b.Thickness + mm*layout.Length(rapid.IntRange(9, 11).Draw(t, "below")), Mass: layout.Mass(rapid.IntRange(0, 2).Draw(t, "mass")) * layout.Kilogram}
	}},
	{name: "no case", do: func(t *rapid.T, p *layout.Plan) { p.Board.Case = nil }, takes: boardKey("case")},
	{name: "new riser", do: func(t *rapid.T, p *layout.Plan) {
		b := &p.Board
		r := layout.Riser{Name: fresh(t, "name"), At: spot(t, b, 60*mm, 30*mm), Height: millimetres(t, "height", 20, 60), Thickness: 9 * mm, Density: b.Density, Overhang: edges(t)}
		if r.Legs = r.EndPanels(); rapid.Bool().Draw(t, "one leg") {
			r.Legs = []layout.Leg{{At: r.At}}
		}
		b.Risers = slices.Insert(b.Risers, rapid.IntRange(0, len(b.Risers)).Draw(t, "where"), r)
	}},
	{name: "riser changed", do: func(t *rapid.T, p *layout.Plan) {
		r := pick(t, "riser", p.Board.Risers)
		r.Height += 5 * mm
		r.Legs = []layout.Leg{{At: layout.RectAt(layout.Point{X: r.At.X0, Y: r.At.Y0}, 10*mm, 10*mm)}}
		r.Density = rapid.SampledFrom(catalog.Builtin().Materials()).Draw(t, "material").Density
	}, takes: boardKey("riser")},
	{name: "riser renamed", do: func(t *rapid.T, p *layout.Plan) {
		_ = p.RenameRiser(pick(t, "riser", p.Board.Risers).Name, fresh(t, "name"))
	}},
	{name: "no riser", do: func(t *rapid.T, p *layout.Plan) { _ = p.RemoveRiser(pick(t, "riser", p.Board.Risers).Name) },
		takes: func(root *node, was, is *layout.Plan) []*node {
			out := unitParts(root, "place")
			if x := root.get("board").value.get("riser"); x != nil {
				out = append(out, x.value)
			}
			return out
		}},
	{name: "rails", do: func(t *rapid.T, p *layout.Plan) {
		b := &p.Board
		b.Kind, b.Rails = layout.Rails, nil
		for i := range layout.Length(rapid.IntRange(1, 4).Draw(t, "rails")) {
			b.Rails = append(b.Rails, layout.Rail{At: layout.RectAt(layout.Point{Y: i * 40 * mm}, b.W, millimetres(t, "depth", 10, 40))})
		}
	}, takes: boardKey("rail")},
	{name: "no rails", do: func(t *rapid.T, p *layout.Plan) { p.Board.Kind, p.Board.Rails = layout.Solid, nil }, takes: boardKey("rail")},
	{name: "new fixture", do: func(t *rapid.T, p *layout.Plan) {
		b := &p.Board
		b.Fixtures = append(b.Fixtures, layout.Fixture{Name: rapid.SampledFrom([]string{"latch", fmt.Sprintf("fixture %d", len(b.Fixtures)+1)}).Draw(t, "name"),
			Box: layout.BoxOn(spot(t, b, 20*mm, 20*mm), mm*layout.Length(rapid.IntRange(-1, 1).Draw(t, "from")), 12*mm)})
	}},
	{name: "no fixtures", do: func(t *rapid.T, p *layout.Plan) { p.Board.Fixtures = nil }, takes: boardKey("fixture")},
	{name: "new slot", do: func(t *rapid.T, p *layout.Plan) {
		s := layout.Slot{Name: fresh(t, "name"), On: layout.DeckName, At: spot(t, &p.Board, 60*mm, 60*mm)}
		if p.Slot(s.Name) == nil {
			p.Slots = slices.Insert(p.Slots, rapid.IntRange(0, len(p.Slots)).Draw(t, "where"), s)
		}
	}},
	{name: "slot changed", do: func(t *rapid.T, p *layout.Plan) { pick(t, "slot", p.Slots).At = spot(t, &p.Board, 80*mm, 70*mm) }},
	{name: "slot renamed", do: func(t *rapid.T, p *layout.Plan) { _ = p.RenameSlot(pick(t, "slot", p.Slots).Name, fresh(t, "name")) }},
	{name: "no slot", do: func(t *rapid.T, p *layout.Plan) { _ = p.RemoveSlot(pick(t, "slot", p.Slots).Name) },
		takes: func(root *node, was, is *layout.Plan) []*node {
			return append(itemsBut(root, "slot", "name", func(s string) bool { return is.Slot(s) != nil }), lineupPlaces(root)...)
		}},
	{name: "slots turned round", do: func(t *rapid.T, p *layout.Plan) { slices.Reverse(p.Slots) }, moves: true},
}

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

// bare draws a unit without jacks that the chain or the power could miss.
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

var planChanges = []anyChange{
	{name: "chain", do: func(t *rapid.T, p *layout.Plan) {
		var order []layout.Stop
		for _, i := range rapid.Permutation(indices(len(p.Chain.Stops))).Draw(t, "order") {
			if rapid.IntRange(0, 4).Draw(t, "keep") > 0 {
				order = append(order, p.Chain.Stops[i])
			}
		}
		slices.SortStableFunc(order, func(a, b layout.Stop) int { // the instrument is first
			return map[bool]int{true: 0, false: 1}[a.Unit == layout.Instrument] - map[bool]int{true: 0, false: 1}[b.Unit == layout.Instrument]
		})
		p.Chain.Stops = order
	}},
	{name: "chain of slots and units", do: func(t *rapid.T, p *layout.Plan) {
		p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}}
		for _, s := range p.Slots {
			p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Slot: s.Name})
		}
		u := aUnit(t, p)
		p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: u.ID, In: "in"}, layout.Stop{Unit: layout.Amp})
	}},
	{name: "links and direction", do: func(t *rapid.T, p *layout.Plan) {
		p.Chain.LeftToRight = rapid.Bool().Draw(t, "left to right")
		p.Chain.Links = nil
		for range rapid.IntRange(0, 2).Draw(t, "links") {
			u := aUnit(t, p)
			for _, j := range u.Jacks {
				if j.Dir == layout.Out {
					p.Chain.Links = append(p.Chain.Links, layout.Link{From: layout.JackRef{Unit: u.ID, Jack: j.ID}, To: layout.JackRef{Unit: layout.Amp}})
					break
				}
			}
		}
	}, takes: func(root *node, _, _ *layout.Plan) []*node {
		if x := root.get("chain"); x != nil && x.value.get("link") != nil {
			return []*node{x.value.get("link").value}
		}
		return nil
	}},
	{name: "new line-up", do: func(t *rapid.T, p *layout.Plan) {
		_ = p.AddLineup(fresh(t, "name"), rapid.SampledFrom([]string{"", p.Lineups[0].Name}).Draw(t, "like"))
		_ = p.MoveLineup(p.Lineups[len(p.Lineups)-1].Name, rapid.IntRange(0, len(p.Lineups)).Draw(t, "index"))
	}},
	{name: "line-up renamed", do: func(t *rapid.T, p *layout.Plan) {
		_ = p.RenameLineup(pick(t, "line-up", p.Lineups).Name, fresh(t, "name"))
	}},
	{name: "line-up gone", do: func(t *rapid.T, p *layout.Plan) { _ = p.RemoveLineup(pick(t, "line-up", p.Lineups).Name) },
		takes: func(root *node, was, is *layout.Plan) []*node {
			return append(itemsBut(root, "lineup", "name", func(s string) bool { return is.LineupNamed(s) != nil }), lineupPlaces(root)...)
		}},
	{name: "line-ups turned round", do: func(t *rapid.T, p *layout.Plan) { slices.Reverse(p.Lineups) }, moves: true},
	{name: "fill", do: func(t *rapid.T, p *layout.Plan) {
		var ids []string
		for _, i := range rapid.Permutation(indices(len(p.Units))).Draw(t, "units") {
			if len(ids) < 3 {
				ids = append(ids, p.Units[i].ID)
			}
		}
		n := rapid.IntRange(0, len(ids)).Draw(t, "of them")
		_ = p.SetFill(pick(t, "line-up", p.Lineups).Name, pick(t, "slot", p.Slots).Name, ids[:n])
	}, takes: func(root *node, _, _ *layout.Plan) []*node { return lineupPlaces(root) }},
	{name: "limits", do: func(t *rapid.T, p *layout.Plan) {
		l := &p.Limits
		l.MassGiven = rapid.Bool().Draw(t, "given")
		if l.Mass = DefaultMassLimit; l.MassGiven {
			l.Mass = 12_500 * layout.Gram
		}
		l.Reach, l.StepOver = millimetres(t, "reach", 40, 90), DefaultStepOver
		l.FootForce = float64(rapid.IntRange(0, 600).Draw(t, "force")) / 2
	}},
	{name: "power rules", do: func(t *rapid.T, p *layout.Plan) {
		p.Power = layout.PowerRules{Sharing: rapid.Bool().Draw(t, "sharing"), Headroom: rapid.IntRange(15, 25).Draw(t, "headroom"),
			Tour: rapid.SampledFrom([][]string{nil, {"IE"}, {"GB", "IE"}, {"JP", "FR", "GB", "IE"}}).Draw(t, "tour")}
	}},
	{name: "cable", do: func(t *rapid.T, p *layout.Plan) {
		p.Cabling = layout.Cabling{Reel: millimetres(t, "reel", 200, 5000), Amp: 5000 * mm, Capacitance: 90.5}
		if rapid.Bool().Draw(t, "none") {
			p.Cabling = layout.Cabling{}
		}
	}},
	{name: "fastener", do: func(t *rapid.T, p *layout.Plan) {
		f := rapid.SampledFrom(catalog.Builtin().Fasteners()).Draw(t, "fastener")
		p.Fastening = layout.Fastening{UnitSide: rapid.SampledFrom([]layout.Side{"", layout.Hook}).Draw(t, "side"), Margin: 4 * mm}
		roll := layout.FastenerRoll{Name: f.Name, Widths: slices.Clone(f.Widths), StrengthKPa: f.StrengthKPa}
		if p.Fastening.HookAndLoop = roll; f.Kind == catalog.Interlock {
			p.Fastening.Interlock, p.Fastening.HookAndLoop = roll, layout.FastenerRoll{}
		}
	}},
	{name: "owned", do: func(t *rapid.T, p *layout.Plan) {
		n := func(name string) int { return rapid.IntRange(0, 2).Draw(t, name) }
		o := layout.Owned{Board: rapid.Bool().Draw(t, "board"), Reel: mm * layout.Length(1000*n("reel"))}
		for range n("cables") {
			o.Cables = append(o.Cables, layout.OwnedCable{Name: []string{"", "red"}[n("name")/2], Length: millimetres(t, "length", 100, 900), Count: 1 + n("count"),
				Plugs: rapid.SampledFrom([][2]string{{}, {"phone-flat", "phone-flat"}, {"", "phone-flat"}}).Draw(t, "plugs")})
		}
		for range n("leads") {
			o.Leads = append(o.Leads, layout.OwnedLead{Length: 600 * mm, Reversed: n("reversed") == 1, Count: 1 + n("count")})
		}
		for range n("plugs") {
			o.Plugs = append(o.Plugs, layout.OwnedPlug{Form: "phone-straight", Count: 1 + n("count")})
		}
		for range n("rolls") {
			o.Rolls = append(o.Rolls, layout.OwnedRoll{Kind: catalog.HookAndLoop, Width: 25 * mm, Length: 1000 * mm})
		}
		p.Owned = o
	}, takes: func(root *node, _, _ *layout.Plan) []*node {
		var out []*node
		if x := root.get("owned"); x != nil {
			for _, k := range x.value.keys {
				out = append(out, k.value)
			}
		}
		return out
	}},
	{name: "prices", do: func(t *rapid.T, p *layout.Plan) {
		p.Prices = nil
		for _, name := range []string{"board", "phone-flat", "cable 30cm", "lead"} {
			if rapid.Bool().Draw(t, name) {
				setPrice(p, name, aPrice(t))
			}
		}
	}},
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

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

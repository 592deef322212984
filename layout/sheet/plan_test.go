package sheet

import "footplank/layout"

const mm = layout.Millimetre

var (
	flatPlug = layout.PlugForm{Name: "flat", Kind: layout.Phone, Out: 12 * mm, Width: 16 * mm}
	dcPlug   = layout.PlugForm{Name: "dc-angle", Kind: layout.DC, Out: 11 * mm, Width: 10 * mm, Leg: 20 * mm}
	mainsIn  = layout.PlugForm{Name: "mains", Kind: layout.Mains, Out: 40 * mm, Width: 22 * mm}
)

// box makes a unit with jacks in its side walls, power at the back, and
// switches in a row near its front.
func box(id, label string, w, d, h layout.Length, mount layout.Mount, switches int) layout.Unit {
	u := layout.Unit{
		ID: id, Label: label, Mount: mount, Mass: 400 * layout.Gram,
		Body:    layout.Size{W: w * mm, D: d * mm, H: h * mm},
		Overall: layout.Size{W: w * mm, D: d * mm, H: (h + 5) * mm},
		Draw:    &layout.Draw{Millivolts: 9000, Milliamps: 20},
		Jacks: []layout.Jack{
			{ID: "in", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.In, Wall: layout.Right, Along: d * mm / 2, Height: 20 * mm, Plug: flatPlug},
			{ID: "out", Kind: layout.Phone, Signal: layout.Audio, Dir: layout.Out, Wall: layout.Left, Along: d * mm / 2, Height: 20 * mm, Plug: flatPlug},
			{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In, Wall: layout.Back, Along: w * mm / 2, Height: 20 * mm, Plug: dcPlug, Leg: layout.LegUp},
		},
	}
	for i := 1; i <= switches; i++ {
		u.Switches = append(u.Switches, layout.Switch{Name: "on", Height: h * mm,
			At: layout.Point{X: w * mm * layout.Length(2*i-1) / layout.Length(2*switches), Y: 22 * mm}})
	}
	return u
}

func at(u layout.Unit, on string, x, y layout.Length, turn layout.Turn) layout.Unit {
	u.Place = &layout.Placement{On: on, At: layout.Point{X: x * mm, Y: y * mm}, Turn: turn}
	return u
}

func pinned(u layout.Unit) layout.Unit { u.Pinned = true; return u }

// dense is a full board of 14 units placed by hand, with a riser, a supply
// beneath it, two slots and two line-ups.
func dense() *layout.Plan {
	board := layout.Board{
		W: 560 * mm, D: 330 * mm, Kind: layout.Solid, Material: "birch-plywood", Thickness: 15 * mm, Density: 685,
		Overhang: layout.Edges{Left: 15 * mm}, PlugRoom: layout.Edges{Right: 15 * mm, Left: 30 * mm, Back: 15 * mm},
		Risers: []layout.Riser{{Name: "shelf", At: layout.Rect{X0: 105 * mm, Y0: 205 * mm, X1: 555 * mm, Y1: 330 * mm},
			Height: 55 * mm, Thickness: 9 * mm, Density: 685}},
	}
	board.Risers[0].Legs = board.Risers[0].EndPanels()
	treadle := at(box("swell", "Swell pedal", 90, 250, 65, layout.Fixed, 0), "deck", -12, 0, 0)
	treadle.Treadle, treadle.Draw = true, nil
	treadle.Sweep = &layout.Sweep{Front: 6 * mm, From: 40 * mm, Top: 90 * mm}
	supply := at(pinned(box("supply", "Supply, eight outputs", 160, 85, 36, layout.Fixed, 0)), "deck", 300, 235, 0)
	supply.Draw, supply.Switches = nil, nil
	supply.Jacks = []layout.Jack{{ID: "mains", Kind: layout.Mains, Signal: layout.Line, Dir: layout.In, Wall: layout.Left, Along: 40 * mm, Height: 18 * mm, Plug: mainsIn}}
	for i := layout.Length(0); i < 8; i++ {
		id := string('1' + rune(i))
		supply.Jacks = append(supply.Jacks, layout.Jack{ID: id, Kind: layout.DC, Signal: layout.Power, Dir: layout.Out, Wall: layout.Front, Along: (10 + 20*i) * mm, Height: 10 * mm, Plug: dcPlug})
		supply.Outputs = append(supply.Outputs, layout.Output{Jack: id, Millivolts: 9000, Milliamps: 100, Isolated: true})
	}
	p := &layout.Plan{
		Title: "Ceilidh band, electric fiddle", LengthUnit: layout.Millimetres, Board: board,
		Slots: []layout.Slot{
			{Name: "colour", On: "deck", At: layout.Rect{X0: 390 * mm, X1: 560 * mm, Y1: 150 * mm}},
			{Name: "space", On: "shelf", At: layout.Rect{X0: 105 * mm, X1: 372 * mm, Y0: 205 * mm, Y1: 330 * mm}},
		},
		Units: []layout.Unit{
			at(pinned(box("preamp", "Preamp with DI", 94, 119, 34, layout.Fixed, 2)), "shelf", 447, 207, 0),
			at(box("tuner", "Tuner", 38, 93, 31, layout.Fixed, 1), "shelf", 385, 215, 0),
			at(box("octave", "Octave", 70, 120, 55, layout.Fixed, 1), "deck", 304, 5, 0),
			treadle,
			at(box("loop", "Looper three switch", 170, 120, 55, layout.Fixed, 3), "deck", 110, 5, 0),
			at(box("squash", "Compressor", 66, 122, 39, layout.Swap, 1), "deck", 482, 5, 0),
			at(box("rasp", "Rasp overdrive", 60, 112, 31, layout.Swap, 1), "deck", 398, 5, 0),
			at(box("shimmer", "Shimmer", 38, 93, 31, layout.Swap, 1), "shelf", 134, 215, 0),
			at(box("organ", "Organ machine", 145, 120, 55, layout.Swap, 2), "deck", 400, 5, 0),
			at(box("room", "Hall reverb", 70, 115, 50, layout.Swap, 1), "shelf", 196, 209, 0),
			at(box("echo", "Echo", 70, 115, 50, layout.Swap, 1), "shelf", 290, 209, 0),
			supply,
			at(pinned(box("expander", "Expander", 90, 50, 25, layout.Swap, 0)), "deck", 130, 260, 0),
			at(box("split", "Y", 30, 60, 30, layout.Fixed, 0), "deck", 130, 140, 0),
		},
		Chain: layout.Chain{Stops: []layout.Stop{
			{Unit: layout.Instrument}, {Unit: "preamp"}, {Unit: "tuner"}, {Slot: "colour"}, {Unit: "octave"},
			{Unit: "swell"}, {Unit: "loop"}, {Slot: "space"}, {Unit: layout.Desk}}},
		Lineups: []layout.Lineup{
			{Name: "barn", Fill: map[string][]string{"colour": {"squash", "rasp"}, "space": {"echo", "room", "shimmer"}}},
			{Name: "pit", Fill: map[string][]string{"colour": {"organ"}, "space": {"echo", "room"}}},
		},
		Limits: layout.Limits{Mass: 23 * layout.Kilogram, Reach: 72 * mm, StepOver: 40 * mm, FootForce: 300},
		Power:  layout.PowerRules{Sharing: true}, // eleven units, eight outputs
	}
	return p
}

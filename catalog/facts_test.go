package catalog

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

const mm = layout.Millimetre

// statusOf returns the status and source of one value of a form.
func statusOf(t *testing.T, vs []Value, key string) Value {
	t.Helper()
	for _, v := range vs {
		if v.Key == key {
			return v
		}
	}
	t.Errorf("no status of %q", key)
	return Value{}
}

// Every value says where it is from, and what was read says where.
func TestEveryValueHasAStatus(t *testing.T) {
	check := func(name string, vs []Value, keys map[string]bool) {
		for k, given := range keys {
			if !given {
				continue
			}
			v := statusOf(t, vs, k)
			assert.Contains(t, Statuses(), v.Status, "%s: %s", name, k)
			if v.Status == Read || v.Status == Computed {
				assert.NotEmpty(t, v.Source, "%s: %s", name, k)
			}
		}
	}
	c := Builtin()
	for _, f := range c.Units() {
		u := f.Unit
		check(f.Name, f.Values, map[string]bool{"body": true, "overall": true, "mass": true, "jack": true,
			"switch": len(u.Switches) > 0, "draw": u.Draw != nil, "sweep": u.Sweep != nil, "output": len(u.Outputs) > 0})
	}
	for _, f := range c.Plugs() {
		check(f.Name, f.Values, map[string]bool{"out": true, "width": true, "leg": f.Leg > 0, "diameter": f.Diameter > 0, "shank": f.Shank > 0})
	}
	for _, f := range c.Materials() {
		check(f.Name, f.Values, map[string]bool{"density": true})
	}
	for _, f := range c.Boards() {
		b := f.Board
		check(f.Name, f.Values, map[string]bool{"size": true, "thickness": true, "rail": len(b.Rails) > 0, "mass": b.Mass > 0, "riser": len(b.Risers) > 0})
	}
	for _, f := range c.Fasteners() {
		check(f.Name, f.Values, map[string]bool{"widths": true, "strength_kpa": true, "hook": f.Hook > 0, "loop": f.Loop > 0})
	}
}

// Sizes, masses and draws of units: common practice, no source, but the small
// die-cast size (stompville) and the draws of the fuzz and of the plain delay
// (truefire power tutorial). Masses in g, draws in mA at 9 V.
func TestUnitsAreOfUsualSizes(t *testing.T) {
	type span [2]float64
	anyKnobs := span{0, 200}
	for _, c := range []struct {
		form              string
		w, d, h, overallH span
		mass, draw        span
		body, current     Status
	}{
		{"mini", span{38, 38}, span{93, 93}, span{31, 31}, span{45, 55}, span{150, 250}, span{5, 30}, CommonPractice, CommonPractice},
		{"mini-digital", span{38, 38}, span{93, 93}, span{31, 31}, span{45, 55}, span{150, 250}, span{30, 100}, CommonPractice, CommonPractice},
		{"compact", span{70, 73}, span{115, 130}, span{50, 60}, anyKnobs, span{350, 450}, span{5, 30}, CommonPractice, CommonPractice},
		{"compact-back", span{70, 73}, span{115, 130}, span{50, 60}, anyKnobs, span{350, 450}, span{5, 30}, CommonPractice, CommonPractice},
		{"compact-stereo", span{70, 73}, span{115, 130}, span{50, 60}, anyKnobs, span{350, 450}, span{5, 100}, CommonPractice, CommonPractice},
		{"compact-fuzz", span{70, 73}, span{115, 130}, span{50, 60}, anyKnobs, span{350, 450}, span{1, 1}, CommonPractice, Read},
		{"compact-delay", span{70, 73}, span{115, 130}, span{50, 60}, anyKnobs, span{350, 450}, span{55, 55}, CommonPractice, Read},
		{"die-cast-small", span{60, 60}, span{112, 112}, span{31, 31}, anyKnobs, span{200, 500}, span{5, 30}, Read, CommonPractice},
		{"die-cast-medium", span{66, 66}, span{122, 122}, span{39, 39}, anyKnobs, span{200, 500}, span{5, 30}, CommonPractice, CommonPractice},
		{"die-cast-wide", span{94, 94}, span{119, 119}, span{34, 34}, anyKnobs, span{200, 500}, span{5, 30}, CommonPractice, CommonPractice},
		{"large-two-switch", span{145, 145}, span{120, 120}, span{40, 60}, anyKnobs, span{600, 1000}, span{100, 300}, CommonPractice, CommonPractice},
		{"three-switch", span{170, 170}, span{130, 130}, span{40, 60}, anyKnobs, span{800, 1300}, span{250, 350}, CommonPractice, CommonPractice},
		{"amp-emulator", span{130, 170}, span{115, 135}, span{40, 60}, anyKnobs, span{600, 1000}, span{300, 500}, CommonPractice, CommonPractice},
		{"treadle-volume", span{100, 100}, span{250, 250}, span{65, 80}, anyKnobs, span{1000, 1700}, span{0, 0}, CommonPractice, ""},
	} {
		f, ok := Builtin().Unit(c.form)
		require.True(t, ok, c.form)
		u := f.Unit
		draw := 0.0
		if u.Draw != nil {
			draw = float64(u.Draw.Milliamps)
			assert.Equal(t, 9000, u.Draw.Millivolts, c.form)
			assert.Equal(t, c.current, statusOf(t, f.Values, "draw").Status, c.form)
		}
		assert.Equal(t, c.body, statusOf(t, f.Values, "body").Status, c.form)
		for what, v := range map[string]struct {
			got  float64
			want span
		}{
			"width": {u.Body.W.MM(), c.w}, "depth": {u.Body.D.MM(), c.d}, "height": {u.Body.H.MM(), c.h},
			"with knobs": {u.Overall.H.MM(), c.overallH}, "mass": {u.Mass.Grams(), c.mass}, "draw": {draw, c.draw},
		} {
			assert.True(t, v.got >= v.want[0] && v.got <= v.want[1], "%s: %s is %v, want %v", c.form, what, v.got, v.want)
		}
	}
}

// Plugs beyond the wall, in mm: common practice, no source, 2 mm of nut and
// washer added; straight ones get the cable's bend besides, of at least five
// outside diameters (rfessentials) of a thin cable: 4 mm, of a DC lead 3 mm.
func TestPlugsAreOfUsualSizes(t *testing.T) {
	for _, c := range []struct {
		plug           string
		out, width     [2]layout.Length // without nut and bend
		leg            [2]layout.Length
		bend           layout.Length
		diameter       layout.Length
		shank          layout.Length
		dStatus, sFrom Status
	}{
		// 1/4 in phone plug: diameter 6.35, shank 31.75 (metaglossary).
		{"phone-straight", [2]layout.Length{38, 50}, [2]layout.Length{12, 16}, [2]layout.Length{}, 20, 6350, 31750, Read, Read},
		{"phone-right-angle", [2]layout.Length{14, 20}, [2]layout.Length{14, 17}, [2]layout.Length{25, 32}, 0, 6350, 31750, Read, Read},
		{"phone-flat", [2]layout.Length{10, 13}, [2]layout.Length{15, 26}, [2]layout.Length{}, 0, 6350, 31750, Read, Read},
		// DC barrel 5.5/2.1: IEC 60130-10 type A from memory; shaft 9.5 (Wikipedia "EIAJ connector").
		{"dc-straight", [2]layout.Length{25, 35}, [2]layout.Length{9, 12}, [2]layout.Length{}, 15, 5500, 9500, FromMemory, Read},
		{"dc-right-angle", [2]layout.Length{9, 13}, [2]layout.Length{9, 12}, [2]layout.Length{15, 25}, 0, 5500, 9500, FromMemory, Read},
		// 5-pin DIN: shield 13.2, grip 15-16 (DIN 41524 via dewiki).
		{"din-straight", [2]layout.Length{40, 50}, [2]layout.Length{15, 16}, [2]layout.Length{}, 20, 13200, 0, Read, ""},
		// 3.5 mm plug: 3.5 x 14, from memory.
		{"mini-trs-straight", [2]layout.Length{18, 30}, [2]layout.Length{8, 11}, [2]layout.Length{}, 15, 3500, 14000, FromMemory, FromMemory},
		// XLR: shell 19 (EN 61076-2-103).
		{"xlr-straight", [2]layout.Length{50, 70}, [2]layout.Length{19, 21}, [2]layout.Length{}, 30, 19000, 0, Read, ""},
	} {
		p, ok := Builtin().Plug(c.plug)
		require.True(t, ok, c.plug)
		nut := layout.Length(2)
		if c.leg == [2]layout.Length{} && c.bend > 0 {
			nut += c.bend
		}
		out := p.Out - nut*mm
		assert.True(t, out >= c.out[0]*mm && out <= c.out[1]*mm, "%s: %s out", c.plug, out)
		assert.True(t, p.Width >= c.width[0]*mm && p.Width <= c.width[1]*mm, "%s: %s wide", c.plug, p.Width)
		assert.True(t, p.Leg >= c.leg[0]*mm && p.Leg <= c.leg[1]*mm, "%s: leg %s", c.plug, p.Leg)
		assert.Equal(t, c.diameter, p.Diameter, c.plug)
		assert.Equal(t, c.shank, p.Shank, c.plug)
		assert.Equal(t, c.dStatus, statusOf(t, p.Values, "diameter").Status, c.plug)
		if c.shank > 0 {
			assert.Equal(t, c.sFrom, statusOf(t, p.Values, "shank").Status, c.plug)
		}
	}
}

// Fastener strengths in kPa: mushroom heads, tension, rigid to rigid
// (datasheet); hook-and-loop shear (retail labels; the test is ASTM D5169).
func TestFastenersAreAsRead(t *testing.T) {
	for name, kpa := range map[string]float64{
		"interlock-170-400": 221, "interlock-250-250": 207, "interlock-250-400": 324, "interlock-400-400": 380,
		"hook-and-loop": 69, "hook-and-loop-strong": 97,
	} {
		f, ok := Builtin().Fastener(name)
		require.True(t, ok, name)
		assert.Equal(t, kpa, f.StrengthKPa, name)
		assert.Equal(t, Read, statusOf(t, f.Values, "strength_kpa").Status, name)
		// Widths 20, 25 and 50 mm: common practice, no source.
		assert.Equal(t, []layout.Length{20 * mm, 25 * mm, 50 * mm}, f.Widths, name)
		assert.Equal(t, f.Kind == HookAndLoop, f.Test == "shear", name)
		if f.Kind == HookAndLoop {
			assert.Equal(t, [2]layout.Length{2300, 3200}, [2]layout.Length{f.Hook, f.Loop}, name)
		}
	}
}

// The labels of hook-and-loop give its shear in psi; one is 6894.757 Pa, from
// memory.
func TestHookAndLoopIsAsItsLabelsSay(t *testing.T) {
	for name, psi := range map[string]float64{"hook-and-loop": 10, "hook-and-loop-strong": 14} {
		f, ok := Builtin().Fastener(name)
		require.True(t, ok, name)
		assert.InDelta(t, psi*6.894757, f.StrengthKPa, 0.5, name)
	}
}

// Densities in kg/m3.
func TestMaterialsAreAsRead(t *testing.T) {
	for name, c := range map[string]struct {
		lo, hi float64
		status Status
	}{
		"birch-plywood":  {682, 697, Computed},     // birch plywood datasheet
		"aluminium":      {2700, 2700, Read},       // Gere's table, 6061
		"steel":          {7850, 7850, Read},       // Gere's table
		"polyethylene":   {960, 1400, Read},        // Gere's table
		"mdf":            {750, 750, Read},         // makeitfrom
		"aluminium-5052": {2680, 2680, FromMemory}, // from memory
		"hdpe":           {940, 965, FromMemory},   // from memory
		"pine":           {448, 448, Computed},     // from specific gravity 0.40
	} {
		m, ok := Builtin().Material(name)
		require.True(t, ok, name)
		assert.True(t, m.Density >= c.lo && m.Density <= c.hi, "%s: %v", name, m.Density)
		assert.Equal(t, c.status, statusOf(t, m.Values, "density").Status, name)
	}
}

// Sheets of birch plywood, 1220 x 2440 mm: nominal (actual) thickness and kg
// as in a birch plywood datasheet. A board weighs within 3 % of them.
func TestPlywoodSheetsWeighAsTheDatasheetSays(t *testing.T) {
	ply, _ := Builtin().Material("birch-plywood")
	for _, c := range []struct{ actual, kg float64 }{
		{6.4, 13.0}, {9.2, 19.0}, {12.0, 24.8}, {14.9, 30.8}, {17.7, 36.7},
	} {
		b := layout.Board{W: 1220 * mm, D: 2440 * mm, Kind: layout.Solid,
			Thickness: layout.Length(c.actual*1000 + 0.5), Density: ply.Density}
		assert.InEpsilon(t, c.kg*1000, b.TotalMass().Grams(), 0.03, "%v mm", c.actual)
	}
}

// Aluminium sheet 0.8 mm x 1.25 m x 2.5 m at 2.80 is 7.00 kg (sheet weight
// table); at the catalog's own density of 6061 it is lighter by 2.70 : 2.80.
func TestAluminiumSheetWeighsAsTheTableSays(t *testing.T) {
	b := layout.Board{W: 1250 * mm, D: 2500 * mm, Kind: layout.Solid, Thickness: 800 * layout.Micrometre, Density: 2800}
	assert.Equal(t, 7*layout.Kilogram, b.TotalMass())
	al, _ := Builtin().Material("aluminium")
	b.Density = al.Density
	assert.InEpsilon(t, 7000*2.70/2.80, b.TotalMass().Grams(), 1e-9)
}

// TestBuffers: what is digital, preamps and buffers drive what follows them;
// simple analogue units are taken to pass the signal through. Common practice,
// no source.
func TestBuffers(t *testing.T) {
	for form, want := range map[string]bool{
		"buffer": true, "preamp-di": true, "mini-digital": true, "four-switch": true, "receiver": true,
		"mini": false, "compact": false, "compact-fuzz": false, "treadle-volume": false, "treadle-wah": false, "compact-tuner": false,
	} {
		f, ok := Builtin().Unit(form)
		require.True(t, ok, form)
		assert.Equal(t, want, f.Unit.Buffer, form)
	}
}

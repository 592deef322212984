package catalog

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

func TestEveryUnitIsSane(t *testing.T) {
	for _, f := range Builtin().Units() {
		t.Run(f.Name, func(t *testing.T) {
			u := f.Unit
			assert.Equal(t, f.Name, u.Form)
			assert.NotEmpty(t, f.Summary)
			assert.Positive(t, u.Mass)
			assert.Empty(t, u.ID)
			assert.Nil(t, u.Place)
			o, b := u.Overall, u.Body
			assert.True(t, o.W >= b.W && o.D >= b.D && o.H >= b.H, "overall %v, body %v", o, b)
			for _, s := range u.Switches {
				assert.True(t, layout.Rect{X1: b.W, Y1: b.D}.Touches(s.At), "switch %s", s.Name)
				assert.LessOrEqual(t, s.Height, u.Height(), "switch %s", s.Name)
			}
			assert.NotEmpty(t, u.Jacks)
			if u.Treadle {
				require.NotNil(t, u.Sweep)
				assert.Greater(t, u.Sweep.Top, b.H, "a treadle rises above its body")
			}
			assert.Equal(t, len(u.Outputs) > 0, f.Family == SupplyFamily)
			sanePower(t, &u)
		})
	}
}

func TestEveryJackIsInItsWall(t *testing.T) {
	for _, f := range Builtin().Units() {
		ids := map[string]bool{}
		for i := range f.Unit.Jacks {
			j := &f.Unit.Jacks[i]
			name := f.Name + "/" + j.ID
			assert.False(t, ids[j.ID], "%s twice", name)
			ids[j.ID] = true
			assert.Equal(t, j.Kind, j.Plug.Kind, name)
			assert.NotEmpty(t, j.Plug.Name, name)
			long := f.Unit.Body.W
			if j.Wall == layout.Left || j.Wall == layout.Right {
				long = f.Unit.Body.D
			}
			// A jack needs metal around it: half a nut, 6 mm.
			assert.GreaterOrEqual(t, j.Along, 6*layout.Millimetre, name)
			assert.LessOrEqual(t, j.Along, long-6*layout.Millimetre, name)
			assert.GreaterOrEqual(t, j.Height, 6*layout.Millimetre, name)
			assert.LessOrEqual(t, j.Height, f.Unit.Body.H-6*layout.Millimetre, name)
		}
	}
}

// All plugs of a unit must go in at once, or the form could never be played.
func TestPlugsOfAUnitDoNotCollide(t *testing.T) {
	for _, f := range Builtin().Units() {
		boxes := f.Unit.Boxes(0, func(string) bool { return true })
		for i, a := range boxes {
			for _, b := range boxes[:i] {
				if a.Part == layout.PlugPart && b.Part == layout.PlugPart {
					assert.False(t, a.Box.Overlaps(b.Box), "%s: plugs of %s and %s", f.Name, a.Jack, b.Jack)
				}
			}
		}
	}
}

// sanePower checks that what draws can be fed, and what feeds has jacks for it.
func sanePower(t *testing.T, u *layout.Unit) {
	in := slices.ContainsFunc(u.Jacks, func(j layout.Jack) bool {
		return j.Dir == layout.In && (j.Signal == layout.Power || j.Signal == layout.Line)
	})
	assert.Equal(t, u.Draw != nil || len(u.Outputs) > 0, in, "power in")
	for _, o := range u.Outputs {
		j := u.Jack(o.Jack)
		require.NotNil(t, j, o.Jack)
		assert.Equal(t, layout.Out, j.Dir, o.Jack)
		assert.Equal(t, layout.Power, j.Signal, o.Jack)
		assert.Positive(t, o.Milliamps, o.Jack)
		assert.True(t, o.Millivolts >= 9000 && o.Millivolts <= 24000, o.Jack)
		for _, c := range o.Choices {
			assert.Greater(t, c.Millivolts, o.Millivolts, o.Jack)
			assert.LessOrEqual(t, c.Millivolts*c.Milliamps, o.Millivolts*o.Milliamps*11/10, "%s: no position gives much more power", o.Jack)
		}
	}
	if u.Expander() {
		assert.Empty(t, u.Links())
		assert.Nil(t, u.Mains)
	}
}

// Names go by size or job: plain lower-case words.
func TestNamesArePlain(t *testing.T) {
	c := Builtin()
	var all []string
	for _, f := range c.Units() {
		all = append(all, f.Name)
	}
	for _, f := range c.Plugs() {
		all = append(all, f.Name)
	}
	for _, f := range c.Boards() {
		all = append(all, f.Name)
	}
	for _, n := range append(all, names(c.fasteners)...) {
		assert.Regexp(t, `^[a-z]+(-[a-z0-9]+)*$`, n)
	}
}

func TestOrderIsStable(t *testing.T) {
	us := Builtin().Units()
	assert.True(t, slices.IsSortedFunc(us, func(a, b *UnitForm) int {
		if a.Family != b.Family {
			if a.Family == UnitFamily {
				return -1
			}
			return 1
		}
		return slices.Compare([]byte(a.Name), []byte(b.Name))
	}))
	assert.Equal(t, UnitFamily, us[0].Family)
	assert.Equal(t, SupplyFamily, us[len(us)-1].Family)
}

func TestEveryKindOfJackHasADefaultPlug(t *testing.T) {
	for _, k := range jackKinds {
		p, ok := Builtin().DefaultPlug(layout.JackKind(k))
		assert.True(t, ok, k)
		assert.Equal(t, layout.JackKind(k), p.Kind)
	}
	_, ok := Builtin().DefaultPlug("garden hose")
	assert.False(t, ok)
}

func TestBoardsHoldUnits(t *testing.T) {
	for _, f := range Builtin().Boards() {
		b := f.Board
		assert.Positive(t, b.TotalMass(), f.Name)
		assert.Positive(t, b.Density, f.Name)
		for _, s := range b.Surfaces() {
			assert.NotEmpty(t, s.RestRegions(70*layout.Millimetre, 122*layout.Millimetre), "%s: a compact unit on %s", f.Name, s.Name)
		}
	}
}

func TestTemplateSharesNothing(t *testing.T) {
	f, _ := Builtin().Unit("treadle-wah")
	u := f.Template()
	u.Jacks[0].Along++
	u.Switches[0].At.X++
	u.Draw.Milliamps++
	u.Sweep.Top++
	assert.NotEqual(t, u.Jacks[0], f.Unit.Jacks[0])
	assert.NotEqual(t, u.Switches[0], f.Unit.Switches[0])
	assert.NotEqual(t, *u.Draw, *f.Unit.Draw)
	assert.NotEqual(t, *u.Sweep, *f.Unit.Sweep)

	f, _ = Builtin().Unit("supply-eight")
	u = f.Template()
	u.Outputs[7].Choices[0].Milliamps++
	u.Mains.Volts++
	assert.NotEqual(t, u.Outputs[7], f.Unit.Outputs[7])
	assert.NotEqual(t, *u.Mains, *f.Unit.Mains)
}

package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout"
)

func ofForm(t *testing.T, name string) (layout.Unit, *layout.Unit) {
	f, ok := catalog.Builtin().Unit(name)
	require.True(t, ok)
	u := f.Template()
	u.Form, u.Label = name, name
	return u, &f.Unit
}

func jackIDs(u *layout.Unit) (out []string) {
	for _, j := range u.Jacks {
		out = append(out, j.ID)
	}
	return out
}

// Each jack of each form, taken out and put back, is as it was, with its output
// and what the unit draws by it.
func TestJacksComeBackAsTheyWere(t *testing.T) {
	for _, f := range catalog.Builtin().Units() {
		for _, j := range f.Unit.Jacks {
			u := f.Template()
			u.ID, u.Label, u.Form = "u", "u", f.Name
			p := &layout.Plan{Units: []layout.Unit{u}}
			require.NoError(t, p.RemoveJack("u", j.ID))
			assert.Equal(t, []string{j.ID}, MissingJacks(p.Unit("u"), &f.Unit), f.Name)
			require.NoError(t, RestoreJack(p.Unit("u"), j.ID, &f.Unit))
			assert.Equal(t, u, *p.Unit("u"), "%s: %s", f.Name, j.ID)
			assert.Error(t, RestoreJack(p.Unit("u"), j.ID, &f.Unit), "it is there")
		}
	}
}

// A jack that comes back to a smaller unit is on its walls.
func TestJackComesBackToASmallerUnit(t *testing.T) {
	u, form := ofForm(t, "compact")
	p := &layout.Plan{Units: []layout.Unit{u}}
	p.Units[0].ID = "u"
	require.NoError(t, p.RemoveJack("u", "in"))
	Resize(p.Unit("u"), layout.Size{W: u.Body.W, D: u.Body.D / 2, H: u.Body.H / 2}, form)
	require.NoError(t, RestoreJack(p.Unit("u"), "in", form))
	assert.LessOrEqual(t, p.Unit("u").Jack("in").Along, u.Body.D/2)
	assert.Equal(t, []string{"in", "out", "dc"}, jackIDs(p.Unit("u")))
}

func TestJackKindAndWall(t *testing.T) {
	c := catalog.Builtin()
	u, form := ofForm(t, "preamp-di")
	j := u.Jack("di")
	was := *j
	SetJackKind(j, layout.DC, form, c)
	assert.Equal(t, layout.Power, j.Signal)
	assert.Equal(t, layout.DC, j.Plug.Kind)
	SetJackKind(j, layout.XLR, form, c)
	assert.Equal(t, was, *j, "back to the form's")
	j.Leg, j.LegGiven = layout.LegLeft, true
	SetWall(j, layout.Front, form)
	assert.True(t, j.LegGiven, "it can still point to the left")
	SetWall(j, layout.Right, form)
	assert.False(t, j.LegGiven)
	assert.Contains(t, LegSides(layout.Right), j.Leg)
}

func TestUnitPassedByOtherJacks(t *testing.T) {
	audio := func(id string, d layout.Direction) layout.Jack {
		return layout.Jack{ID: id, Kind: layout.Phone, Signal: layout.Audio, Dir: d}
	}
	p := &layout.Plan{Units: []layout.Unit{
		{ID: "two", Label: "Two", Jacks: []layout.Jack{audio("left-in", layout.In), audio("left-out", layout.Out), audio("right-in", layout.In), audio("right-out", layout.Out)}},
		{ID: "loop", Label: "Loop", Jacks: []layout.Jack{audio("in", layout.In), audio("out", layout.Out), audio("send", layout.Out), audio("return", layout.In)}},
		{ID: "end", Label: "End", Jacks: []layout.Jack{audio("in", layout.In)}},
	}, Chain: layout.Chain{Stops: []layout.Stop{{Unit: layout.Instrument}, {Unit: layout.Amp}}}}
	assert.Len(t, Unpassed(p), 2)
	require.NoError(t, Join(p, "two"))
	require.NoError(t, Join(p, "loop"))
	assert.ErrorContains(t, Join(p, "end"), "no jacks for the signal to come in by and leave by")
	require.NoError(t, PassAgain(p, "two"))
	require.NoError(t, PassAgain(p, "loop"))
	assert.ErrorContains(t, PassAgain(p, "two"), "no other jacks")
	assert.ErrorContains(t, PassAgain(p, "loop"), "no other jacks")
	assert.Equal(t, []layout.Stop{{Unit: layout.Instrument}, {Unit: "two", In: "left-in", Out: "left-out"}, {Unit: "loop", In: "in", Out: "send"},
		{Unit: "two", In: "right-in", Out: "right-out"}, {Unit: "loop", In: "return", Out: "out"}, {Unit: layout.Amp}}, p.Chain.Stops)
}

// A unit that loses its form keeps its figures as its own.
func TestUnform(t *testing.T) {
	u, form := ofForm(t, "supply-eight")
	Unform(&u, catalog.Builtin())
	assert.Empty(t, u.Form)
	assert.Equal(t, form.Body, u.Body)
	assert.Equal(t, form.Outputs, u.Outputs)
	for i, j := range u.Jacks {
		usual, _ := catalog.Builtin().DefaultPlug(j.Kind)
		assert.Equal(t, usual, j.Plug)
		assert.Equal(t, form.Jacks[i].Along, j.Along)
	}
}

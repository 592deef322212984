package cards

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/plan"
	"footplank/tui/edit"
	"footplank/tui/form"
)

const mm = layout.Millimetre

func docs(t testing.TB) []*plan.Doc {
	var out []*plan.Doc
	for _, e := range plan.Examples() {
		d, err := plan.Parse(e.Name, e.Source, nil)
		require.NoError(t, err)
		out = append(out, d)
	}
	inches, err := plan.New(plan.Answers{Unit: layout.Inches, BoardW: 20 * layout.Inch, BoardD: 10 * layout.Inch, Surface: layout.Rails,
		Units: []plan.StarterUnit{{Form: "compact", Label: "Squash"}, {Form: "supply-slim"}}})
	require.NoError(t, err)
	return append(out, inches)
}

func shopOf(d *plan.Doc) Shop { return Shop{Plan: d.Plan, Forms: d.Forms()} }

// maker makes drafts as the editor does: each must be one that can be written.
func maker(d *plan.Doc) form.Maker {
	return func(change func(p *layout.Plan) error) (*layout.Plan, error) {
		draft, err := edit.Draft(d.Plan, change)
		if err != nil {
			return nil, err
		}
		c := *d
		c.Plan = draft
		_, err = c.Render()
		return draft, err
	}
}

// all returns every card of a plan: of each thing in it, and of a new one of each
// kind.
func all(t testing.TB, s Shop) map[string]*form.Form {
	p := s.Plan
	out := map[string]*form.Form{"board": s.Board(), "title": s.Title(), "limits": s.Limits(), "power": s.Power(), "cables": s.Cables(),
		"fastener": s.Fastener(), "new plan": s.NewPlan(), "new riser": s.Riser(""), "new slot": s.Slot(""), "new line-up": s.Lineup("", ""),
		"copied line-up": s.Lineup("", p.Lineups[0].Name), "new price": s.Price(""), "new part": s.Fixture(len(p.Board.Fixtures))}
	for i := range p.Units {
		u := &p.Units[i]
		out["unit "+u.ID] = s.Unit(u.ID)
		out["new jack of "+u.ID] = s.Jack(u.ID, "")
		for _, j := range u.Jacks {
			out["jack "+u.ID+"/"+j.ID] = s.Jack(u.ID, j.ID)
		}
		out["place of "+u.ID], out["sweep of "+u.ID] = s.Place(u.ID, p.Lineups[0].Name), s.Sweep(u.ID)
		for k := range len(u.Switches) + 1 {
			out[fmt.Sprint("switch ", k, " of ", u.ID)] = s.Switch(u.ID, k)
		}
		for k := range len(u.OnBase) + 1 {
			out[fmt.Sprint("base ", k, " of ", u.ID)] = s.OnBase(u.ID, k)
		}
		for k := range len(u.Outputs) + 1 {
			out[fmt.Sprint("output ", k, " of ", u.ID)] = s.Output(u.ID, k)
		}
	}
	for i, r := range p.Board.Risers {
		out[fmt.Sprint("riser ", i)] = s.Riser(r.Name)
		for k := range len(r.Legs) + 1 {
			out[fmt.Sprint("leg ", k, " of riser ", i)] = s.Leg(r.Name, k)
		}
	}
	for i := range p.Board.Rails {
		out[fmt.Sprint("rail ", i)] = s.Rail(i)
	}
	for i := range p.Board.Fixtures {
		out[fmt.Sprint("part ", i)] = s.Fixture(i)
	}
	for _, x := range p.Slots {
		out["slot "+x.Name] = s.Slot(x.Name)
	}
	for _, l := range p.Lineups {
		out["line-up "+l.Name] = s.Lineup(l.Name, "")
	}
	for i := range p.Chain.Stops {
		if f := s.Stop(i); f != nil {
			out[fmt.Sprint("stop ", i)] = f
		}
	}
	for i := range p.Chain.Links {
		out[fmt.Sprint("link ", i)] = s.Link(i)
	}
	for _, kind := range []string{"cable", "lead", "plug", "roll", "reel"} {
		out["new "+kind] = s.Owned(kind, 99)
	}
	for _, f := range s.Forms.Units() {
		c, err := s.NewUnit(f.Name)
		require.NoError(t, err)
		out["form "+f.Name] = c
	}
	return out
}

// A card that nobody touched changes nothing; one of something new can be taken
// as it is, but for a price, of which nobody can guess what it is for.
func TestCardsAsTheyAre(t *testing.T) {
	for _, d := range docs(t) {
		for name, f := range all(t, shopOf(d)) {
			f.Start(maker(d))
			_, why := f.Wrong()
			switch {
			case name == "new price":
				assert.NotEmpty(t, why)
			case f.Fresh:
				assert.Empty(t, why, "%s: %s", d.Name, name)
				assert.NotNil(t, f.Draft(), name)
			default:
				assert.Empty(t, why, "%s: %s", d.Name, name)
				assert.Nil(t, f.Draft(), "%s: %s", d.Name, name)
			}
			assert.NotEmpty(t, f.What, name)
			assert.NotEmpty(t, f.Title, name)
		}
	}
}

// hasNone reports whether a field of a card is about something that is not there:
// the volts of a unit that draws nothing, the sweep of one that sweeps nowhere, the
// place of one that stands nowhere.
func hasNone(u *layout.Unit, f *form.Form, label string) bool {
	powered := []string{"Draw, V", "up to, V", "Polarity", "Own output", "On battery", "Fed by", "Lead"}
	switch {
	case u == nil:
		return false
	case f.Name == "sweep":
		return u.Sweep == nil && label != "It sweeps"
	case f.Name == "place":
		return f.Value("Stands on") == "" && label != "Stands on"
	}
	return f.Name == "unit" && u.Draw == nil && slices.Contains(powered, label)
}

// What a field shows is what it takes: typed over with itself it changes nothing,
// where the plan is in millimetres, which tape measures show exactly here.
func TestFieldsTakeWhatTheyShow(t *testing.T) {
	for _, d := range docs(t)[:2] {
		for name, f := range all(t, shopOf(d)) {
			if f.Fresh {
				continue
			}
			for _, x := range f.Fields {
				if x.Set == nil || x.Value() == "" || x.Label == "Mass" { // which is shown to a tenth of a gram
					continue
				}
				if hasNone(d.Plan.Unit(f.Unit), f, x.Label) {
					assert.ErrorContains(t, x.Set(d.Plan.Clone(), x.Value()), "first say above", "%s: %s", name, x.Label)
					continue
				}
				draft, err := maker(d)(func(p *layout.Plan) error { return x.Set(p, x.Value()) })
				if assert.NoError(t, err, "%s: %s: %s", d.Name, name, x.Label) {
					assert.Equal(t, d.Plan, draft, "%s: %s: %s", d.Name, name, x.Label)
				}
			}
		}
	}
}

// Every option of every choice, and some odd words in every field, make a plan
// that can be written, or say why not beside the field.
func TestWhateverIsFilledIn(t *testing.T) {
	words := []string{"", "0", "-5", "12", "1/2", "7 1/2in", "2000", "90", "shelf", "弓", "nonsense \x1b[31m", "€4", "350g", "IE", "in, out"}
	d := docs(t)[1] // the smallest example
	good, bad := 0, 0
	s := shopOf(d)
	u := &d.Plan.Units[0]
	for _, f := range []*form.Form{s.Board(), s.Unit(u.ID), s.Jack(u.ID, u.Jacks[0].ID), s.Slot(""), s.Riser(""), s.Limits(), s.Power(), s.Cables(), s.Owned("cable", 9), s.Price("")} {
		for _, x := range f.Fields {
			if x.Set == nil {
				continue
			}
			values := words
			if x.Kind == form.Choice {
				values = nil
				for _, o := range x.Options {
					values = append(values, o.Value)
				}
			}
			for _, v := range values {
				was := x.Value()
				f.Start(maker(d))
				f.PutAll(map[string]string{x.Label: v})
				if _, why := f.Wrong(); why != "" {
					bad++
				} else {
					good++
				}
				x.With(was)
			}
		}
	}
	assert.Greater(t, good, 100)
	assert.Greater(t, bad, 100)
}

func TestUnitByTapeMeasure(t *testing.T) {
	d := docs(t)[0]
	f := shopOf(d).Unit("tuner").Start(maker(d))
	f.PutAll(map[string]string{"Width": "30", "Depth": "60", "Draw, mA": "45", "Turns": "0 90", "Price": "€49", "Name in the file": "watch"})
	_, why := f.Wrong()
	require.Empty(t, why)
	u := f.Draft().Unit("watch")
	require.NotNil(t, u)
	assert.Equal(t, layout.Size{W: 30 * mm, D: 60 * mm, H: d.Plan.Unit("tuner").Body.H}, u.Body)
	assert.Equal(t, 45, u.Draw.Milliamps)
	assert.Equal(t, []layout.Turn{0, 1}, u.Turns)
	assert.Equal(t, "€49", f.Draft().Prices["watch"].String())
	for _, j := range u.Jacks {
		long := u.Body.W
		if j.Wall == layout.Left || j.Wall == layout.Right {
			long = u.Body.D
		}
		assert.LessOrEqual(t, j.Along, long, "jacks stay on the walls")
	}
	assert.Equal(t, 1, edit.StopAt(f.Draft(), "watch"), "the chain knows it by its new name")
}

func TestManyOfAForm(t *testing.T) {
	d := docs(t)[3]
	f, err := shopOf(d).NewUnit("compact")
	require.NoError(t, err)
	f.Start(maker(d))
	f.PutAll(map[string]string{"Label": "Drive", "How many": "3", "Mount": "swap"})
	var labels []string
	for _, u := range f.Draft().Units {
		labels = append(labels, u.Label)
	}
	assert.Equal(t, []string{"Squash", "supply-slim", "Drive", "Drive 2", "Drive 3"}, labels)
	assert.Len(t, f.Draft().Chain.Stops, 6)
	assert.Equal(t, layout.Swap, f.Draft().Units[4].Mount)
}

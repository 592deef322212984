package cards

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/plan"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// everyKey is the plan of README.md that has every key there is.
func everyKey(t testing.TB) *plan.Doc {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, src, ok := strings.Cut(string(text), "```toml\ntitle       = \"Every key there is\"")
	require.True(t, ok)
	src, _, _ = strings.Cut(src, "```")
	d, err := plan.Parse("README.md", []byte("title = \"Every key there is\""+src), nil)
	require.NoError(t, err)
	return d
}

// filler fills cards in, one after the other, each on the plan that the one before
// made.
type filler struct {
	t *testing.T
	d *plan.Doc
}

func (p *filler) shop() Shop { return Shop{Plan: p.d.Plan, Forms: p.d.Forms()} }

// fill fills fields of a card in by their labels and takes it.
func (p *filler) fill(f *form.Form, pairs ...string) *filler {
	p.t.Helper()
	require.NotNil(p.t, f)
	values := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		found := 0
		for _, x := range f.Fields {
			if x.Label == pairs[i] && x.Set != nil {
				found++
			}
		}
		require.Equal(p.t, 1, found, "%s has fields %q", f.Title, pairs[i])
		values[pairs[i]] = pairs[i+1]
	}
	f.Start(maker(p.d))
	f.PutAll(values)
	_, why := f.Wrong()
	require.Empty(p.t, why, "%s: %q", f.Title, pairs)
	if draft := f.Draft(); draft != nil {
		p.d.Plan = draft
	}
	return p
}

// do makes a step that a list makes.
func (p *filler) do(change func(p *layout.Plan) error) *filler {
	p.t.Helper()
	draft, err := maker(p.d)(change)
	require.NoError(p.t, err)
	p.d.Plan = draft
	return p
}

func (p *filler) unit(form, label, name string, pairs ...string) {
	p.t.Helper()
	f, err := p.shop().NewUnit(form)
	require.NoError(p.t, err)
	p.fill(f, "Label", label, "In the chain", "no")
	id := p.d.Plan.Units[len(p.d.Plan.Units)-1].ID
	if p.d.Plan.Unit(name) == nil {
		p.fill(p.shop().Unit(id), "Name in the file", name)
	}
	p.fill(p.shop().Unit(name), pairs...)
}

// Whatever a plan file can say can be filled in: a new board becomes the plan that
// has every key, by cards and the steps of lists alone.
func TestEveryKeyCanBeFilledIn(t *testing.T) {
	want := everyKey(t)
	d, err := plan.New(plan.Answers{BoardW: 400 * mm, BoardD: 200 * mm})
	require.NoError(t, err)
	p := &filler{t, d}
	p.board()
	p.preamp()
	p.rocker()
	p.supply()
	p.gigs()
	p.rules()
	require.Equal(t, want.Plan, p.d.Plan)
}

func (p *filler) board() {
	p.t.Helper()
	p.fill(p.shop().Title(), "Title", "Every key there is")
	p.fill(p.shop().Board(), "Width", "560", "Depth", "330", "Mass as weighed", "2.6kg", "Feet, in from edge", "12", "left", "15",
		"plugs left", "40", "plugs right", "70", "plugs back", "60", "Price", "€60", "Owned", "yes",
		"inside width", "640", "inside depth", "372", "inside height", "150")
	p.fill(p.shop().Board(), "name of the case", "flight case", "mass of the case", "4.6kg", "of it below the top", "25")
	p.fill(p.shop().Riser(""), "Name", "shelf", FromLeft, "105", FromFront, "150", "Width", "400", "Depth", "180", "Height of its top", "55",
		"Thickness", "9", "Material", "", "front", "10")
	p.fill(p.shop().Leg("shelf", 0), "Width", "9")
	p.fill(p.shop().Fixture(0), "Name", "handle", FromLeft, "0", FromFront, "300", "Width", "20", "Depth", "30", "From height", "0", "Height of its top", "25")
}

func (p *filler) preamp() {
	p.t.Helper()
	p.unit("preamp-di", "Fiddle Front", "preamp", "Mount", "fixed", "Pinned", "yes", "Surfaces", "deck, shelf", "Turns", "0, 90", "Worked", "1",
		"Also in use", "thru", "Mass", "12oz", "To buy", "yes", "Price", "€249.90", "Draw, mA", "100", "Draw, V", "9", "up to, V", "18", "Polarity", "-",
		"Own output", "yes", "On battery", "no", "Lead", "plain")
	p.fill(p.shop().Place("preamp", "all"), "Stands on", "deck", FromLeft, "20", FromFront, "20")
	p.fill(p.shop().Jack("preamp", "in"), "Plug", "phone-straight")
}

func (p *filler) rocker() {
	p.t.Helper()
	p.unit(NoForm, "rocker", "rocker", "Width", "100", "Depth", "250", "Height", "60", "Height, knobs too", "75", "Mass", "1.3kg", "Treadle", "yes", "Buffer", "no")
	p.fill(p.shop().Sweep("rocker"), "It sweeps", "yes", "Past its back", "5", "From height", "40", "To height", "110")
	p.fill(p.shop().Jack("rocker", "in"), "Wall", "right", "Along the wall", "220", "Height", "25", "Plug", "phone-right-angle", "Its leg points", "back",
		"Kind", "phone", "Signal", "audio", "Direction", "in")
	p.fill(p.shop().Jack("rocker", "out"), "Along the wall", "220", "Height", "30")
	p.fill(p.shop().Switch("rocker", 0), "Name", "toe", fromItsLeft, "50", fromItsFront, "230", "Height", "60")
	p.fill(p.shop().OnBase("rocker", 0), "What", "foot", fromItsLeft, "5", fromItsFront, "5", "Width", "12", "Depth", "12")
}

func (p *filler) supply() {
	p.t.Helper()
	f, err := p.shop().NewUnit("supply-slim")
	require.NoError(p.t, err)
	p.fill(f, "Label", "power")
	p.fill(p.shop().Unit("supply-slim"), "Name in the file", "power", "Surfaces", "deck", "In all, watts", "30", "Mains, V", "100", "mains up to, V", "240", "Mains, Hz", "50", "mains up to, Hz", "60")
	for _, jack := range []string{"out4", "out5"} {
		p.do(func(q *layout.Plan) error { return q.RemoveJack("power", jack) })
	}
	p.fill(p.shop().Output("power", 0), "Gives, V", "9", "Most, mA", "300", "Ground", "own", "Polarity", "-", "Other positions", "12 V 200 mA, 18 V 100 mA", "A link", "no")
	p.fill(p.shop().Output("power", 1), "up to, V", "18", "Most, mA", "250", "Ground", "shared", "Group", "b")
	p.fill(p.shop().Output("power", 2), "Gives, V", "24", "Most, mA", "1000", "Ground", "shared", "A link", "yes")
	p.fill(p.shop().Unit("preamp"), "Fed by", "power/out1")
}

func (p *filler) gigs() {
	p.t.Helper()
	p.unit("compact", "squash", "squash")
	p.unit("mini", "rasp", "rasp")
	p.fill(p.shop().Slot(""), "Name", "colour", "Surface", "deck", FromLeft, "322", FromFront, "0", "Width", "238", "Depth", "5 1/2in")
	p.fill(p.shop().Lineup("all", ""), "Name", "barn").fill(p.shop().Lineup("", ""), "Name", "quiet")
	for i, id := range []string{"squash", "rasp"} {
		p.do(func(q *layout.Plan) error { return edit.Fill(q, "barn", "colour", id, true, i) })
	}
	p.do(func(q *layout.Plan) error { return edit.Fill(q, "quiet", "colour", "squash", true, 0) })
	p.fill(p.shop().Place("squash", "barn"), "Stands on", "deck", FromLeft, "350", FromFront, "10", "Turned", "0")

	p.do(func(q *layout.Plan) error { return edit.Join(q, "preamp") }).do(func(q *layout.Plan) error { return edit.Join(q, "rocker") })
	p.do(func(q *layout.Plan) error { return edit.PassAgain(q, "preamp") })
	p.do(func(q *layout.Plan) error { edit.SetEnd(q, layout.Desk); return nil })
	at := map[string]int{}
	for i, s := range p.d.Plan.Chain.Stops {
		at[s.Slot+s.Unit+s.In] = i
	}
	p.fill(p.shop().Stop(at["preampreturn"]), "Leaves by", "di")
	for p.d.Plan.Chain.Stops[2].Slot == "" {
		p.do(func(q *layout.Plan) error { _, err := edit.MoveStop(q, at["colour"], 2-at["colour"]); return err })
	}
	p.fill(p.shop().Link(0), "From", "preamp/out", "To", layout.Amp)
}

func (p *filler) rules() {
	p.t.Helper()
	p.fill(p.shop().Limits(), "Most mass", "16kg", "Between switches", "72", "Step over", "40", "Force of a foot, N", "300")
	p.fill(p.shop().Power(), "Sharing", "no", "Headroom, percent", "20", "Tour", "IE, JP")
	p.fill(p.shop().Cables(), "Reel", "5000", "Instrument cable", "3000", "Cable to the amp", "6000", "Diameter", "4", "Capacity, pF per m", "98")
	p.fill(p.shop().Fastener(), "Fixed units", "interlock-250-250", "Swap units", "hook-and-loop", "Units carry", "loop", "Margin", "4", "Jerk, g", "5")
	p.fill(p.shop().Owned("reel", 0), "Patch cable left", "3000")
	p.fill(p.shop().Owned("cable", 0), "Length", "300", "How many", "4", "One end", "phone-flat", "Other end", "phone-flat", "What you call them", "the red ones")
	p.fill(p.shop().Owned("lead", 0), "Length", "600", "How many", "2", "Reversing", "yes")
	p.fill(p.shop().Owned("plug", 0), "Plug", "phone-right-angle", "How many", "2")
	p.fill(p.shop().Owned("roll", 0), "Kind", "interlock", "Width", "25", "Length", "1000")
	for _, x := range [][2]string{{"phone-right-angle", "€3.80"}, {"cable 30cm", "€7.50"}, {"lead 60cm", "€3"}, {"interlock 25mm", "€6.40"}} {
		p.fill(p.shop().Price(""), "What", x[0], "Price", x[1])
	}
}

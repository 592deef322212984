package sheet

import (
	"bytes"
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

func wiringText(t testing.TB, p *layout.Plan) []byte {
	var b bytes.Buffer
	require.NoError(t, NewWiring(p).Text(&b, 0))
	return b.Bytes()
}

// twoGigs is a small plan whose cables have one way to lie, so that what is
// written about them does not hang on how a router chooses.
func twoGigs() *layout.Plan {
	p := quiet()
	p.Board.W = 500 * mm
	p.Units[0].Buffer = true
	p.Units[2] = at(p.Units[2], "deck", 258, 20, 0)
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "rasp"}, {Slot: "spares"}, {Unit: "octave"}, {Unit: layout.Amp}}
	p.Lineups = []layout.Lineup{
		{Name: "loud", Fill: map[string][]string{"spares": {"spare"}}, Place: map[string]layout.Placement{
			"rasp": {On: layout.DeckName, At: layout.Point{X: 360 * mm, Y: 20 * mm}}}},
		{Name: "soft", Fill: map[string][]string{}},
	}
	return p
}

func TestWiringText(t *testing.T) {
	unplaced, inches := twoGigs(), twoGigs()
	unplaced.Unit("octave").Place = nil
	inches.LengthUnit = layout.Inches
	for name, p := range map[string]*layout.Plan{"mm": twoGigs(), "inches": inches, "unplaced": unplaced} {
		t.Run(name, func(t *testing.T) { golden.RequireEqual(t, wiringText(t, p)) })
	}
	for _, s := range strings.Split(string(wiringText(t, dense())), "\n") {
		assert.LessOrEqual(t, width(s), PageWidth, "%q", s)
	}
}

// TestWiringJSON reads the JSON back and checks that what it says hangs
// together: every cable on the board has one of the kit with its plugs, long
// enough, and the reels hold the whole kit.
func TestWiringJSON(t *testing.T) {
	p := dense()
	w := NewWiring(p)
	var b bytes.Buffer
	require.NoError(t, w.JSON(&b))
	assert.NotContains(t, b.String(), "null")
	var got Wiring
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	assert.Equal(t, "footplank/wiring/1", got.Schema)
	kit := map[string]WiringKit{}
	for _, k := range got.Kit {
		kit[k.ID] = k
	}
	for _, l := range got.Lineups {
		sum := 0.0
		for _, c := range l.Cables {
			if c.Cut == 0 {
				assert.Empty(t, c.Kit)
				continue
			}
			k := kit[c.Kit]
			assert.GreaterOrEqual(t, k.Cut, c.Cut)
			assert.Equal(t, [2]string{min(c.FromPlug, c.ToPlug), max(c.FromPlug, c.ToPlug)}, k.Plugs)
			assert.Contains(t, k.Uses, KitUse{l.Name, c.ID, c.From, c.To})
			assert.Contains(t, k.UsedIn, l.Name)
			sum += c.Run
		}
		assert.InDelta(t, l.Cable, sum, 1e-6)
	}
	var cut []string
	for _, r := range got.Reels.List {
		left := got.Reels.Length
		for _, id := range r.Kit {
			left -= kit[id].Cut
			cut = append(cut, id)
		}
		assert.InDelta(t, r.Left, left, 1e-6)
	}
	assert.Len(t, cut, len(got.Kit))
	slices.Sort(cut)
	assert.Len(t, slices.Compact(cut), len(got.Kit))
}

func TestWiringIsFaulty(t *testing.T) {
	p := dense()
	assert.False(t, NewWiring(p).Faulty())
	p.Chain.Stops = slices.Clone(p.Chain.Stops)
	p.Chain.Links = append(slices.Clone(p.Chain.Links), p.ChainLinks(&p.Lineups[0])[1])
	assert.True(t, NewWiring(p).Faulty())
}

// TestReportTakesItsCablesFromTheKit: the report and the wiring say the same.
func TestReportTakesItsCablesFromTheKit(t *testing.T) {
	p := dense()
	r, w := NewReport(p), NewWiring(p)
	require.Len(t, r.Kit, len(w.Kit))
	for i, k := range r.Kit {
		assert.Equal(t, w.Kit[i].KitCable, k)
	}
	for i, l := range r.Lineups {
		require.NotEmpty(t, l.Cables)
		for k, c := range l.Cables {
			assert.Equal(t, w.Lineups[i].Cables[k].Cable, c)
			assert.Equal(t, c.Kit == "", c.Cut == 0)
			assert.False(t, math.IsNaN(c.Run))
		}
		assert.Equal(t, w.Lineups[i].Cable, l.Totals.Cable)
	}
}

func BenchmarkWiring(b *testing.B) {
	p := dense()
	for b.Loop() {
		NewWiring(p)
	}
}

// Whoever adds up the runs that a line-up's table shows, of the cables that stay on
// the board, gets what stands beneath it.
func TestRunsAddUpToWhatIsShown(t *testing.T) {
	inches := dense()
	inches.LengthUnit = layout.Inches
	for _, p := range []*layout.Plan{dense(), inches} {
		var sum layout.Length
		tables := 0
		for _, line := range strings.Split(string(wiringText(t, p)), "\n") {
			cells := regexp.MustCompile(` {2,}`).Split(strings.TrimSpace(line), -1)
			if total, _, ok := strings.Cut(strings.TrimPrefix(line, "  In all "), " on the board,"); ok {
				want, err := layout.ParseLength(total, p.Measure())
				require.NoError(t, err)
				assert.Equal(t, want, sum, "%s", line)
				if sum > 0 {
					tables++
				}
				sum = 0
			}
			if len(cells) > 5 && cells[0] != "Cable" && cells[4] != "-" {
				run, err := layout.ParseLength(cells[3], p.Measure())
				require.NoError(t, err, "%q", line)
				sum += run
			}
		}
		assert.Positive(t, tables)
	}
}

package sheet

import (
	"bytes"
	"cmp"
	"encoding/json"
	"math"
	"slices"
	"sort"
	"strings"
	"testing"

	"footplank/layout"
	"footplank/layout/cases"
	"footplank/layout/check"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func reportJSON(t testing.TB, r *Report) map[string]any {
	var b bytes.Buffer
	require.NoError(t, r.JSON(&b))
	var out map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	return out
}

// The names that readers of the report rely on, level by level: exactly these
// and no others. A list's elements are under its name.
var schema = map[string]string{
	"":                    "schema title board lineups fasteners fastener_strips fastener_bases fastener_rolls kit",
	"board":               "width_mm depth_mm mass_g overhang_mm surfaces obstacles slots",
	"board/overhang_mm":   "front back left right",
	"board/surfaces":      "name x_mm y_mm z_mm width_mm depth_mm thickness_mm",
	"board/obstacles":     "name box",
	"board/slots":         "name on x_mm y_mm width_mm depth_mm",
	"lineups":             "name verdict units cables leads findings totals",
	"lineups/units":       "id label form mount pinned on x_mm y_mm turn mass_g boxes",
	"lineups/units/boxes": "part jack box",
	"lineups/cables":      "id from to path_mm run_mm cut_mm stock_mm kit",
	"lineups/cables/from": "unit jack",
	"lineups/cables/to":   "unit jack",
	"lineups/leads":       "id supply output unit volts milliamps limit_ma path_mm run_mm cut_mm drop_v",
	"lineups/findings":    "code level units text measured limit unit",
	"lineups/totals":      "mass_g draw_ma cable_mm centre_of_mass_mm",
	"fasteners":           "unit lineup kind on_board under_unit board_side unit_side strip",
	"fastener_strips":     "kind side surface at roll_mm cut_mm units",
	"fastener_bases":      "unit kind side at roll_mm cut_mm",
	"fastener_rolls":      "kind side width_mm board_mm units_mm buy cuts",
	"fastener_rolls/cuts": "length_mm owned cuts_mm",
	"kit":                 "id cut_mm stock_mm used_in",
}

// walk compares the names of every object with the schema, finds null lists and
// numbers with more than three decimals, and notes which levels it saw.
func walk(t *testing.T, at string, v any, seen map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		seen[at] = true
		var names []string
		for k, e := range v {
			names = append(names, k)
			walk(t, strings.TrimPrefix(at+"/"+k, "/"), e, seen)
		}
		want := strings.Fields(schema[at])
		sort.Strings(want)
		sort.Strings(names)
		assert.Equal(t, want, names, "names at %q", at)
	case []any:
		for _, e := range v {
			walk(t, at, e, seen)
		}
	case float64:
		assert.InDelta(t, math.Round(v*1000), v*1000, 1e-6, "at %q", at)
	case nil:
		assert.Contains(t, []string{"lineups/units/on", "lineups/units/x_mm", "lineups/units/y_mm", "lineups/units/turn"}, at, "null")
	}
}

func TestReportHasTheNamesOfItsSchema(t *testing.T) {
	p := dense()
	p.Unit("octave").Place.At.X += 333 * layout.Micrometre // into the looper's plug
	p.Unit("split").Place = nil
	r := NewReport(p)
	r.Lineups[0].Leads = append(r.Lineups[0].Leads, Lead{Path: [][3]float64{{1, 2, 3}}})
	seen := map[string]bool{}
	walk(t, "", reportJSON(t, r), seen)
	for level := range schema {
		assert.True(t, seen[level], "the report shows nothing at %q", level)
	}
}

func TestReportValues(t *testing.T) {
	p := dense()
	p.Unit("split").Place = nil
	r := NewReport(p)
	assert.Equal(t, "footplank/report/1", r.Schema)
	// 560 x 330 x 15 mm and 450 x 125 x 9 mm of birch plywood at 685 kg/m3,
	// and the shelf's two end panels, 9 x 125 x 46 mm.
	assert.InDelta(t, 685e-6*(560*330*15+450*125*9+2*9*125*46), r.Board.Mass, 0.01)
	require.Len(t, r.Lineups, 2)
	barn := r.Lineups[0]
	assert.Equal(t, "unplaced", barn.Verdict)
	assert.Equal(t, "fits", NewReport(dense()).Lineups[0].Verdict)
	split := barn.Units[slices.IndexFunc(barn.Units, func(u Unit) bool { return u.ID == "split" })]
	assert.Nil(t, split.X)
	assert.Empty(t, split.Boxes)
	squash := barn.Units[slices.IndexFunc(barn.Units, func(u Unit) bool { return u.ID == "squash" })]
	assert.Equal(t, 482.0, *squash.X)
	assert.Equal(t, [6]float64{482, 5, 0, 548, 127, 44}, squash.Boxes[0].Box)
	assert.Equal(t, 11*20, barn.Totals.Draw)
	assert.InDelta(t, r.Board.Mass+13*400, barn.Totals.Mass, 0.01)
	r.SetVerdict("pit", "undecided")
	assert.Equal(t, "undecided", r.Lineups[1].Verdict)
	assert.Equal(t, "unplaced", r.Lineups[0].Verdict)
}

// Plain code on the printed numbers, sharing nothing with the checks: where
// they find no collision, no boxes of two units of a line-up overlap.
func TestBoxesOverlapOnlyWithAFinding(t *testing.T) {
	free, hit := 0, 0
	cases.Fewer(t, 40, func(t *rapid.T) {
		p := dense()
		for _, id := range rapid.SliceOfN(rapid.SampledFrom([]string{"octave", "loop", "squash", "rasp", "echo", "tuner", "swell"}), 0, 2).Draw(t, "moved") {
			u := p.Unit(id)
			u.Place.At.X += layout.Length(rapid.Int64Range(-20_000, 20_000).Draw(t, "dx"))
			u.Place.At.Y += layout.Length(rapid.Int64Range(-20_000, 20_000).Draw(t, "dy"))
		}
		for _, l := range NewReport(p).Lineups {
			found := slices.ContainsFunc(l.Findings, func(f Finding) bool { return f.Code == check.Collision })
			if found {
				hit++
				continue
			}
			free++
			for i, a := range l.Units {
				for _, b := range l.Units[:i] {
					for _, x := range a.Boxes {
						for _, y := range b.Boxes {
							if overlap(x.Box, y.Box) {
								t.Fatalf("%s: %s %v and %s %v overlap without a finding", l.Name, a.ID, x, b.ID, y)
							}
						}
					}
				}
			}
		}
	})
	assert.Positive(t, free)
	assert.Positive(t, hit)
}

func overlap(a, b [6]float64) bool {
	for i := 0; i < 3; i++ {
		if a[i] >= b[i+3] || b[i] >= a[i+3] {
			return false
		}
	}
	return true
}

func TestReportIsTheSameEachTime(t *testing.T) {
	var a, b bytes.Buffer
	require.NoError(t, NewReport(dense()).JSON(&a))
	require.NoError(t, NewReport(dense()).JSON(&b))
	assert.Equal(t, a.String(), b.String())
}

func TestReportJSON(t *testing.T) {
	r := NewReport(quiet())
	var b bytes.Buffer
	require.NoError(t, r.JSON(&b))
	golden.RequireEqual(t, b.String())
}

// quiet is a small plan without findings, so that what is written about it
// does not hang on the wording of the checks.
func quiet() *layout.Plan {
	p := dense()
	p.Title = "Two and a spare"
	p.Board.Risers, p.Slots = nil, nil
	p.Board.W, p.Board.D = 300*mm, 200*mm
	p.Units = []layout.Unit{
		at(box("rasp", "Rasp <overdrive> & friends", 60, 112, 31, layout.Swap, 1), "deck", 175, 20, 0),
		at(pinned(box("octave", "Octave", 70, 120, 55, layout.Fixed, 1)), "deck", 20, 30, 1),
		box("spare", "Спутник", 40, 90, 30, layout.Swap, 1),
	}
	p.Units[1].Turns = []layout.Turn{1}
	p.Units[2].Mass = 200 * layout.Gram // as much as so small a base holds
	p.Units[0].Buffer = true
	for i := range p.Units {
		p.Units[i].Draw = nil
	}
	p.Chain.Stops = []layout.Stop{{Unit: layout.Instrument}, {Unit: "rasp"}, {Unit: "octave"}, {Unit: layout.Amp}}
	p.Lineups = []layout.Lineup{{Name: "all", Fill: map[string][]string{}}}
	p.Slots = []layout.Slot{{Name: "spares", On: "deck", At: layout.Rect{X0: 250 * mm, X1: 300 * mm, Y1: 150 * mm}}}
	p.Lineups[0].Fill["spares"] = []string{"spare"}
	p.Lineups[0].Place = map[string]layout.Placement{"spare": {On: "deck", At: layout.Point{X: 258 * mm, Y: 20 * mm}}}
	return p
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		name  string
		write func(b *bytes.Buffer, r *Report) error
		unit  layout.LengthUnit
	}{
		{"mm", func(b *bytes.Buffer, r *Report) error { return Text(b, r, 0) }, layout.Millimetres},
		{"inches", func(b *bytes.Buffer, r *Report) error { return Text(b, r, 0) }, layout.Inches},
		{"ascii", func(b *bytes.Buffer, r *Report) error { return TextASCII(b, r, 0) }, layout.Millimetres},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := quiet()
			p.LengthUnit = c.unit
			var b bytes.Buffer
			require.NoError(t, c.write(&b, NewReport(p)))
			golden.RequireEqual(t, b.String())
		})
	}
}

// Whatever the plan says of a board up to 5 m wide, no line of text is wider
// than the page, nor than the columns asked for.
func TestTextFitsThePage(t *testing.T) {
	cases.Fewer(t, 25, func(t *rapid.T) {
		p := anyPlan(t, 5000*mm)
		p.Title = rapid.String().Draw(t, "title")
		cols := rapid.IntRange(59, 160).Draw(t, "columns")
		if cols < 60 {
			cols = 0
		}
		for _, write := range []func(*bytes.Buffer) error{
			func(b *bytes.Buffer) error { return Text(b, NewReport(p), cols) },
			func(b *bytes.Buffer) error { return Placement(b, p, "txt", cols) },
			func(b *bytes.Buffer) error { return NewWiring(p).Text(b, cols) },
		} {
			var b bytes.Buffer
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
			for _, s := range strings.Split(b.String(), "\n") {
				if width(s) > cmp.Or(cols, PageWidth) {
					t.Fatalf("%d cells wide instead of %d: %q", width(s), cols, s)
				}
				if strings.ContainsAny(s, "\x1b\r\t") || strings.HasSuffix(s, " ") {
					t.Fatalf("control character or trailing space in %q", s)
				}
			}
		}
	})
}

func BenchmarkReport(b *testing.B) {
	p := dense()
	for b.Loop() {
		NewReport(p)
	}
}

// The golden files of the quiet plan rely on it: nothing but the spare unit, to
// which no cable goes.
func TestQuietPlanHasOneNote(t *testing.T) {
	found := NewReport(quiet()).Lineups[0].Findings
	require.Len(t, found, 1)
	assert.Equal(t, check.NoCable, found[0].Code)
}

package sheet

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/cases"
	"footplank/layout/power"
)

func TestPowerJSON(t *testing.T) {
	w, err := NewPower(dense())
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, w.JSON(&b))
	assert.NotContains(t, b.String(), "null")
	var back Power
	require.NoError(t, json.Unmarshal(b.Bytes(), &back))
	back.plan = w.plan
	assert.Equal(t, *w, back)
	assert.Equal(t, power.Holds, w.Verdict)
	require.Len(t, w.Lineups, 2)
	assert.Len(t, w.Lineups[0].Leads, 11, "eleven units draw")
	assert.False(t, w.Faulty())
}

// The report's leads are those of the map.
func TestReportHasTheLeads(t *testing.T) {
	p := dense()
	w, err := NewPower(p)
	require.NoError(t, err)
	r := NewReport(p)
	for i, l := range w.Lineups {
		for j, d := range l.Leads {
			assert.Equal(t, d.Lead, r.Lineups[i].Leads[j])
			assert.Positive(t, d.Run)
			assert.NotEmpty(t, d.Path)
			assert.LessOrEqual(t, d.Milliamps, d.Limit)
		}
	}
}

func TestPowerTextFitsThePage(t *testing.T) {
	cases.Fewer(t, 40, func(t *rapid.T) {
		p := dense()
		for i := range p.Units {
			u := &p.Units[i]
			u.Label = rapid.SampledFrom([]string{u.Label, "日本語 ラベル ラベル", strings.Repeat("wide ", 12)}).Draw(t, "label")
			if u.Draw != nil {
				d := *u.Draw
				d.CentrePositive = rapid.IntRange(0, 6).Draw(t, "polarity") == 0
				d.AC = rapid.IntRange(0, 9).Draw(t, "ac") == 0
				u.Draw = &d
			}
		}
		p.LengthUnit = rapid.SampledFrom([]layout.LengthUnit{layout.Millimetres, layout.Inches}).Draw(t, "unit")
		p.Power.Tour = []string{"IE", "JP", "ZZ"}
		w, err := NewPower(p)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := w.Text(&b, 0); err != nil {
			t.Fatal(err)
		}
		for _, s := range strings.Split(b.String(), "\n") {
			if width(s) > PageWidth || strings.HasSuffix(s, " ") {
				t.Fatalf("%d cells: %q", width(s), s)
			}
		}
	})
}

// A bar is full at the rating and never empty under a load.
func TestBar(t *testing.T) {
	for _, c := range []struct {
		load, limit float64
		want        string
	}{{0, 100, "[......]"}, {1, 100, "[#.....]"}, {50, 100, "[###...]"}, {100, 100, "[######]"}, {300, 100, "[######]"}, {5, 0, "[#.....]"}} {
		assert.Equal(t, c.want, bar(c.load, c.limit))
	}
}

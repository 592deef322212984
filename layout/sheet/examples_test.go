package sheet

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/check"
	"footplank/layout/mount"
	"footplank/layout/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// arranged returns the examples that come with the program, each arranged as
// far as it can be. What the arranger answers may change as it gets better, so
// these are measured and not compared with golden files.
func arranged(t *testing.T) map[string]*layout.Plan {
	out := map[string]*layout.Plan{}
	for _, e := range plan.Examples() {
		d, err := plan.Parse(e.Name+".toml", e.Source, catalog.Builtin())
		require.NoError(t, err)
		ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
		r, err := arrange.Arrange(ctx, d.Plan, arrange.Options{Seed: 1, FirstFit: true})
		cancel()
		require.NoError(t, err)
		out[e.Name] = d.Plan
		if r.Plan != nil {
			out[e.Name] = r.Plan
		}
	}
	return out
}

func TestSheetsOfTheExamples(t *testing.T) {
	for name, p := range arranged(t) {
		t.Run(name, func(t *testing.T) {
			r := NewReport(p)
			for i, l := range r.Lineups {
				if name == plan.BuiltinExample {
					assert.Equal(t, check.Fits, l.Verdict, l.Name)
				}
				apart(t, &l)
				everyUnitIsDrawn(t, p, &p.Lineups[i])
			}
			for _, m := range mount.Lay(p).Pieces {
				u := p.Unit(m.Unit)
				at, ok := p.PlaceOf(lineupOf(p, m.Lineup), u)
				require.True(t, ok)
				s, _ := p.Board.Surface(m.Surface)
				assert.True(t, u.Base(at).Contains(m.OnBoard), "%s: %v", m.Unit, m.OnBoard)
				assert.True(t, s.At.Contains(m.OnBoard), "%s: %v", m.Unit, m.OnBoard)
				assert.True(t, layout.Rect{X1: u.Body.W, Y1: u.Body.D}.Contains(m.UnderUnit), "%s: %v", m.Unit, m.UnderUnit)
			}
			var b bytes.Buffer
			require.NoError(t, Text(&b, r, 0))
			for _, s := range strings.Split(b.String(), "\n") {
				assert.LessOrEqual(t, width(s), PageWidth, s)
			}
		})
	}
}

// apart checks that no boxes of two units of a line-up overlap.
func apart(t *testing.T, l *Lineup) {
	for i, a := range l.Units {
		for _, b := range l.Units[:i] {
			for _, x := range a.Boxes {
				for _, y := range b.Boxes {
					assert.False(t, overlap(x.Box, y.Box), "%s: %s %v and %s %v overlap", l.Name, a.ID, x, b.ID, y)
				}
			}
		}
	}
}

// everyUnitIsDrawn checks that each placed unit of the line-up has cells, and
// one that is not beneath a riser its label too, at 80 x 24 and at 200 x 60.
func everyUnitIsDrawn(t *testing.T, p *layout.Plan, l *layout.Lineup) {
	placed, _ := p.Standings(l)
	a := artist{p: p}
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		cells, labels := map[string]int{}, map[string]int{}
		v := View{Cols: size[0], Rows: size[1], Lineup: l.Name, Plugs: true, Switches: true, Cables: true, Slots: true}
		for _, c := range Draw(p, v).Cells {
			cells[c.Unit]++
			if c.Mark == Label {
				labels[c.Unit]++
			}
		}
		for i := range placed {
			id := placed[i].Unit.ID
			assert.Positive(t, cells[id], "%s has no cell at %v", id, size)
			if !a.beneath(&placed[i]) {
				assert.Positive(t, labels[id], "%s has no label at %v", id, size)
			}
		}
	}
}

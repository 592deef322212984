package plan

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// seeds adds the examples, and the plans of testdata/seeds, right and wrong.
func seeds(f *testing.F) {
	for _, e := range Examples() {
		f.Add(e.Source)
	}
	for _, m := range manners {
		f.Add([]byte(written("in", m.octave, m.barn)))
	}
	f.Add([]byte(small))
	files, err := filepath.Glob(filepath.Join("testdata", "seeds", "*.toml"))
	require.NoError(f, err)
	require.NotEmpty(f, files)
	for _, name := range append(files, filepath.Join("testdata", "all-wrong.toml")) {
		src, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(src)
	}
}

// No text makes the reader panic; what it takes it can write back as it is.
func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		d, err := Parse("p", src, nil)
		if err != nil {
			require.IsType(t, Errors{}, err)
			require.NotEmpty(t, err.Error())
			for _, e := range err.(Errors) {
				require.LessOrEqual(t, e.Line, bytes.Count(src, []byte("\n"))+1)
			}
			return
		}
		require.False(t, d.Dirty())
		same, err := d.Render()
		require.NoError(t, err)
		require.Equal(t, src, same)
	})
}

// Whatever way a plan is written, a unit that moves is written where it is.
func FuzzMove(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		d, err := Parse("p", src, nil)
		if err != nil {
			return
		}
		for i := range d.Plan.Lineups {
			l := &d.Plan.Lineups[i]
			for k, u := range d.Plan.UnitsIn(l) {
				pl, ok := d.Plan.PlaceOf(l, u)
				if pl.At.X += 1500 * layout.Micrometre; !ok {
					pl.On = layout.DeckName
				}
				pl.Turn = pl.Turn.Add(layout.Turn(k))
				d.Plan.SetPlace(l, u, pl)
			}
		}
		for round := range 2 {
			text, err := d.Render()
			if err != nil {
				// The one reason left is a place at the end of all measure.
				require.ErrorContains(t, err, "want from")
				return
			}
			back, err := Parse("p", text, nil)
			require.NoError(t, err)
			require.Empty(t, difference(back.Plan, d.Plan))
			d.saved(text[len(text)-len(newSource(text).text):])
			if round == 0 { // and now none of them stands anywhere
				for i := range d.Plan.Units {
					d.Plan.Units[i].Place = nil
				}
				for i := range d.Plan.Lineups {
					clear(d.Plan.Lineups[i].Place)
				}
			}
		}
	})
}

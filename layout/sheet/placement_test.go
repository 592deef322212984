package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"strconv"
	"strings"
	"testing"

	"footplank/layout"
	"footplank/layout/mount"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func placementOf(t testing.TB, p *layout.Plan, format string) string {
	var b bytes.Buffer
	require.NoError(t, Placement(&b, p, format, 0))
	return b.String()
}

func TestPlacement(t *testing.T) {
	for _, format := range PlacementFormats {
		for name, p := range map[string]*layout.Plan{"dense": dense(), "quiet": quiet()} {
			t.Run(name+"-"+format, func(t *testing.T) {
				out := placementOf(t, p, format)
				assert.Equal(t, out, placementOf(t, p.Clone(), format), "the same plan, the same bytes")
				golden.RequireEqual(t, out)
			})
		}
	}
}

func TestPlacementRefusesOtherFormats(t *testing.T) {
	var b bytes.Buffer
	err := Placement(&b, dense(), "doc", 0)
	assert.EqualError(t, err, `placement sheet as "doc": want txt or csv`)
	assert.Zero(t, b.Len())
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestWriteErrorsAreTold(t *testing.T) {
	for _, format := range PlacementFormats {
		assert.ErrorContains(t, Placement(fullDisk{}, dense(), format, 0), "no space left")
	}
	assert.ErrorContains(t, Text(fullDisk{}, NewReport(dense()), 0), "no space left")
	assert.ErrorContains(t, NewReport(dense()).JSON(fullDisk{}), "no space left")
}

// The rows of the CSV are the pieces, and its three frames agree.
func TestPlacementCSVNamesEveryPiece(t *testing.T) {
	p := dense()
	p.Unit("squash").Label = "a \"quoted\",\nlabel; ελληνικά"
	rows, err := csv.NewReader(strings.NewReader(placementOf(t, p, "csv"))).ReadAll()
	require.NoError(t, err)
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	laid := mount.Lay(p)
	pieces, strips := laid.Pieces, laid.Board
	require.Len(t, rows, 1+len(pieces)+len(strips))
	for i, row := range rows[1+len(pieces):] {
		assert.Equal(t, strconv.Itoa(i+1), row[column["strip"]])
		assert.Equal(t, strips[i].At.X1.Number(layout.Millimetres), row[column["board_x1_mm"]])
		assert.Equal(t, strips[i].Cut.Number(layout.Millimetres), row[column["cut_mm"]])
		assert.Equal(t, string(strips[i].Side), row[column["board_side"]])
		assert.Empty(t, row[column["unit"]])
	}
	for i, row := range rows[1 : 1+len(pieces)] {
		m := pieces[i]
		get := func(name string) float64 {
			f, err := strconv.ParseFloat(row[column[name]], 64)
			require.NoError(t, err, name)
			return f
		}
		assert.Equal(t, m.Unit, row[column["unit"]])
		assert.Equal(t, p.Unit(m.Unit).Label, row[column["label"]])
		assert.Equal(t, m.OnBoard.X0.MM(), get("board_x0_mm"))
		assert.Equal(t, m.OnBoard.Y1.MM(), get("board_y1_mm"))
		assert.Equal(t, m.UnderUnit.X1.MM(), get("under_x1_mm"))
		strip := strips[int(get("strip"))-1]
		assert.True(t, strip.At.Contains(m.OnBoard) && strip.Kind == m.Kind && strip.Surface == m.Surface)
		s, _ := p.Board.Surface(m.Surface)
		assert.InDelta(t, get("board_x0_mm"), get("surface_x_mm")+s.At.X0.MM(), 1e-9)
		assert.InDelta(t, get("board_y0_mm"), get("surface_y_mm")+s.At.Y0.MM(), 1e-9)
	}
}

func TestCautions(t *testing.T) {
	p := dense()
	text := strings.Join(cautions(p), "\n")
	assert.Contains(t, text, "mains plug")
	assert.Contains(t, text, "72 hours")
	assert.NotContains(t, text, "in pairs")
	// The load constant of the revised NIOSH lifting equation, 23 kg.
	p.Unit("octave").Mass = 20 * layout.Kilogram
	assert.Contains(t, strings.Join(cautions(p), "\n"), "in pairs")
	assert.NotContains(t, strings.Join(cautions(quiet()), "\n"), "mains plug")
}

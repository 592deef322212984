package sheet

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"testing"

	"footplank/layout"
	"footplank/layout/mount"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func placementOf(t testing.TB, p *layout.Plan, format string) string {
	var b bytes.Buffer
	require.NoError(t, Placement(&b, p, format))
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
	err := Placement(&b, dense(), "doc")
	assert.EqualError(t, err, `placement sheet as "doc": want txt, csv, svg`)
	assert.Zero(t, b.Len())
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestWriteErrorsAreTold(t *testing.T) {
	for _, format := range PlacementFormats {
		assert.ErrorContains(t, Placement(fullDisk{}, dense(), format), "no space left")
	}
	assert.ErrorContains(t, Text(fullDisk{}, NewReport(dense())), "no space left")
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
	pieces := mount.All(p)
	strips := mount.Lay(p).Board
	require.Len(t, rows, 1+len(pieces)+len(strips))
	for i, row := range rows[1+len(pieces):] {
		assert.Equal(t, strconv.Itoa(i+1), row[column["strip"]])
		assert.Equal(t, mmText(strips[i].At.X1), row[column["board_x1_mm"]])
		assert.Equal(t, mmText(strips[i].Cut), row[column["cut_mm"]])
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

// shape is an element of a parsed drawing.
type shape struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Text     string     `xml:",chardata"`
	Children []shape    `xml:",any"`
}

func (s *shape) attr(name string) string {
	for _, a := range s.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// find returns the elements below s of that name that have the attribute.
func (s *shape) find(element, name, value string) []*shape {
	var out []*shape
	for i := range s.Children {
		c := &s.Children[i]
		if c.XMLName.Local == element && c.attr(name) == value {
			out = append(out, c)
		}
		out = append(out, c.find(element, name, value)...)
	}
	return out
}

// box returns x, y, width and height of a rectangle in mm.
func (s *shape) box(t testing.TB) [4]float64 {
	var out [4]float64
	for i, name := range []string{"x", "y", "width", "height"} {
		f, err := strconv.ParseFloat(s.attr(name), 64)
		require.NoError(t, err, "%s of %v", name, s.Attrs)
		out[i] = f
	}
	return out
}

func parseSVG(t testing.TB, text string) *shape {
	var root shape
	d := xml.NewDecoder(strings.NewReader(text))
	require.NoError(t, d.Decode(&root))
	_, err := d.Token()
	for err == nil {
		_, err = d.Token()
	}
	require.ErrorIs(t, err, io.EOF)
	return &root
}

// One user unit is one millimetre: width and height are in mm and the viewBox
// has the same numbers.
func TestSVGIsTrueToScale(t *testing.T) {
	root := parseSVG(t, placementOf(t, dense(), "svg"))
	w, h := strings.TrimSuffix(root.attr("width"), "mm"), strings.TrimSuffix(root.attr("height"), "mm")
	assert.NotEqual(t, root.attr("width"), w, "width is in mm")
	assert.Equal(t, "0 0 "+w+" "+h, root.attr("viewBox"))
	bar := root.find("g", "id", "calibration")[0].Children[0]
	x1, _ := strconv.ParseFloat(bar.attr("x1"), 64)
	x2, _ := strconv.ParseFloat(bar.attr("x2"), 64)
	assert.Equal(t, 100.0, x2-x1)
}

// Board, units and pieces are found in the drawing where the plan has them,
// for every line-up, within the sheet.
func TestSVGShowsEverythingInItsPlace(t *testing.T) {
	p := dense()
	p.Unit("split").Place.Turn = 3
	root := parseSVG(t, placementOf(t, p, "svg"))
	width, _ := strconv.ParseFloat(strings.TrimSuffix(root.attr("width"), "mm"), 64)
	height, _ := strconv.ParseFloat(strings.TrimSuffix(root.attr("height"), "mm"), 64)
	for i := range p.Lineups {
		l := &p.Lineups[i]
		g := root.find("g", "id", fmt.Sprintf("lineup-%d", i+1))
		require.Len(t, g, 1)
		assert.Equal(t, l.Name, g[0].attr("data-lineup"))
		placed, _ := p.Standings(l)
		pieces := mount.Pieces(p, l)
		for _, surface := range p.Board.Surfaces() {
			plate := g[0].find("g", "data-surface", surface.Name)
			require.Len(t, plate, 1)
			outline := plate[0].find("rect", "class", "surface")[0].box(t)
			assert.Equal(t, surface.At.W().MM(), outline[2])
			assert.Equal(t, surface.At.D().MM(), outline[3])
			// at is where a rectangle of the board must be on the sheet.
			at := func(r layout.Rect) [4]float64 {
				return [4]float64{outline[0] + (r.X0 - surface.At.X0).MM(), outline[1] + (surface.At.Y1 - r.Y1).MM(), r.W().MM(), r.D().MM()}
			}
			for _, s := range placed {
				found := plate[0].find("g", "data-unit", s.Unit.ID)
				if s.Place.On != surface.Name {
					assert.Empty(t, found)
					continue
				}
				require.Len(t, found, 1)
				body := found[0].find("rect", "class", "body")[0]
				assertBox(t, at(s.Unit.Base(s.Place)), body.box(t), s.Unit.ID)
				assert.Equal(t, s.Unit.Mount == layout.Swap, body.attr("stroke-dasharray") != "")
				var want []mount.Piece
				for _, m := range pieces {
					if m.Unit == s.Unit.ID {
						want = append(want, m)
					}
				}
				drawn := found[0].find("rect", "class", "piece")
				require.Len(t, drawn, len(want))
				for k, m := range want {
					b := drawn[k].box(t)
					assertBox(t, at(m.OnBoard), b, "piece of "+m.Unit)
					assert.Equal(t, fmt.Sprintf("url(#%s)", m.Kind), drawn[k].attr("fill"))
					assert.True(t, b[0] >= 0 && b[1] >= 0 && b[0]+b[2] <= width && b[1]+b[3] <= height, "on the sheet")
				}
			}
		}
	}
	for _, kind := range []mount.Kind{mount.Interlock, mount.HookAndLoop} {
		assert.Len(t, root.find("pattern", "id", string(kind)), 1)
	}
}

func assertBox(t *testing.T, want, got [4]float64, what string) {
	t.Helper()
	for i := range want {
		assert.InDelta(t, want[i], got[i], 1e-6, what)
	}
}

// Any label in any script, or with what XML does not allow, leaves a
// well-formed drawing, and a label that XML can carry is in it.
func TestSVGOfAnyPlanIsWellFormed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t, layout.MaxLength)
		var b bytes.Buffer
		if err := Placement(&b, p, "svg"); err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(&b)
		for {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
		}
	})
	p := quiet()
	p.Units[0].Label = "<b>&\"'"
	text := placementOf(t, p, "svg")
	assert.Contains(t, text, "&lt;b&gt;&amp;")
	assert.Contains(t, text, "Спутник")
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

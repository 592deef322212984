package sheet

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/mount"
)

// The views that the editor has beside the whole board from above.
func TestViews(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(p *layout.Plan, v *View)
	}{
		{"underside", func(p *layout.Plan, v *View) { v.Below, v.Caption = true, "Underside, mirrored" }},
		{"underside-ascii", func(p *layout.Plan, v *View) { v.Below, v.ASCII, v.Caption = true, true, "Underside, mirrored" }},
		{"fastener", func(p *layout.Plan, v *View) { v.Fastener = true }},
		{"close", func(p *layout.Plan, v *View) {
			v.Step, v.Middle = 2*mm, layout.Point{X: 300 * mm, Y: 60 * mm}
		}},
		{"close-inches", func(p *layout.Plan, v *View) {
			p.LengthUnit, v.Step, v.Middle = layout.Inches, 700, layout.Point{X: 340 * mm, Y: 60 * mm}
		}},
		{"far", func(p *layout.Plan, v *View) {
			v.Step, v.Middle = 12*mm, layout.Point{X: 280 * mm, Y: 160 * mm}
		}},
		{"moved-beside-another", func(p *layout.Plan, v *View) {
			was := *p.Unit("octave").Place
			p.Unit("octave").Place.At.X -= 40 * mm
			v.Was, v.Other = &was, "squash"
		}},
		{"moved-by-a-trial", func(p *layout.Plan, v *View) {
			placed, _ := p.Clone().Standings(&p.Lineups[0])
			for _, s := range placed {
				if s.Unit.ID == "octave" || s.Unit.ID == "squash" {
					v.Before = append(v.Before, s)
				}
			}
			p.Unit("octave").Place.At = layout.Point{}
			delete(p.Lineups[0].Place, "squash")
			p.Unit("squash").Place = nil
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, v := dense(), everything(100, 30)
			v.Cables = false
			c.edit(p, &v)
			v.Pieces = strips(p)
			golden.RequireEqual(t, strings.Join(Draw(p, v).Lines(), "\n")+"\n")
		})
	}
}

// strips is a piece of fastener of 20 mm along the front of every unit.
func strips(p *layout.Plan) []mount.Piece {
	out := []mount.Piece{}
	for i := range p.Units {
		u := &p.Units[i]
		if u.Place == nil {
			continue
		}
		on := u.Base(*u.Place)
		on.Y1 = on.Y0 + 20*mm
		out = append(out, mount.Piece{Unit: u.ID, Kind: mount.KindOf(u.Mount), OnBoard: on})
	}
	return out
}

// At any scale and from either side, cells and places map to each other and a
// unit's cells lie over its body.
func TestCellsMapToTheBoardInEveryView(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := dense()
		v := View{Cols: rapid.IntRange(24, 120).Draw(t, "cols"), Rows: rapid.IntRange(8, 40).Draw(t, "rows"), Lineup: "barn",
			Below: rapid.Bool().Draw(t, "below"), Step: layout.Length(rapid.Int64Range(0, 20_000).Draw(t, "step")),
			Middle: layout.Point{X: layout.Length(rapid.Int64Range(-600_000, 600_000).Draw(t, "x")), Y: layout.Length(rapid.Int64Range(-400_000, 400_000).Draw(t, "y"))}}
		g := Draw(p, v)
		dx, dy := g.Step()
		if s := Scale(p, v); s != dx {
			t.Fatalf("scale %v, but a column shows %v", s, dx)
		}
		if v.Step > 0 && dx != max(v.Step, leastStep) {
			t.Fatalf("a column shows %v, asked for %v", dx, v.Step)
		}
		for row := 0; row < g.H; row++ {
			for col := 0; col < g.W; col++ {
				at := g.Point(col, row)
				if c, r, _ := g.Cell(at); c != col || r != row {
					t.Fatalf("cell %d,%d is at %v, which is in cell %d,%d", col, row, at, c, r)
				}
				if id := g.At(col, row).Unit; id != "" {
					u := p.Unit(id)
					body := u.Base(*u.Place).Grow(layout.Edges{Front: dy, Back: dy, Left: dx, Right: dx})
					if !body.Touches(at) {
						t.Fatalf("cell %d,%d at %v belongs to %s at %v", col, row, at, id, u.Base(*u.Place))
					}
				}
			}
		}
	})
}

// A drawing in the memory of another is the same as a new one.
func TestRedraw(t *testing.T) {
	p := dense()
	g := Draw(p, everything(120, 40))
	for _, size := range [][2]int{{120, 40}, {100, 30}, {60, 20}, {130, 45}} {
		v := everything(size[0], size[1])
		g = Redraw(g, p, v)
		assert.Equal(t, Draw(p, v).Cells, g.Cells)
	}
}

// Slots that share an edge, as new ones do that are the whole deck, have their
// names apart on it, each of them whole.
func TestNamesOnASharedEdge(t *testing.T) {
	p := dense()
	p.Slots = nil
	for _, name := range []string{"front", "colour", "space"} {
		p.Slots = append(p.Slots, layout.Slot{Name: name, On: layout.DeckName, At: p.Board.Rect()})
	}
	for _, ascii := range []bool{false, true} {
		text := strings.Join(Draw(p, View{Cols: 90, Rows: 30, Slots: true, ASCII: ascii}).Lines(), "\n")
		for _, s := range p.Slots {
			assert.Contains(t, text, s.Name)
		}
		assert.NotRegexp(t, `(front|colour|space) ?(front|colour|space)`, text)
	}
}

// What is left from above is right from below.
func TestUndersideIsMirrored(t *testing.T) {
	p := dense()
	above := Draw(p, View{Cols: 90, Rows: 30, Surface: layout.DeckName})
	below := Draw(p, View{Cols: 90, Rows: 30, Below: true})
	for _, id := range []string{"swell", "octave", "loop"} {
		at := p.Unit(id).Base(*p.Unit(id).Place).Center()
		c, r, _ := above.Cell(at)
		d, s, _ := below.Cell(at)
		assert.Equal(t, r, s, id)
		assert.Equal(t, id, below.At(d, s).Unit)
		w := above.Window()
		middle := (w.X0 + w.X1) / 2
		if at.X < middle {
			assert.Greater(t, d, c, id)
		} else {
			assert.Less(t, d, c, id)
		}
	}
}

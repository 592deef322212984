package sheet

import (
	"fmt"
	"strings"
	"testing"

	"footplank/layout"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func everything(cols, rows int) View {
	return View{Cols: cols, Rows: rows, Plugs: true, Switches: true, Cables: true, Slots: true,
		Selected: "octave", Faulty: map[string]bool{"rasp": true, "echo": true}}
}

func TestDrawing(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(p *layout.Plan, v *View)
	}{
		{"small", func(p *layout.Plan, v *View) { v.Cols, v.Rows = 78, 18 }},
		{"small-ascii", func(p *layout.Plan, v *View) { v.Cols, v.Rows, v.ASCII = 78, 18, true }},
		{"medium", func(p *layout.Plan, v *View) {}},
		{"large-inches", func(p *layout.Plan, v *View) { v.Cols, v.Rows, p.LengthUnit = 160, 50, layout.Inches }},
		{"pit", func(p *layout.Plan, v *View) { v.Lineup = "pit" }},
		{"deck", func(p *layout.Plan, v *View) { v.Surface = "deck" }},
		{"shelf", func(p *layout.Plan, v *View) { v.Surface = "shelf" }},
		{"window", func(p *layout.Plan, v *View) {
			v.Window = layout.Rect{X0: 280 * mm, Y0: -20 * mm, X1: 580 * mm, Y1: 160 * mm}
		}},
		{"rails", func(p *layout.Plan, v *View) {
			p.Board.Kind, p.Board.Risers, p.Slots = layout.Rails, nil, nil
			for y := layout.Length(0); y < 330; y += 85 {
				p.Board.Rails = append(p.Board.Rails, layout.Rail{At: layout.Rect{Y0: y * mm, X1: 560 * mm, Y1: (y + 60) * mm}})
			}
			p.Board.Fixtures = []layout.Fixture{{Name: "handle", Box: layout.Box{X0: 200 * mm, Y0: 300 * mm, X1: 330 * mm, Y1: 330 * mm, Z1: 30 * mm}}}
		}},
		{"wide-labels", func(p *layout.Plan, v *View) {
			p.Unit("squash").Label = "圧縮機"
			p.Unit("rasp").Label = "Ге́йн 🎛️ knob"
			p.Unit("loop").Label = "e\u0301cho \x1b[31mred\x1b[0m\ttab"
			p.Unit("octave").Label = "مضاعف"
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, v := dense(), everything(100, 40)
			c.edit(p, &v)
			golden.RequireEqual(t, strings.Join(Draw(p, v).Lines(), "\n")+"\n")
		})
	}
}

// anyPlan bends the dense plan: units at any place and of any size, odd
// labels, boards of any size. Nothing is further off than most.
func anyPlan(t *rapid.T, most layout.Length) *layout.Plan {
	p := dense()
	far := rapid.OneOf(rapid.Int64Range(-100_000, 700_000), rapid.Int64Range(-int64(most), int64(most)))
	for i := range p.Units {
		u := &p.Units[i]
		if rapid.Bool().Draw(t, "bend") {
			u.Place.At = layout.Point{X: layout.Length(far.Draw(t, "x")), Y: layout.Length(far.Draw(t, "y"))}
			u.Place.Turn = layout.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))
			u.Body.W = layout.Length(rapid.Int64Range(0, 400_000).Draw(t, "w"))
			u.Body.D = layout.Length(rapid.Int64Range(0, 400_000).Draw(t, "d"))
			u.Label = rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "日本語 ラベル", "a\u0301\u0301", "\u200b", "👩‍👩‍👧 family"})).Draw(t, "label")
			u.Pinned = rapid.Bool().Draw(t, "pinned")
		}
	}
	switch rapid.IntRange(0, 5).Draw(t, "board") {
	case 0:
		p.Board.W, p.Board.D = layout.Length(far.Draw(t, "bw")), layout.Length(far.Draw(t, "bd"))
	case 1:
		p.Board.Risers = nil
	case 2:
		p.Board.Kind = layout.Rails
		p.Board.Rails = []layout.Rail{{At: layout.Rect{X0: layout.Length(far.Draw(t, "rx")), X1: layout.Length(far.Draw(t, "rX")), Y1: 50 * mm}}}
	case 3:
		p.Lineups = nil
	}
	return p
}

func anyView(t *rapid.T) View {
	flag := rapid.Bool()
	v := View{
		Cols: rapid.IntRange(-1, 120).Draw(t, "cols"), Rows: rapid.IntRange(-1, 60).Draw(t, "rows"),
		Lineup:   rapid.SampledFrom([]string{"", "barn", "pit", "none"}).Draw(t, "lineup"),
		Selected: rapid.SampledFrom([]string{"", "swell", "supply", "none"}).Draw(t, "selected"),
		Surface:  rapid.SampledFrom([]string{"", "deck", "shelf", "none"}).Draw(t, "surface"),
		ASCII:    flag.Draw(t, "ascii"), Plugs: flag.Draw(t, "plugs"), Switches: flag.Draw(t, "switches"),
		Cables: flag.Draw(t, "cables"), Slots: flag.Draw(t, "slots"), NoRulers: flag.Draw(t, "norulers"),
		Faulty: map[string]bool{"loop": true, "expander": true},
		Below:  flag.Draw(t, "below"), Fastener: flag.Draw(t, "fastener"),
		Caption: rapid.SampledFrom([]string{"", "見出し of it", "\x1b[0m"}).Draw(t, "caption"),
		Other:   rapid.SampledFrom([]string{"", "octave", "none"}).Draw(t, "other"),
		Step:    layout.Length(rapid.SampledFrom([]int64{0, 0, -1, 1, 1500, 1 << 62}).Draw(t, "step")),
		Middle:  layout.Point{X: layout.Length(rapid.Int64().Draw(t, "mx")), Y: layout.Length(rapid.Int64Range(-500_000, 500_000).Draw(t, "my"))},
	}
	if flag.Draw(t, "moved") {
		v.Was = &layout.Placement{On: "deck", At: layout.Point{X: layout.Length(rapid.Int64().Draw(t, "wx"))}}
	}
	if flag.Draw(t, "window") {
		l := rapid.OneOf(rapid.Int64Range(-100_000, 700_000), rapid.Int64Range(-1<<62, 1<<62))
		v.Window = layout.Rect{X0: layout.Length(l.Draw(t, "x0")), Y0: layout.Length(l.Draw(t, "y0")),
			X1: layout.Length(l.Draw(t, "x1")), Y1: layout.Length(l.Draw(t, "y1"))}
	}
	return v
}

// Every row of any drawing is as wide as the grid on screen, ASCII drawings
// are ASCII, and every cell's unit is one of the plan.
func TestAnyDrawingFillsItsGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, v := anyPlan(t, 1<<62), anyView(t)
		v.Pieces = strips(p)
		g := Draw(p, v)
		if want := max(v.Cols, 1); g.W != want {
			t.Fatalf("grid is %d wide, want %d", g.W, want)
		}
		for i, c := range g.Cells {
			if c.Unit != "" && p.Unit(c.Unit) == nil {
				t.Fatalf("cell %d belongs to %q, which is no unit", i, c.Unit)
			}
			if c.Mark >= markCount {
				t.Fatalf("cell %d has mark %d", i, c.Mark)
			}
			if strings.ContainsAny(c.Text, "\x1b\n\r\t") {
				t.Fatalf("cell %d holds %q", i, c.Text)
			}
			if v.ASCII && (len(c.Text) != 1 || c.Text[0] < ' ' || c.Text[0] > '~') {
				t.Fatalf("cell %d of an ASCII drawing holds %q", i, c.Text)
			}
		}
		for i, s := range g.Lines() {
			cells := 0
			for _, c := range g.Cells[i*g.W : (i+1)*g.W] {
				cells += width(c.Text)
			}
			if cells != g.W {
				t.Fatalf("row %d is %d cells wide, want %d: %q", i, cells, g.W, s)
			}
		}
	})
}

func TestDrawingSizesFromOneCellOn(t *testing.T) {
	p := dense()
	for _, ascii := range []bool{false, true} {
		for w := 1; w <= 500; w += 1 + w/3 {
			for h := 1; h <= 200; h += 1 + h/3 {
				v := everything(w, h)
				v.ASCII = ascii
				require.Len(t, Draw(p, v).Lines(), h)
			}
		}
	}
}

// Cells and places on the board map to each other, and the cells of a unit lie
// over its body.
func TestCellsMapToTheBoard(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := dense()
		v := View{Cols: rapid.IntRange(20, 200).Draw(t, "cols"), Rows: rapid.IntRange(8, 60).Draw(t, "rows"), Lineup: "barn"}
		g := Draw(p, v)
		dx, dy := g.Step()
		if dy != 2*dx {
			t.Fatalf("a row shows %v and a column %v", dy, dx)
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

// Units that touch share no cell: in the row through their middles the second
// begins right where the first ends.
func TestTouchingUnitsGetNeighbouringCells(t *testing.T) {
	p := dense()
	a, b := p.Unit("octave"), p.Unit("loop")
	a.Place = &layout.Placement{On: "deck", At: layout.Point{X: 110 * mm, Y: 10 * mm}}
	b.Place = &layout.Placement{On: "deck", At: layout.Point{X: 180 * mm, Y: 10 * mm}}
	for cols := 40; cols < 200; cols++ {
		g := Draw(p, View{Cols: cols, Rows: cols / 3})
		_, row, ok := g.Cell(layout.Point{X: 180 * mm, Y: 60 * mm})
		require.True(t, ok)
		var ids []string
		for c := 0; c < g.W; c++ {
			if id := g.At(c, row).Unit; len(ids) == 0 || ids[len(ids)-1] != id {
				ids = append(ids, id)
			}
		}
		assert.Contains(t, strings.Join(ids, " "), "octave loop", "at %d columns", cols)
	}
}

// Each state is told by its characters alone.
func TestStatesDifferWithoutColour(t *testing.T) {
	for _, ascii := range []bool{false, true} {
		seen := map[string]string{}
		for _, mount := range []layout.Mount{layout.Fixed, layout.Swap} {
			for _, pinned := range []bool{false, true} {
				for _, faulty := range []bool{false, true} {
					for _, selected := range []bool{false, true} {
						p := dense()
						p.Units = p.Units[2:3]
						u := &p.Units[0]
						u.Mount, u.Pinned = mount, pinned
						v := View{Cols: 60, Rows: 20, ASCII: ascii, Faulty: map[string]bool{u.ID: faulty}}
						if selected {
							v.Selected = u.ID
						}
						name := fmt.Sprint(mount, " pinned ", pinned, " faulty ", faulty, " selected ", selected)
						text := strings.Join(Draw(p, v).Lines(), "\n")
						if other, ok := seen[text]; ok {
							t.Errorf("ascii %v: %s looks like %s", ascii, name, other)
						}
						seen[text] = name
					}
				}
			}
		}
	}
}

func TestTurnMarkPointsWhereTheFrontLooks(t *testing.T) {
	p := dense()
	p.Units = p.Units[2:3]
	for turn, want := range lineGlyphs.turn {
		p.Units[0].Place.Turn = layout.Turn(turn)
		g := Draw(p, View{Cols: 60, Rows: 20})
		var marks []string
		for _, c := range g.Cells {
			if c.Mark == TurnMark {
				marks = append(marks, c.Text)
			}
		}
		assert.Equal(t, []string{want}, marks, "turn %d", turn)
	}
}

func TestShorten(t *testing.T) {
	for _, c := range []struct {
		label string
		w, h  int
		want  string
	}{
		{"Compressor", 10, 1, "Compressor"},
		{"Compressor", 9, 1, "Cmprssr"},
		{"Compressor", 5, 1, "Compr"},
		{"Compressor", 1, 4, "C"},
		{"Hall reverb", 6, 2, "Hall/reverb"},
		{"Hall reverb", 4, 2, "Hall/rvrb"},
		{"Hall reverb", 5, 1, "Hall"},
		{"Hall reverb", 2, 1, "Hr"},
		{"Hall reverb", 1, 1, "H"},
		{"Preamp with DI", 6, 3, "Preamp/with/DI"},
		{"Supply, eight outputs", 9, 1, "Supply"},
		{"", 9, 1, ""},
		{"Tuner", 0, 3, ""},
		{"Tuner", 3, 0, ""},
		{"圧縮機", 4, 1, "圧縮"},
		{"圧縮機", 1, 1, ""},
		{"a\u0301\u0301bc", 2, 1, "a\u0301\u0301b"},
	} {
		lines := shorten(c.label, c.w, c.h)
		assert.Equal(t, c.want, strings.Join(lines, "/"), "shorten(%q, %d, %d)", c.label, c.w, c.h)
	}
}

func BenchmarkDraw(b *testing.B) {
	p, v := dense(), everything(200, 60)
	b.ReportAllocs()
	for b.Loop() {
		Draw(p, v)
	}
}

func FuzzShorten(f *testing.F) {
	f.Add("Hall reverb", 4, 2)
	f.Add("圧縮機 a\u0301\u0301", 3, 1)
	f.Add("👩‍👩‍👧 family\x1b[0m", 2, 9)
	f.Fuzz(func(t *testing.T, label string, w, h int) {
		w, h = w%100, h%20
		lines := shorten(clean(label), w, h)
		if len(lines) > max(h, 0) {
			t.Fatalf("%d lines, want at most %d", len(lines), h)
		}
		for _, s := range lines {
			if width(s) > w || s == "" {
				t.Fatalf("line %q is %d wide, want 1 to %d", s, width(s), w)
			}
		}
	})
}

package tui

import (
	"context"
	"errors"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/route"
	"footplank/layout/sheet"
	"footplank/layout/wiring"
)

// What is on screen is what the commands print.
func TestRunsAreThoseOfTheSheets(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24)
	for _, l := range []string{"barn", "pit"} {
		require.Equal(t, l, p.m.lineupNow().Name)
		assert.Equal(t, wiring.Wire(p.m.plan()).Of(l).Cables, p.m.runs().cables)
		m, err := power.Map(context.Background(), p.m.plan())
		require.NoError(t, err)
		m.Route(p.m.plan(), wiring.Wire(p.m.plan()).Settled)
		assert.Equal(t, leadsOf(m, l), p.m.runs().leads)
		p.keys("l")
	}
	p.keys("/").text("bow").keys("enter", "shift+right", "shift+up")
	assert.Equal(t, wiring.Wire(p.m.plan()).Of("barn").Cables, p.m.runs().cables, "after a move too, once all is summed up")
}

func TestChoosingCables(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24)
	n := len(p.m.wireList())
	require.Equal(t, 7+6, n, "cables and leads, but for Late Comer's")
	var ids []string
	for range n {
		p.keys("k")
		ids = append(ids, p.m.wires.chosen)
	}
	assert.Equal(t, []string{"c1", "c2", "c3"}, ids[:3], "in the order of the signal")
	assert.Equal(t, "p", ids[n-1][:1], "leads last")
	p.keys("k")
	assert.Equal(t, "c1", p.m.wires.chosen, "round again")
	p.keys("K")
	assert.Equal(t, ids[n-1], p.m.wires.chosen)
	p.keys("esc")
	assert.Empty(t, p.m.wires.chosen)

	p.keys("/").text("rasp").keys("enter", "k")
	assert.Equal(t, "c2", p.m.wires.chosen, "the first at Rasp")
	assert.Empty(t, p.m.selected, "a unit or a cable is chosen, not both")
	p.keys("tab")
	assert.Empty(t, p.m.wires.chosen)
	p.keys("/").text("late").keys("enter", "k")
	assert.Contains(t, p.m.note.text, "No cable goes to Late Comer")
}

func TestChosenCableTellsAllOfIt(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("kkk")
	c := p.m.runs().cables[2]
	require.Equal(t, "c3", p.m.wires.chosen, "letters that come together are pressed one after the other")
	frame := p.m.View()
	k := p.m.wires.sums.kit(c.Kit)
	require.NotNil(t, k)
	for _, want := range []string{"Cable c3", "Rasp out, flat", "Echo in, flat", "run " + p.m.upTo(c.Run),
		"cut " + p.m.upTo(c.Cut), "ready-made " + p.m.lengthUnit(c.Stock), "kit " + k.Label, "━", "●"} {
		assert.Contains(t, frame, want)
	}
	p.keys("K", "K", "K")
	d := p.m.runs().leads[len(p.m.runs().leads)-1]
	require.Equal(t, d.ID, p.m.wires.chosen)
	assert.Contains(t, p.m.View(), "AWG 24")
	assert.Contains(t, p.m.View(), "20 of 250 mA")
}

// The chosen cable is seen without colour, and whatever else is shown or not.
func TestRunsAreToldApartWithoutColour(t *testing.T) {
	for _, opt := range []Options{{NoColor: true}, {NoColor: true, ASCII: true}} {
		p := newPlayer(t, opt, 200, 60)
		s := p.m.styles
		drawn := func() (n [3]int) {
			g := p.m.drawing()
			tr := p.m.traced(g)
			for i := range g.Cells {
				if tr == nil {
					break
				}
				switch text, _ := tr.over(i, &g.Cells[i], s); text {
				case "":
				case s.powerLines[left|right], s.powerLines[up|down]:
					n[powerStyle]++
				case s.audioLines[left|right], s.audioLines[up|down]:
					n[audioStyle]++
				case s.chosenLines[left|right], s.chosenLines[up|down]:
					n[chosenStyle]++
				}
			}
			return n
		}
		n := drawn()
		assert.True(t, n[audioStyle] > 100 && n[powerStyle] == 0 && n[chosenStyle] == 0, n)
		p.keys("c")
		n = drawn()
		assert.True(t, n[audioStyle] > 100 && n[powerStyle] > 50 && n[chosenStyle] == 0, n)
		p.keys("c")
		n = drawn()
		assert.True(t, n[audioStyle] == 0 && n[powerStyle] > 50, n)
		p.keys("c")
		assert.Zero(t, drawn())
		p.keys("k", "k")
		n = drawn()
		assert.True(t, n[audioStyle] == 0 && n[powerStyle] == 0 && n[chosenStyle] > 10, n)
	}
}

// Any path of any straight pieces is one line on screen, from cell to cell
// without a gap, with both ends marked where they are on the grid.
func TestTracesHaveNoGaps(t *testing.T) {
	p := trialPlan()
	g := sheet.Draw(p, sheet.View{Cols: 90, Rows: 30})
	rapid.Check(t, func(t *rapid.T) {
		coord := rapid.OneOf(rapid.Int64Range(-20_000, 520_000), rapid.Int64Range(-1<<40, 1<<40))
		var path []route.Point3
		for range rapid.IntRange(1, 6).Draw(t, "n") {
			path = append(path, route.Point3{X: layout.Length(coord.Draw(t, "x")), Y: layout.Length(coord.Draw(t, "y"))})
		}
		var tr trace
		tr.clear(g)
		tr.run(g, path, chosenStyle, "c1")
		for r := range g.H {
			for c := range g.W {
				ways := tr.cells[r*g.W+c].ways[chosenStyle]
				for _, n := range []struct {
					way, back uint8
					c, r      int
				}{{up, down, c, r - 1}, {down, up, c, r + 1}, {left, right, c - 1, r}, {right, left, c + 1, r}} {
					at := tr.at(g, n.c, n.r)
					if at != nil && (ways&n.way != 0) != (at.ways[chosenStyle]&n.back != 0) {
						t.Fatalf("cells %d,%d and %d,%d do not join", c, r, n.c, n.r)
					}
				}
			}
		}
		for _, at := range []route.Point3{path[0], path[len(path)-1]} {
			c, r := cellOf(g, at)
			if cell := tr.at(g, c, r); cell != nil && !cell.end {
				t.Fatalf("the end at %d,%d is not marked", c, r)
			}
		}
	})
}

// While a unit is moved its cables follow at once; the others stay as they are,
// and kit and findings come when the plan has rested.
func TestRunsFollowAMove(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("bow").keys("enter")
	before := p.m.runs()
	p.held = true
	p.keys("shift+right")
	assert.Equal(t, before.cables, p.m.runs().cables, "the last runs stand while new ones are laid")
	require.Len(t, p.hold, 1)
	both := p.hold[0]().(tea.BatchMsg)
	require.Len(t, both, 2, "cables, and fastener")
	todo := both[0]().(tea.BatchMsg)
	require.Len(t, todo, 2, "one lays, one sums up")
	_, cmd := p.m.Update(todo[0]())
	assert.Nil(t, cmd, "nothing more to do before the plan is summed up")
	now := p.m.runs()
	assert.Same(t, p.m.plan(), now.plan)
	changed := 0
	for i := range now.cables {
		switch c := &now.cables[i]; {
		case c.From.Unit == "bow" || c.To.Unit == "bow":
			assert.NotEqual(t, before.cables[i].Path, c.Path, c.ID)
			changed++
		case c.ID == "c1" || c.ID == "c2":
			assert.Equal(t, before.cables[i].Path, c.Path, "%s is far from it", c.ID)
		}
		assert.Equal(t, before.cables[i].Kit, now.cables[i].Kit, "the kit is as it was last")
	}
	assert.Equal(t, 2, changed)
	p.m.Update(todo[1]())
	assert.Same(t, p.m.plan(), p.m.wires.sums.plan)
}

// A plan that goes on changing is not summed up before it rests.
func TestSumsWaitForRest(t *testing.T) {
	n := 0
	opt := Options{sum: func(ctx context.Context, p *layout.Plan) (*sums, error) {
		n++
		return sumUp(ctx, p)
	}}
	p := newPlayer(t, opt, 80, 24)
	require.Equal(t, 1, n)
	p.m.opt.rest = 1
	p.held = true
	p.keys("/").text("bow").keys("enter", "shift+right", "shift+right")
	old := p.m.history.Plan()
	p.keys("shift+right")
	p.hold = nil
	_, cmd := p.m.Update(restedMsg{old})
	require.NotNil(t, cmd)
	assert.Equal(t, 1, n, "it was edited meanwhile: it waits again")
	p.held = false
	p.send(restedMsg{p.m.plan()})
	assert.Equal(t, 2, n)
}

// An editor that is left while it sums up keeps what it knows.
func TestSumsThatAreStopped(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24)
	was := p.m.wires.sums
	p.send(summedMsg{nil, errors.New("stopped")})
	assert.Same(t, was, p.m.wires.sums)
}

func TestCableFindingsAreAmongTheOthers(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 200, 60)
	assert.Contains(t, p.m.View(), "The instrument drives")
	codes := func() map[string]bool {
		p.m.look()
		out := map[string]bool{}
		for _, f := range p.m.found() {
			out[f.Code] = true
		}
		return out
	}
	assert.True(t, codes()[wiring.LongUnbuffered])
	require.False(t, codes()[wiring.NoWay])
	// Rasp comes to stand on Echo's plug: nothing gets to it.
	p.keys("/").text("rasp").keys("enter", "space", "3", "left", "left", "left", "left")
	assert.True(t, codes()[wiring.NoWay])
	assert.Contains(t, p.m.View(), "No way through")
	p.keys("kkk")
	assert.Contains(t, p.m.View(), "no way through", "the chosen cable says so too")
	p.keys("u")
	assert.False(t, codes()[wiring.NoWay])
}

// The finding that was gone to stays the one, though the cables' come later.
func TestCulpritStaysWhenCablesComeIn(t *testing.T) {
	p := newPlayer(t, Options{}, 200, 60).keys("f", "f", "f")
	want := p.m.found()[p.m.culprit].Code
	require.Equal(t, wiring.LongUnbuffered, want)
	p.keys("/").text("rasp").keys("enter", "3", "shift+left", "shift+left", "shift+left", "shift+left")
	p.m.look()
	require.NotEqual(t, 2, p.m.culprit, "others came before it")
	assert.Equal(t, want, p.m.found()[p.m.culprit].Code)
}

func TestPowerPage(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("e")
	frame := p.m.View()
	assert.Contains(t, frame, "One power map holds for every line-up.")
	assert.Contains(t, frame, "40 of 250 mA")
	assert.Contains(t, frame, "██░░░░░░░░")
	assert.Contains(t, frame, "Rasp")
	p.keys("l")
	assert.Equal(t, "pit", p.m.lineupNow().Name)
	assert.NotContains(t, p.m.View(), "Rasp", "it is not in this line-up")
	p.keys("e")
	assert.Equal(t, onBoard, p.m.mode)
}

func TestKitPage(t *testing.T) {
	p := newPlayer(t, Options{NoColor: true}, 80, 24).keys("x")
	frame := p.m.View()
	for _, k := range p.m.wires.sums.wiring.Kit {
		assert.Contains(t, frame, k.Label)
	}
	assert.Contains(t, frame, "the fewest there can be")
	assert.Contains(t, frame, "barn: Peg Watch out to Rasp in")
	p.keys("x")
	assert.Equal(t, onBoard, p.m.mode)
}

func TestPagesBeforeTheSumsSaySo(t *testing.T) {
	p := wildPlayer(Options{}, 80, 24)
	p.m.wires = noWires()
	p.m.wires.summing = true
	p.held = true
	for _, k := range []string{"e", "x"} {
		p.keys(k)
		assert.Equal(t, onBoard, p.m.mode)
		assert.Contains(t, p.m.note.text, "being worked out")
	}
}

func TestClickOnARunChoosesIt(t *testing.T) {
	p := newPlayer(t, Options{}, 200, 60)
	g := p.m.drawing()
	tr := p.m.traced(g)
	clicked := map[string]bool{}
	for i := range g.Cells {
		if text, _ := tr.over(i, &g.Cells[i], p.m.styles); text == "" {
			continue
		}
		c, r := i%g.W, i/g.W
		want := tr.runAt(g, c, r)
		p.click(p.m.areas.board.x+c, p.m.areas.board.y+r)
		require.Equal(t, want, p.m.wires.chosen)
		clicked[want] = true
		p.keys("esc")
		tr = p.m.traced(g)
	}
	assert.Greater(t, len(clicked), 4)
}

package tui

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/mount"
	"footplank/layout/power"
	"footplank/layout/route"
	"footplank/layout/wiring"
)

// restless makes the editor sum nothing up any more: runs are only laid on.
func (p *player) restless() *player {
	p.m.wires.summing = true
	return p
}

// What was laid for a plan is there again as soon as the plan is.
func TestUndoShowsTheRunsThatWereThere(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).restless().keys("c", "/").text("bow").keys("enter")
	var seen []runs
	for range 4 {
		p.keys("shift+right")
		require.Same(t, p.m.plan(), p.m.wires.now.plan)
		seen = append(seen, p.m.runs())
	}
	p.held = true // nothing is worked out any more
	for i := range seen {
		assert.Equal(t, seen[3-i], p.m.runs(), "after %d of undo", i)
		p.keys("u")
	}
	assert.Same(t, p.m.plan(), p.m.wires.sums.plan, "the first plan was summed up")
	p.keys("r")
	assert.Equal(t, seen[0], p.m.runs())
	assert.False(t, p.m.wires.laying)
}

// What is summed up of a plan stays known while others are looked at, and the
// next move goes on from what is on screen then.
func TestSumsOfAPlanThatComesBack(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).keys("/").text("bow").keys("enter")
	first := p.m.runs()
	p.keys("shift+right", "shift+up")
	second := p.m.wires.sums
	p.keys("u", "u")
	assert.Equal(t, first, p.m.runs())
	p.keys("r", "r")
	assert.Same(t, second, p.m.wires.sums)

	p.keys("u", "u").restless().keys("/").text("peg").keys("enter", "shift+up")
	for i, c := range p.m.runs().cables {
		if c.From.Unit != "tuner" && c.To.Unit != "tuner" && c.ID != "c2" {
			assert.Equal(t, first.cables[i].Path, c.Path, c.ID)
		}
	}
}

// Findings and fastener of a plan that comes back are there at once, and are
// those that would be found anew.
func TestFindingsOfAPlanThatComesBack(t *testing.T) {
	n := 0
	p := newPlayer(t, Options{fasten: func(p *layout.Plan) *mount.Result { n++; return mount.Lay(p) }}, 80, 24)
	p.keys("/").text("rasp").keys("enter")
	for range 5 {
		p.keys("shift+left")
	}
	laid := n
	require.Equal(t, 6, laid)
	for _, k := range []string{"u", "u", "r", "u", "u", "r", "r", "u"} {
		p.keys(k)
		q := p.m.plan()
		require.Same(t, q, p.m.bedding.plan)
		assert.Equal(t, mount.Lay(q), p.m.bedding.result)
		assert.Equal(t, check.WithCables(check.All(q), wiring.Wire(q), nil), p.m.look().results)
	}
	assert.Equal(t, laid, n)
}

// Switching line-ups to and fro lays nothing anew.
func TestLineupsKeepTheirRuns(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).restless().keys("/").text("bow").keys("enter", "shift+up")
	barn := p.m.runs()
	p.keys("l")
	pit := p.m.runs()
	require.Equal(t, "pit", pit.lineup)
	p.held = true
	p.keys("l")
	assert.Equal(t, barn, p.m.runs())
	p.keys("l")
	assert.Equal(t, pit, p.m.runs())
	assert.False(t, p.m.wires.laying)
}

// Leads that nobody saw are laid as soon as somebody does.
func TestLeadsComeWhenTheyAreShown(t *testing.T) {
	p := newPlayer(t, Options{}, 80, 24).restless().keys("/").text("bow").keys("enter", "shift+up")
	require.True(t, p.m.runs().noLead)
	p.keys("c")
	assert.False(t, p.m.runs().noLead)
	requireRunsOfNow(t, p.m)
}

// However a plan comes to be on screen, what is said to be its runs goes from
// jack to jack as the units stand in it.
func TestRunsAreOfThePlanOnScreen(t *testing.T) {
	keys := []string{"tab", "up", "right", "shift+left", "shift+up", "shift+right", "ctrl+down", "t", "o", "space", "esc",
		"l", "l", "u", "u", "u", "r", "r", "c", "k", "p", "sum", "hold", "release"}
	for seed := range uint64(12) {
		random := rand.New(rand.NewPCG(seed, 5))
		p := wildPlayer(Options{}, 80, 24).restless()
		for i := range 30 {
			switch key := keys[random.IntN(len(keys))]; key {
			case "sum":
				p.deliver(p.m.sum()())
				p.restless()
			case "hold":
				p.held = i < 25
			case "release":
				p.release()
			default:
				p.keys(key)
			}
			requireRunsOfNow(t, p.m)
		}
		p.release()
		require.Same(t, p.m.plan(), p.m.runs().plan, "all is laid once nothing is under way")
		requireRunsOfNow(t, p.m)
	}
}

// requireRunsOfNow checks runs that are said to be of the plan on screen against
// the jacks of its units.
func requireRunsOfNow(t require.TestingT, m *Model) {
	r, p, l := m.runs(), m.plan(), m.lineupNow()
	if !r.of(p, l.Name) {
		return
	}
	reqs := wiring.Requests(p, l)
	require.Len(t, r.cables, len(reqs))
	for i, c := range r.cables {
		require.Equal(t, reqs[i].From.Unit, c.From.Unit)
		require.Equal(t, reqs[i].To.Jack, c.To.Jack)
		requireEnds(t, c.Path, &reqs[i])
	}
	if r.noLead && !m.wires.laying {
		require.False(t, m.wantsLeads())
	}
	if r.noLead {
		return
	}
	mapped, err := power.Map(m.ctx, p)
	require.NoError(t, err)
	these := mapped.Of(l.Name)
	require.Len(t, r.leads, len(these))
	for i, d := range r.leads {
		require.Equal(t, layout.JackRef{Unit: these[i].Supply, Jack: these[i].Output}, layout.JackRef{Unit: d.Supply, Jack: d.Output})
		if d.Path == nil || these[i].Path == nil {
			require.Equal(t, these[i].Path == nil, d.Path == nil)
			continue
		}
		require.Equal(t, these[i].Path[0], d.Path[0])
		require.Equal(t, these[i].Path[1], d.Path[len(d.Path)-1], "straight, it has its two ends")
	}
}

// requireEnds wants a path from jack to jack, seen from above. Where it leaves the
// board an estimate has another end.
func requireEnds(t require.TestingT, path []route.Point3, r *route.Request) {
	from, to := path[0], path[len(path)-1]
	if !r.From.Edge {
		require.Equal(t, r.From.At, layout.Point{X: from.X, Y: from.Y})
	}
	if !r.To.Edge {
		require.Equal(t, r.To.At, layout.Point{X: to.X, Y: to.Y})
	}
}

// What is put in last pushes out what was not asked for the longest.
func TestRecent(t *testing.T) {
	r := recent[string, int]{most: 3}
	for i, k := range []string{"a", "b", "c"} {
		r.put(k, i)
	}
	r.put("b", 7)
	_, ok := r.get("a")
	assert.True(t, ok)
	r.put("d", 3)
	_, ok = r.get("c")
	assert.False(t, ok, "a and b were asked for since")
	for k, want := range map[string]int{"a": 0, "b": 7, "d": 3} {
		got, ok := r.get(k)
		assert.True(t, ok, k)
		assert.Equal(t, want, got, k)
	}
	assert.Len(t, r.known, 3)
}

package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/mount"
)

const layingFastener = "laying the fastener"

// fastener is mount.Lay, or a stand-in for tests.
type fastener func(p *layout.Plan) *mount.Result

// bedding is the fastener of a plan. To lay it takes longer than all other
// checks together, so that is done in the background; until it is, the last one
// stands.
type bedding struct {
	plan   *layout.Plan
	result *mount.Result
	laying bool
	known  recent[*layout.Plan, *mount.Result]
}

// keptBeds is how many plans' fastener is kept, at some 20 kB each.
const keptBeds = 16

type beddedMsg struct {
	plan   *layout.Plan
	result *mount.Result
}

// followFastener starts to lay the fastener of the plan on screen, if that is
// not known and none is being laid.
func (m *Model) followFastener() tea.Cmd {
	b, p := &m.bedding, m.plan()
	if was, ok := b.known.get(p); ok && b.plan != p {
		m.bed(p, was)
	}
	if b.laying || b.plan == p || len(p.Lineups) == 0 {
		return nil
	}
	b.laying = true
	work := m.opt.fasten
	return m.guarded(layingFastener, func() tea.Msg { return beddedMsg{p, work(p)} })
}

// bedded takes fastener that was laid, unless that of the plan on screen is known
// by now.
func (m *Model) bedded(msg beddedMsg) {
	b := &m.bedding
	b.laying = false
	b.known.put(msg.plan, msg.result)
	if b.plan != m.plan() {
		m.bed(msg.plan, msg.result)
	}
}

// bed makes fastener that which is shown; the findings are made up with it.
func (m *Model) bed(p *layout.Plan, r *mount.Result) {
	m.bedding.plan, m.bedding.result = p, r
	m.seen.checked, m.seen.merged = nil, false
}

// pieces are the pieces of fastener to draw, none until they are known.
func (b *bedding) pieces() []mount.Piece {
	if b.result == nil || b.result.Pieces == nil {
		return []mount.Piece{}
	}
	return b.result.Pieces
}

package tui

import (
	"context"
	"math"
	"os"
	"strconv"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/check"
	"footplank/layout/mount"
	"footplank/layout/plan"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// Model is the editor. It is a tea.Model.
type Model struct {
	opt    Options
	ctx    context.Context // ends when the editor does
	styles *styles
	file   keeper
	path   string // of the file, "" when the plan has none yet
	dir    string // the folder that the program was started in
	modes  *keyMap

	w, h  int
	areas areas

	history  *edit.History
	lineup   int
	selected string // ID of a unit of the line-up, "" for none
	held     int    // series of the edits since the unit was picked up, 0 when it is not
	series   int    // the last series given out
	stride   int    // index into edit.Strides; touching for "until it touches"
	culprit  int    // finding that was gone to last, -1 for none
	show     shown
	camera   camera
	moved    bool              // the last key moved the unit, held or not
	was      *layout.Placement // where the held unit was picked up, nil if nowhere
	other    string            // ID of the second unit while pairing

	mode     mode
	question question
	input    textinput.Model
	before   string // unit selected before looking began
	page     page
	note     note
	drag     drag

	job       *job
	jobs      int    // how many were started, to tell their messages apart
	offer     *offer // an arrangement that waits for a yes
	saving    bool
	quitAfter bool // leave once it is saved
	quitting  bool

	wires    wires
	bedding  bedding
	keep     keeping
	ed       editing
	leaves   map[string]*leaf // what stands on pages that take a while, by name
	trial    *trial           // units being tried, nil as long as none were
	boards   *boarding        // other boards, nil as long as none were tried
	printing *form.Form       // which sheet to write, nil as long as none was asked for
	writing  bool             // a sheet
	// cameFrom is the line-up that was on screen before.
	cameFrom string
	seen     seen
	checks   recent[*layout.Plan, verdicts]
}

// touching is the stride that goes on until the unit touches something.
const touching = 3

// shown says what of the board the drawing shows.
type shown struct {
	plugs, switches, slots, fastener bool
	cables, leads                    bool // their runs
	mouse                            bool
}

// note is a message that stands until the next key.
type note struct {
	text  string
	level check.Level // "" for plain
}

// New returns an editor of the plan in doc, for driven tests and for Run.
func New(doc *plan.Doc, opt Options) *Model {
	return newModel(context.Background(), &document{doc: doc}, doc.Path, doc.Plan, opt)
}

func newModel(ctx context.Context, file keeper, path string, p *layout.Plan, opt Options) *Model {
	m := &Model{
		opt: opt.withDefaults(), ctx: ctx, file: file, path: path, styles: newStyles(opt.NoColor, opt.ASCII), modes: newModes(),
		history: edit.New(p), stride: 1, culprit: -1,
		show:  shown{plugs: true, switches: true, slots: true, cables: true, mouse: !opt.NoMouse},
		wires: noWires(), bedding: bedding{known: recent[*layout.Plan, *mount.Result]{most: keptBeds}},
		checks: recent[*layout.Plan, verdicts]{most: keptChecks},
	}
	m.ed.base = baseOf(file, p)
	if m.dir, _ = os.Getwd(); m.dir == "" {
		m.dir = "."
	}
	m.note.text = "? shows what every key does now."
	if n := m.unplaced(); n > 0 && path != "" {
		m.note.text = plural(n, "unit") + " without a place in this line-up: a arranges all, space places the chosen one. ? shows every key."
	}
	return m
}

// Init asks for nothing, as the size comes by itself. Only the built-in example
// arranges itself, so that there is something to see.
func (m *Model) Init() tea.Cmd {
	if m.opt.Begin {
		return m.openFirst()
	}
	if m.path != "" {
		return nil
	}
	return m.arrangeExample()
}

// unplaced counts the units without a place in the line-up on screen.
func (m *Model) unplaced() int {
	_, none := m.plan().Standings(m.lineupNow())
	return len(none)
}

// Update handles one message.
func (m *Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	var cmd tea.Cmd
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.w, m.h = msg.Width, msg.Height
		m.settle()
		m.followUnit()
	case tea.KeyMsg:
		cmd = m.keyed(msg)
	case tea.MouseMsg:
		cmd = m.point(msg)
	case savedMsg:
		cmd = m.saved(msg)
	case progressMsg:
		cmd = m.progressed(msg)
	case arrangedMsg:
		m.arranged(msg)
	case beddedMsg:
		m.bedded(msg)
	case laidMsg:
		m.laid(msg)
	case restedMsg:
		cmd = m.rested(msg)
	case summedMsg:
		m.summed(msg)
	case boardKnownMsg:
		cmd = m.boardKnown(msg)
	case boardsDoneMsg:
		m.boardsDone(msg)
	case wroteMsg:
		m.wrote(msg)
	case readyMsg:
		m.readied(msg)
	case provedMsg:
		cmd = m.proved(msg)
	case triedMsg:
		m.tried(msg)
	case leafMsg:
		m.made(msg)
	case brokenMsg:
		m.broke(msg)
	case putByMsg:
		cmd = m.putByNow(false)
	case keptMsg:
		cmd = m.keptNow(msg)
	case changedMsg:
		m.fileChanged()
	case stopMsg:
		cmd = m.putByNow(true)
	case readMsg:
		m.hasRead(msg)
	case openedMsg:
		cmd = m.opened(msg)
	case knownMsg:
		m.looked(msg)
	case completedMsg:
		m.completed(msg)
	}
	m.settle()
	m.followBoards()
	return m, tea.Batch(cmd, m.followTrial(), m.follow(), m.followFastener(), m.followLeaf(), m.putBy())
}

// keyed handles keys, and keeps a unit that they choose or move in sight.
func (m *Model) keyed(msg tea.KeyMsg) tea.Cmd {
	id := m.selected
	was, _ := m.chosenBase()
	cmd := m.pressAll(msg)
	if now, ok := m.chosenBase(); ok && (now != was || m.selected != id) {
		m.followUnit()
	}
	return cmd
}

// pressAll handles keys. Letters that are pressed faster than they are read come
// together; what is pasted is text, which only a line to type into takes.
func (m *Model) pressAll(msg tea.KeyMsg) tea.Cmd {
	if msg.Type != tea.KeyRunes || len(msg.Runes) < 2 || m.modes[m.mode].typing {
		return m.press(msg)
	}
	if msg.Paste {
		return nil
	}
	var all []tea.Cmd
	for i, r := range msg.Runes {
		if m.modes[m.mode].typing {
			all = append(all, m.press(tea.KeyMsg{Type: tea.KeyRunes, Runes: msg.Runes[i:]}))
			break
		}
		all = append(all, m.press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: msg.Alt}))
	}
	return tea.Batch(all...)
}

// press handles a key: what every mode has, then the mode's own.
func (m *Model) press(msg tea.KeyMsg) tea.Cmd {
	m.note, m.moved = note{}, false
	defer m.settle()
	if msg.Type == tea.KeyCtrlC {
		return m.interrupt()
	}
	if msg.Type == tea.KeyCtrlZ {
		return tea.Suspend
	}
	if m.areas.span == tooSmall && m.mode != asking {
		if msg.String() == "q" {
			return m.quit()
		}
		return nil
	}
	return m.modes[m.mode].press(m, msg)
}

// plan returns the plan on screen: that of what is tried, or the best arrangement so far while one is
// sought or offered, else the plan as edited.
func (m *Model) plan() *layout.Plan {
	p, draft := m.history.Plan(), m.draft()
	switch {
	case m.onTrial():
		return m.trial.plan()
	case m.onBoards():
		return m.boards.plan()
	case draft != nil:
		return draft
	case m.offer != nil:
		return m.offer.plan
	case m.job != nil && m.job.best != nil && m.job.base == p:
		return m.job.best
	}
	return p
}

// lineupNow returns the line-up on screen.
func (m *Model) lineupNow() *layout.Lineup {
	p := m.plan()
	return &p.Lineups[min(m.lineup, len(p.Lineups)-1)]
}

// unit returns the selected unit, or nil.
func (m *Model) unit() *layout.Unit {
	if m.selected == "" {
		return nil
	}
	u := m.plan().Unit(m.selected)
	if u == nil || !m.plan().Present(m.lineupNow(), u.ID) {
		return nil
	}
	return u
}

// place returns the selected unit and where it stands in the plan as edited,
// which is not what is on screen while a better arrangement is shown; ok is
// false when there is none.
func (m *Model) place() (u *layout.Unit, pl layout.Placement, ok bool) {
	if m.unit() == nil {
		return nil, pl, false
	}
	p := m.history.Plan()
	if u = p.Unit(m.selected); u == nil {
		return nil, pl, false // of a plan that is only looked at
	}
	pl, ok = p.PlaceOf(m.edited(), u)
	return u, pl, ok
}

// edited returns the line-up on screen in the plan as edited.
func (m *Model) edited() *layout.Lineup {
	p := m.history.Plan()
	return &p.Lineups[min(m.lineup, len(p.Lineups)-1)]
}

// say puts up a message.
func (m *Model) say(level check.Level, text string) { m.note = note{text, level} }

// selectUnit selects a unit, setting down one that is held.
func (m *Model) selectUnit(id string) {
	if id != m.selected {
		m.held = 0
	}
	m.selected, m.wires.chosen = id, ""
}

// showLineup switches to a line-up. A unit that is not in it is let go.
func (m *Model) showLineup(i int) {
	m.held = 0
	m.lineup, m.culprit, m.wires.chosen = i, -1, ""
	if m.unit() == nil {
		m.selected = ""
	}
	if m.mode == pairing {
		m.mode = onBoard
	}
}

func digits(n int) string { return strconv.Itoa(n) }

// length writes a length as a tape measure shows it, in the plan's unit without
// its name: to a tenth of a millimetre or a 64th of an inch.
func (m *Model) length(l layout.Length) string {
	u := m.plan().LengthUnit
	fine := float64(layout.Millimetre) / 10
	if u == layout.Inches {
		fine = float64(layout.Inch) / 64
	}
	return layout.Length(math.Round(math.Round(float64(l)/fine) * fine)).Number(u)
}

// lengthUnit writes a length with the unit's name.
func (m *Model) lengthUnit(l layout.Length) string {
	if m.plan().LengthUnit == layout.Inches {
		return m.length(l) + " in"
	}
	return m.length(l) + " mm"
}

// cable writes a length of cable, which is known to a centimetre at best.
func (m *Model) cable(l layout.Length) string {
	if m.plan().LengthUnit == layout.Inches {
		return tenths(int64(l), int64(layout.Inch)*12) + " ft"
	}
	cm := int64(l/layout.Millimetre+5) / 10
	return digits(int(cm/100)) + "." + digits(int(cm%100/10)) + digits(int(cm%10)) + " m"
}

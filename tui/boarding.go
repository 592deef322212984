package tui

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/boards"
	"footplank/layout/check"
	"footplank/pack"
	"footplank/tui/edit"
)

const tryingBoards = "trying other boards"

// comparer tries a plan on boards: boards.Compare or boards.Staircase, or a
// stand-in for tests. step is 0 to try the list.
type comparer func(ctx context.Context, p *layout.Plan, list []boards.Candidate, step layout.Length, opt boards.Options) (*boards.Result, error)

func compareBoards(ctx context.Context, p *layout.Plan, list []boards.Candidate, step layout.Length, opt boards.Options) (*boards.Result, error) {
	if step > 0 {
		return boards.Staircase(ctx, p, step, layout.Size{}, opt)
	}
	return boards.Compare(ctx, p, list, opt)
}

// boarding is other boards being tried for the plan. What is known stays when it
// is stopped or left; nothing of the plan changes until a board is taken.
type boarding struct {
	base *layout.Plan // that the boards were tried for

	list   []boards.Candidate // those of the catalog, or of sizes
	sizes  string             // as typed, "" for the catalog's
	step   layout.Length      // of a staircase, 0 for a list
	mount  boards.Mounting
	noCase bool

	known  []*boards.Board // by area
	total  int             // to be tried, 0 when that is not known before
	result *boards.Result  // once it is over
	failed string
	chosen int
	looked bool // the player chose one; until then it is the smallest that works

	run     int // tells the messages of one search from another's
	running bool
	stopped bool // by the player: what comes now undecided was not tried
	cancel  context.CancelFunc
	news    chan boardNews
	asking  sizing // what is being typed
	wrong   string // with it
}

// sizing is what is typed: nothing, sizes, or the step of a staircase.
type sizing int

const (
	noSizes sizing = iota
	someSizes
	stairStep
)

// boardNews is a board that is known now.
type boardNews struct {
	total int
	board *boards.Board
}

type (
	boardKnownMsg struct {
		run  int
		news []boardNews
	}
	boardsDoneMsg struct {
		run    int
		result *boards.Result
		err    error
	}
)

// onBoards reports whether other boards are looked at on screen.
func (m *Model) onBoards() bool {
	return m.boards != nil && (m.mode == comparing || m.mode == sizingBoards || m.mode == reading && m.page.back == comparing)
}

// startComparing shows other boards; the first time those of the catalog are
// tried.
func (m *Model) startComparing() tea.Cmd {
	m.takeOwn()
	m.mode, m.held, m.selected = comparing, 0, ""
	b := m.boards
	if b == nil {
		b = &boarding{base: m.history.Plan()}
		m.boards = b
	}
	if b.running || len(b.known) > 0 && b.base == m.history.Plan() {
		return nil
	}
	if b.base != m.history.Plan() && len(b.known) > 0 {
		m.say(check.Caution, "These were tried for the plan as it was before your edits. x tries them anew.")
		return nil
	}
	return m.compare()
}

// compare begins anew, with the plan as it is now.
func (m *Model) compare() tea.Cmd {
	b, p := m.boards, m.history.Plan()
	b.halt()
	list := []boards.Candidate{boards.Own(p)}
	if b.sizes != "" {
		for _, c := range b.list {
			if c.W != p.Board.W || c.D != p.Board.D {
				list = append(list, c)
			}
		}
	} else {
		list = append(list, boards.OfCatalog(m.forms())...)
	}
	m.jobs++
	*b = boarding{base: p, list: b.list, sizes: b.sizes, step: b.step, mount: b.mount, noCase: b.noCase,
		total: len(list), run: m.jobs, running: true, news: make(chan boardNews, 4096)}
	if b.step > 0 {
		b.total = 0
	}
	ctx, cancel := context.WithTimeout(m.ctx, m.opt.boardSeconds())
	b.cancel = cancel
	work, run, news, step := m.opt.compare, b.run, b.news, b.step
	opt := boards.Options{Mounting: b.mount, WithoutCase: b.noCase, Seed: 1,
		Progress: func(_, total int, x *boards.Board) { news <- boardNews{total, x} }}
	seek := func() tea.Msg {
		defer close(news)
		defer cancel()
		r, err := work(ctx, p, list, step, opt)
		return boardsDoneMsg{run, r, err}
	}
	return tea.Batch(m.guarded(tryingBoards, seek), b.listen())
}

// listen waits for boards, and takes all that are there.
func (b *boarding) listen() tea.Cmd {
	run, news := b.run, b.news
	return func() tea.Msg {
		first, ok := <-news
		if !ok {
			return nil
		}
		all := []boardNews{first}
		for {
			select {
			case n, ok := <-news:
				if ok {
					all = append(all, n)
					continue
				}
			default:
			}
			return boardKnownMsg{run, all}
		}
	}
}

// boardKnown takes boards as they become known, and keeps to the chosen one.
func (m *Model) boardKnown(msg boardKnownMsg) tea.Cmd {
	b := m.boards
	if b == nil || b.run != msg.run {
		return nil
	}
	was := b.board()
	for _, n := range msg.news {
		if n.board.Verdict == pack.Undecided && b.stopped {
			continue
		}
		b.known = append(b.known, n.board)
		b.total = max(b.total, n.total)
	}
	b.sort(was)
	return b.listen()
}

func (b *boarding) sort(keep *boards.Board) {
	slices.SortStableFunc(b.known, func(x, y *boards.Board) int {
		return cmp.Or(cmp.Compare(x.W*x.D, y.W*y.D), cmp.Compare(x.W, y.W), cmp.Compare(x.Name, y.Name))
	})
	if i := slices.Index(b.known, keep); keep != nil && i >= 0 {
		b.chosen = i
	}
	if i := b.smallest(); !b.looked && i >= 0 {
		b.chosen = i
	}
	b.chosen = min(b.chosen, max(len(b.known)-1, 0))
}

// boardsDone takes the whole answer.
func (m *Model) boardsDone(msg boardsDoneMsg) {
	b := m.boards
	if b == nil || b.run != msg.run {
		return
	}
	b.running, b.cancel = false, nil
	if msg.err != nil {
		b.failed = clean(msg.err.Error())
		return
	}
	b.result = msg.result
}

// halt stops what is under way; what is known stays.
func (b *boarding) halt() {
	if b.cancel != nil {
		b.cancel()
		b.stopped = true
	}
}

// board is the chosen one, nil while none is known.
func (b *boarding) board() *boards.Board {
	if b.chosen < 0 || b.chosen >= len(b.known) {
		return nil
	}
	return b.known[b.chosen]
}

// smallest is the first of the boards known that works, -1 for none.
func (b *boarding) smallest() int {
	return slices.IndexFunc(b.known, func(x *boards.Board) bool { return x.Works })
}

func (b *boarding) plan() *layout.Plan {
	if x := b.board(); x != nil && x.Plan != nil {
		return x.Plan
	}
	return b.base
}

// stale reports whether the plan was edited since the boards were tried.
func (m *Model) stale() bool { return m.boards.base != m.history.Plan() }

// followBoards stops the work when nobody looks at it any more.
func (m *Model) followBoards() {
	if b := m.boards; b != nil && b.running && !m.onBoards() {
		b.halt()
	}
}

// stopComparing is the stop key; pressed again it tries all anew.
func (m *Model) stopComparing() tea.Cmd {
	if m.boards.running {
		m.boards.halt()
		m.say("", "Stopped. What is known stays; x tries them anew.")
		return nil
	}
	return m.compare()
}

// takeBoard makes the plan on the chosen board the plan, as one edit.
func (m *Model) takeBoard() tea.Cmd {
	b := m.boards
	x := b.board()
	had := b.base.Board.Case
	m.mode = onBoard
	b.halt()
	what := "take the board " + m.boardSize(x)
	m.history.Do(edit.Step{What: what}, func(p *layout.Plan) {
		*p = *x.Plan.Clone()
		if p.Board.Case == nil && had != nil {
			c := *had // it was only left out of account
			p.Board.Case = &c
		}
		if x.Own {
			return
		}
		p.Owned.Board = false
		delete(p.Prices, "board")
		if x.Price != nil {
			if p.Prices == nil {
				p.Prices = map[string]layout.Price{}
			}
			p.Prices["board"] = *x.Price
		}
	})
	m.say("", sentence(what)+" u takes it back.")
	return nil
}

func (m *Model) leaveBoards() tea.Cmd {
	m.boards.halt()
	m.mode = onBoard
	m.say("", "Nothing was changed. b shows the boards again.")
	return nil
}

// startSizing asks for sizes or for a step.
func (m *Model) startSizing(what sizing) tea.Cmd {
	b := m.boards
	b.asking, b.wrong, m.mode = what, "", sizingBoards
	value := b.sizes
	if what == stairStep {
		value = ""
		if b.step > 0 {
			value = m.length(b.step)
		}
	}
	m.input = newInput(value)
	return nil
}

// sized begins with the sizes or the step that was typed.
func (m *Model) sized() tea.Cmd {
	b, p := m.boards, m.history.Plan()
	text := strings.TrimSpace(m.input.Value())
	if b.asking == stairStep {
		step, err := layout.ParseLength(text, p.LengthUnit)
		switch least := 5 * layout.Millimetre; {
		case err != nil:
			b.wrong = clean(err.Error())
			return nil
		case step < least:
			b.wrong = "want at least " + m.lengthUnit(least)
			return nil
		}
		b.step, b.sizes = step, ""
	} else {
		list, err := sizesOf(text, p.LengthUnit)
		if err != nil {
			b.wrong = clean(err.Error())
			return nil
		}
		b.list, b.sizes, b.step = list, text, 0
	}
	m.mode = comparing
	return m.compare()
}

// sizesOf reads boards like "560x330, 24x12in".
func sizesOf(text string, bare layout.LengthUnit) ([]boards.Candidate, error) {
	var out []layout.Size
	for _, s := range strings.Split(text, ",") {
		if strings.TrimSpace(s) == "" {
			continue
		}
		size, err := boards.ParseSize(s, bare)
		if err != nil {
			return nil, err
		}
		out = append(out, size)
	}
	if out == nil {
		return nil, fmt.Errorf("want width x depth, several with commas between")
	}
	return boards.Sizes(out...), nil
}

// boardSeconds is how long boards are tried.
func (o Options) boardSeconds() time.Duration { return cmp.Or(o.BoardsFor, 2*time.Minute) }

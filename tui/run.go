package tui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"runtime/debug"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/term"

	"footplank/layout/arrange"
	"footplank/layout/check"
	"footplank/layout/mount"
	"footplank/layout/plan"
	_ "footplank/tui/background" // before the terminal library asks for it
	"footplank/tui/recovery"
)

// Options steer the editor. The zero value is ready to use.
type Options struct {
	ASCII   bool   // draw with plain letters and signs only
	NoColor bool   // as NO_COLOR in the environment does
	NoMouse bool   // leave the mouse to the terminal
	Begin   bool   // on the screen to choose a plan on, before the plan given
	Version string // shown at the end of the help
	// ArrangeFor is how long arranging goes on to improve; 0 for 15 s.
	ArrangeFor time.Duration
	// State is where what is not saved is put by; nil for nowhere.
	State *recovery.Store

	// TryFor is how long one unit is tried in a slot; 0 for 10 s.
	TryFor time.Duration
	// BoardsFor is how long other boards are tried; 0 for two minutes.
	BoardsFor time.Duration

	compare comparer      // compareBoards where nil
	print   sheetWriter   // writeSheet where nil
	prepare preparer      // prepareBench where nil
	arrange arranger      // arrange.Arrange where nil
	sum     summer        // sumUp where nil
	fasten  fastener      // mount.Lay where nil
	rest    time.Duration // before a plan that was edited is summed up
	// putByAfter is how long after an edit the plan is put by.
	putByAfter time.Duration
	// busy is read-locked by work in the background, so that the program can
	// wait for it at its end.
	busy *sync.RWMutex
}

// ErrStopped is that the editor had to go before the player left it: it was told
// to from outside, its terminal went away, or it met a fault of its own.
var ErrStopped = errors.New("the editor was stopped")

// patience is how long the editor may take to put the plan by when it has to go.
const patience = 3 * time.Second

// Run opens the plan in the editor and returns when the player leaves it. All
// work in the background has ended by then, and the terminal is as it was.
func Run(doc *plan.Doc, opt Options) error {
	if os.Getenv("NO_COLOR") != "" {
		opt.NoColor = true
	}
	defer collectRarely()()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	opt.busy, opt.rest, opt.putByAfter = new(sync.RWMutex), rest, putByAfter
	file := &document{doc: doc}
	m := newModel(ctx, file, doc.Path, doc.Plan, opt)
	if opt.State != nil {
		m.start(file, opt.State)
	}
	// Signals are met here: the library's own way ends without putting by.
	options := []tea.ProgramOption{tea.WithAltScreen(), tea.WithoutSignalHandler()}
	if !opt.NoMouse {
		options = append(options, tea.WithMouseCellMotion())
	}
	keys := newKeyboard(os.Stdin)
	if term.IsTerminal(int(os.Stdin.Fd())) {
		options = append(options, tea.WithInput(keys))
	}
	program := tea.NewProgram(m, options...)
	stopped := make(chan struct{})
	go obey(ctx, program, keys.lost, stopped)
	go watch(ctx, file, program.Send)
	_, err := program.Run()
	cancel()
	opt.busy.Lock() // never unlocked: nothing may start any more
	select {
	case <-stopped:
		err = errors.Join(ErrStopped, err)
	default:
		if errors.Is(err, tea.ErrInterrupted) {
			err = nil
		}
	}
	if file.end(err == nil) {
		err = fmt.Errorf("%w; what was not saved is put by, and offered the next time", err)
	}
	return err
}

// garbage is by how many percent memory may grow before it is cleared of what is
// not used any more. The editor holds some 15 MB, and an edit leaves a few behind;
// at the usual 100 every few edits would wait for a part of the clearing, which is
// a sixth of all their work.
const garbage = 300

// collectRarely sets that, unless the environment says otherwise, and returns what
// sets it back.
func collectRarely() (back func()) {
	if os.Getenv("GOGC") != "" {
		return func() {}
	}
	was := debug.SetGCPercent(garbage)
	return func() { debug.SetGCPercent(was) }
}

// start opens the session and tells what it finds.
func (m *Model) start(file *document, state *recovery.Store) {
	path := file.doc.Path
	m.keep.safe = file
	if err := file.open(state); err != nil {
		m.keep.failed = true
		m.say(check.Caution, "What is not saved cannot be put by against a crash: "+clean(err.Error())+".")
	}
	if path == "" {
		return
	}
	if told := othersOf(state.Others(path)); told != "" {
		m.say(check.Caution, told)
	}
	if lefts := state.Lefts(path); len(lefts) > 0 {
		m.offerLeft(lefts[0])
	}
}

// obey ends the editor when the system says so or the terminal is lost: first by
// putting the plan by, and when that takes too long by just going.
func obey(ctx context.Context, program *tea.Program, lost <-chan struct{}, stopped chan<- struct{}) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, stopSignals...)
	defer signal.Stop(signals)
	select {
	case <-ctx.Done():
		return
	case <-signals:
	case <-lost:
	}
	close(stopped)
	go program.Send(stopMsg{}) // waits for ever once the program has ended
	late := time.NewTimer(patience)
	defer late.Stop()
	select {
	case <-ctx.Done():
	case <-late.C:
		program.Kill()
	}
}

// watchEvery is how often the plan's file is looked at.
const watchEvery = 2 * time.Second

// watch tells when another program changes the plan's file, and does nothing
// else, so that an editor that nobody touches is not drawn again.
func watch(ctx context.Context, file *document, tell func(tea.Msg)) {
	look := time.NewTicker(watchEvery)
	defer look.Stop()
	var seen fileMark
	for {
		select {
		case <-ctx.Done():
			return
		case <-look.C:
		}
		if now := markOf(file.file()); now != seen {
			if file.Changed() {
				go tell(changedMsg{})
			}
			seen = now
		}
	}
}

// fileMark is what tells cheaply that a file may have changed.
type fileMark struct {
	path     string
	size     int64
	modified time.Time
}

func markOf(path string) fileMark {
	info, err := os.Stat(path)
	if err != nil {
		return fileMark{path: path}
	}
	return fileMark{path, info.Size(), info.ModTime()}
}

// withDefaults fills in what the zero value leaves open.
func (o Options) withDefaults() Options {
	if o.busy == nil {
		o.busy = new(sync.RWMutex)
	}
	if o.arrange == nil {
		o.arrange = arrange.Arrange
	}
	if o.prepare == nil {
		o.prepare = prepareBench
	}
	if o.compare == nil {
		o.compare = compareBoards
	}
	if o.print == nil {
		o.print = writeSheet
	}
	if o.sum == nil {
		o.sum = sumUp
	}
	if o.fasten == nil {
		o.fasten = mount.Lay
	}
	return o
}

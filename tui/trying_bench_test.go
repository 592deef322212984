package tui

import (
	"context"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// trier is an editor of the built-in example in which units are tried for real,
// in the background as at home: its commands run beside it, their messages come
// when they come.
type trier struct {
	m    *Model
	msgs chan tea.Msg
}

func newTrier(b *testing.B) *trier {
	found, err := arrangedPlan(exampleDoc(b).Plan)
	if err != nil {
		b.Fatal(err)
	}
	e := &trier{newModel(context.Background(), &disk{}, "", found, Options{}), make(chan tea.Msg, 100)}
	e.do(tea.WindowSizeMsg{Width: 200, Height: 60})
	e.m.wires.summing, e.m.bedding.laying = true, true
	return e
}

func (e *trier) do(msg tea.Msg) {
	if msg == nil {
		return
	}
	if all, ok := msg.(tea.BatchMsg); ok {
		for _, c := range all {
			e.start(c)
		}
		return
	}
	_, cmd := e.m.Update(msg)
	e.start(cmd)
}

func (e *trier) start(cmd tea.Cmd) {
	if cmd != nil {
		go func() { e.msgs <- cmd() }()
	}
}

// until takes messages until the chosen candidate has its verdict.
func (e *trier) until() {
	for e.m.trial.answer() == nil {
		e.do(<-e.msgs)
	}
}

// BenchmarkTrying is from the key that chooses a candidate to the frame with its
// verdict, and to the first frame, with cables laid, while it is being tried.
func BenchmarkTrying(b *testing.B) {
	e := newTrier(b)
	var verdicts, frames []time.Duration
	show := func(began time.Time) {
		if e.m.View() == "" {
			b.Fatal("no frame")
		}
		frames = append(frames, time.Since(began))
		e.until()
		if e.m.View() == "" {
			b.Fatal("no frame")
		}
		verdicts = append(verdicts, time.Since(began))
	}
	e.do(keyOf("y"))
	e.until()
	for b.Loop() {
		t := e.m.trial
		if t.chosen == len(t.shown)-1 {
			clear(t.answers)
			for t.chosen > 0 {
				t.chosen--
			}
		}
		began := time.Now()
		e.do(keyOf("down"))
		show(began)
	}
	report(b, verdicts, "verdict-")
	report(b, frames, "frame-")
}

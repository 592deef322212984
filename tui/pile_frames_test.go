package tui

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/require"

	"footplank/tui/recovery"
)

// pileStates are the screens over the board, with the keys that lead there from
// the start screen; "" goes on to the next step.
var pileStates = []struct {
	name string
	do   func(p *player)
}{
	{"start screen", func(p *player) {}},
	{"start screen, plans that are known", func(p *player) {
		p.send(knownMsg{recent: []string{"/music/boards/barn.toml", "/music/boards/pit.toml"}, lefts: []recovery.Left{{About: recovery.About{
			Title: "Barn dance", Path: "/music/boards/barn.toml", At: time.Date(2024, 5, 11, 21, 30, 0, 0, time.Local)}}}})
		p.keys("down", "down")
	}},
	{"new plan", func(p *player) { p.keys("enter", "enter", "down") }},
	{"new plan in inches", func(p *player) { p.keys("enter", "down", "enter", "down", "down") }},
	{"what changes from gig to gig", func(p *player) {
		p.keys("enter", "enter").fill("Mine").keys("enter", "esc", "n", "down").text("colour, space")
	}},
	{"slots of a new plan", func(p *player) {
		p.keys("enter", "enter").fill("Mine").keys("enter").text("mini-tuner").keys("enter", "enter", "esc", "n").fill("barn, pit", "colour").keys("ctrl+s")
	}},
	{"catalog", func(p *player) { p.keys("esc", "esc", "A").text("comp") }},
	{"new unit", func(p *player) { p.keys("esc", "esc", "A").text("wah").keys("enter", "down") }},
	{"form with an error", func(p *player) {
		p.keys("esc", "esc", "tab", "E", "down", "down").text("2000").keys("enter")
	}},
	{"unit card", func(p *player) { p.keys("esc", "esc", "tab", "E") }},
	{"unit card, further down", func(p *player) {
		p.keys("esc", "esc", "tab", "E")
		for range 14 {
			p.keys("down")
		}
	}},
	{"leaving a form", func(p *player) { p.keys("esc", "esc", "tab", "E").text("Other").keys("esc") }},
	{"plan menu", func(p *player) { p.keys("esc", "esc", "P") }},
	{"units", func(p *player) { p.keys("esc", "esc", "P", "enter") }},
	{"chain", func(p *player) { p.keys("esc", "esc", "C", "down", "down", "shift+down") }},
	{"put into the chain", func(p *player) { p.keys("esc", "esc", "C", "a") }},
	{"slot", func(p *player) {
		p.keys("esc", "esc", "P", "down", "down", "down", "down", "enter", "enter", "down", "down")
	}},
	{"board", func(p *player) { p.keys("esc", "esc", "P", "down", "down", "enter") }},
	{"line-ups", func(p *player) { p.keys("esc", "esc", "P", "down", "down", "down", "down", "down", "enter") }},
	{"what is in a slot", func(p *player) {
		p.keys("esc", "esc", "P", "down", "down", "down", "down", "down", "enter", "down", "enter", "down")
	}},
	{"owned", func(p *player) { p.keys("esc", "esc", "P").press("What you have") }},
	{"switch", func(p *player) { p.card("verb").follow("switches").keys("a", "down") }},
	{"outputs", func(p *player) { p.card("supply").follow("outputs").keys("down") }},
	{"output", func(p *player) { p.card("supply").follow("outputs").keys("enter", "down", "down") }},
	{"where a unit stands", func(p *player) { p.card("squash").follow("place").keys("down") }},
	{"jacks, one of them not there", func(p *player) { p.card("verb").follow("jacks").keys("down", "x") }},
	{"help of lists", func(p *player) { p.keys("esc", "esc", "P", "?").text("in a list") }},
}

// Every screen over the board in two sizes, plain and ascii; -update writes them
// anew.
func TestPileFrames(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		for _, theme := range themes {
			if theme.name == "colour" && size[0] == 200 {
				continue
			}
			t.Run(fmt.Sprintf("%dx%d-%s", size[0], size[1], theme.name), func(t *testing.T) {
				var b strings.Builder
				for _, s := range pileStates {
					p := newcomer(t, theme.opt, size[0], size[1])
					s.do(p)
					frame := p.m.View()
					requireInside(t, frame, size[0], size[1])
					if theme.opt.NoColor {
						require.NotContains(t, frame, "\x1b", "escape sequences without colour")
					}
					if theme.opt.ASCII {
						requireASCII(t, frame)
					}
					fmt.Fprintf(&b, "#### %s\n%s\n", s.name, frame)
				}
				golden.RequireEqual(t, b.String())
			})
		}
	}
}

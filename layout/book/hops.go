package book

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"footplank/layout"
	"footplank/layout/wiring"
)

// hop is one step of the signal: from a unit or an end of the chain to the next.
type hop struct {
	from, to layout.JackRef
	cables   []wiring.Cable // one, or two of a stereo link; none where a place is missing
}

// hops returns the line-up's chain as steps in the order of the signal, and the
// cables besides it.
func (b *Book) hops(l *layout.Lineup) (hops []hop, besides []wiring.Cable) {
	links := b.p.ChainLinks(l)
	links = links[:max(len(b.p.Nodes(l))-1, 0)]
	w := b.w.Of(l.Name)
	taken := map[string]bool{}
	for _, k := range links {
		h := hop{from: k.From, to: k.To}
		for _, c := range w.Cables {
			same := c.From == k.From && c.To == k.To
			beside := c.Stereo && c.From.Unit == k.From.Unit && c.To.Unit == k.To.Unit
			if !taken[c.ID] && (same || beside && len(h.cables) == 1) {
				h.cables = append(h.cables, c)
				taken[c.ID] = true
			}
		}
		hops = append(hops, h)
	}
	for _, c := range w.Cables {
		if !taken[c.ID] {
			besides = append(besides, c)
		}
	}
	return hops, besides
}

// cable names a cable in a few words: its letter in the kit, or whose it is.
func cable(c *wiring.Cable) string {
	switch {
	case c.Kit != "":
		return c.Kit
	case layout.OffBoard(c.From.Unit):
		return c.From.Unit + " cable"
	case layout.OffBoard(c.To.Unit):
		return c.To.Unit + " cable"
	}
	return c.ID
}

// beside tells of a cable that is no hop of the chain.
func (b *Book) beside(c *wiring.Cable) string {
	which := "cable " + cable(c)
	if c.OffBoard() {
		which = "the " + cable(c)
	}
	return fmt.Sprintf("Besides: %s from %s to %s.", which, b.jack(c.From), b.jack(c.To))
}

// called names the cables of a hop.
func (h *hop) called() string {
	var names []string
	for i := range h.cables {
		names = append(names, cable(&h.cables[i]))
	}
	if len(names) == 0 {
		return "?"
	}
	return strings.Join(names, "+")
}

// words names the cables of a hop in a sentence.
func (h *hop) words() string {
	switch {
	case len(h.cables) == 0 || h.cables[0].Kit == "":
		return h.called()
	case len(h.cables) > 1:
		return "cables " + h.called()
	}
	return "cable " + h.called()
}

// chainText draws a chain in lines of at most that many cells.
func (b *Book) chainText(hops []hop, width int) []string {
	if len(hops) == 0 {
		return []string{"(no chain)"}
	}
	parts := []string{b.name(hops[0].from.Unit)}
	for i, h := range hops {
		out := ""
		if i+1 < len(hops) {
			out = hops[i+1].from.Jack
		}
		parts = append(parts, fmt.Sprintf("--%s-> %s%s", h.called(), b.name(h.to.Unit), jacks(h.to.Jack, out)))
	}
	lines := []string{parts[0]}
	for _, s := range parts[1:] {
		last := &lines[len(lines)-1]
		if ansi.StringWidth(*last)+1+ansi.StringWidth(s) <= width {
			*last += " " + s
		} else {
			lines = append(lines, "  "+s)
		}
	}
	return lines
}

// jacks names a pass through a unit where it is not by the usual jacks.
func jacks(in, out string) string {
	if (in == "in" || in == "") && (out == "out" || out == "") {
		return ""
	}
	if out == "" {
		return " (" + in + ")"
	}
	return " (" + in + " to " + out + ")"
}

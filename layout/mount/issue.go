package mount

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"footplank/layout"
)

// Codes of what can be wrong with fastener.
const (
	// Weak: a unit's fastener carries less than a load asks. Caution; fault
	// where it asks more than half of what the fastener is published to hold.
	// Measured is the load's force in N, Limit what a design may count on in
	// the same way. Statics; JerkG, CablePull and DesignShare are common
	// practice, no source.
	Weak = "fastener-weak"
	// None: there is no room for any piece beneath a unit. Fault. Measured is
	// the load in N that it would have to carry, Limit 0.
	None = "fastener-none"
	// TwoKinds: a unit of one kind stands where one of the other kind stands
	// in another line-up, so that its pieces go round the other's strips.
	// Caution. Measured is the area in mm2 that they share, Limit 0.
	TwoKinds = "fastener-kinds"
)

// halfPublished is the use of a fastener at which half of the published figure
// is passed; makers' figures for one kind differ by about as much.
const halfPublished = 0.5 / DesignShare

// Issue is something about the fastener of a line-up that a player should know.
type Issue struct {
	Code   string
	Fault  bool // it will come off; else a caution
	Lineup string
	Units  []string
	Text   string
	// Measured and Limit are in Unit: "N" or "mm2".
	Measured, Limit float64
	Unit            string
}

// issues looks at every line-up, given its stands.
func (b *bed) issues(at [][]int) []Issue {
	var out []Issue
	for l, here := range at {
		for _, i := range here {
			s := b.all[i]
			h := s.statics.worst(&b.grips[i])
			if h.Use <= 1 {
				continue
			}
			out = append(out, b.weak(s, &h, b.p.Lineups[l].Name))
		}
		for _, i := range here {
			out = append(out, b.twoKinds(i, l)...)
		}
	}
	return out
}

func (b *bed) weak(s *stand, h *Hold, lineup string) Issue {
	out := Issue{Code: Weak, Fault: h.Use > halfPublished, Lineup: lineup, Units: []string{s.unit.ID},
		Measured: h.Newtons, Limit: h.Limit, Unit: "N"}
	what := fmt.Sprintf("%s pulls at its %s fastener with %.1f N %s, and %.1f N is what that may carry.",
		s.unit.Label, s.kind, h.Newtons, when[h.Load], math.Floor(h.Limit*10)/10)
	if h.Load == NoPiece {
		out.Code, out.Fault = None, true
		what = fmt.Sprintf("There is no room for any %s fastener beneath %s.", s.kind, s.unit.Label)
	}
	out.Text = what + " " + b.help(s, h)
	return out
}

// when says what happens in each load.
var when = map[Load]string{
	Upright:     "when the board is carried upright and bumped",
	PulledOff:   "when the board is turned over and bumped",
	CablePulled: "when somebody pulls at a cable",
	AtToe:       "on the half towards the toe when the board is turned over and bumped",
}

// The strongest rolls that are published, in kPa: 14 psi on retail labels of
// hook-and-loop, 400+400 stems in a mushroom-head datasheet.
var strongest = map[Kind]float64{HookAndLoop: 97, Interlock: 380}

// help names what would make a unit hold, each tried.
func (b *bed) help(s *stand, h *Hold) string {
	var ways []string
	bare := *s
	bare.spots = nil
	if s.whole(s.statics.stress) {
		ways = append(ways, "take a wider strip, so that more of its base is covered")
	}
	if s.kind == HookAndLoop {
		if roll := RollOf(b.p, Interlock); s.whole(roll.design()) {
			ways = append(ways, "mount it fixed")
		}
	}
	if need := math.Ceil(RollOf(b.p, s.kind).StrengthKPa * h.Use); h.Load != NoPiece && need <= strongest[s.kind] {
		ways = append(ways, fmt.Sprintf("take a roll of at least %.0f kPa", need))
	}
	if len(s.spots) > 0 && bare.whole(s.statics.stress) {
		ways = append(ways, "clear its base of what keeps the strip away")
	}
	switch on, _ := b.p.Board.Surface(s.place.On); {
	case !on.At.Contains(s.base):
		ways = append(ways, "let less of it stand past the edge")
	case on.Rails != nil && !covered(s.base, s.bears):
		ways = append(ways, "put another rail beneath it")
	}
	if len(ways) == 0 {
		return "Put a strap over it or screw it down."
	}
	text := strings.Join(ways, ", or ")
	return strings.ToUpper(text[:1]) + text[1:] + "."
}

// whole reports whether the unit would hold at that stress with all the room
// covered that there is. Between spots, rows of the least width show how much
// that is.
func (s *stand) whole(stress float64) bool {
	var g grip
	for _, r := range s.free {
		if len(s.spots) == 0 {
			g.add(s.statics, r)
			continue
		}
		for lo := r.Y0; lo+Least <= r.Y1; lo += Least {
			for _, c := range (track{lo: lo, hi: lo + Least, width: Least}).cut(nil, s) {
				g.add(s.statics, c)
			}
		}
	}
	return s.statics.holds(&g, s.statics.stress/stress)
}

// covered reports whether the rails lie beneath all of the base.
func covered(base layout.Rect, bears []layout.Rect) bool {
	sum := 0.0
	for _, r := range bears {
		sum += area(r)
	}
	return sum >= area(base)*0.999
}

// twoKinds finds units of the other kind that stand at the same place in other
// line-ups.
func (b *bed) twoKinds(i, lineup int) []Issue {
	s := b.all[i]
	var out []Issue
	for j, t := range b.all {
		if j == i || t.kind == s.kind || t.unit == s.unit || !s.share(t) || slices.Contains(t.lineups, lineup) {
			continue
		}
		other := b.p.Lineups[t.lineups[0]].Name
		out = append(out, Issue{Code: TwoKinds, Lineup: b.p.Lineups[lineup].Name, Units: []string{s.unit.ID, t.unit.ID},
			Measured: area(s.base.Intersect(t.base)), Unit: "mm2",
			Text: fmt.Sprintf("%s (%s) stands where %s (%s) stands in line-up %s, so its strips must go round the other's. Mount both alike, or give them places of their own.",
				s.unit.Label, s.kind, t.unit.Label, t.kind, other)})
	}
	return out
}

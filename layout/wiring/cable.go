package wiring

import (
	"fmt"
	"math"

	"footplank/layout"
)

// Allowances for cutting. The take is the middle of the 20 to 30 mm that makers
// of solderless plugs state; the slack is common practice, no source.
const (
	PlugTake   = 25 * layout.Millimetre
	SlackLeast = 20 * layout.Millimetre
	slackShare = 10 // a tenth of the run
)

// Stock is the lengths that ready-made patch cables come in, rising: common
// practice, no source.
var Stock = []layout.Length{
	10 * layout.Centimetre, 15 * layout.Centimetre, 20 * layout.Centimetre, 30 * layout.Centimetre,
	45 * layout.Centimetre, 60 * layout.Centimetre, 90 * layout.Centimetre,
}

// Point3 is a place on or above the board.
type Point3 struct{ X, Y, Z layout.Length }

// Cable is one audio cable of a line-up.
type Cable struct {
	ID       string
	From, To layout.JackRef
	Path     []Point3      // from plug tip to plug tip
	Run      layout.Length // length of Path
	// Cut is the length to cut, and Stock the next ready-made length at
	// least as long, zero where none is. Both are zero for a cable that
	// leaves the board: that one is the player's stage cable.
	Cut, Stock layout.Length
}

// OffBoard reports whether the cable leaves the board.
func (c *Cable) OffBoard() bool {
	return layout.OffBoard(c.From.Unit) || layout.OffBoard(c.To.Unit)
}

// Cables returns the line-up's cables in the order of the signal. Those with an
// end at a unit that is not placed are left out. A cable that leaves the board
// ends at the nearest of its side and back edges.
func Cables(p *layout.Plan, l *layout.Lineup) []Cable {
	placed, _ := p.Standings(l)
	at := make(map[string]*layout.Standing, len(placed))
	for i := range placed {
		at[placed[i].Unit.ID] = &placed[i]
	}
	var out []Cable
	for _, k := range p.ChainLinks(l) {
		a, aok := tip(at, k.From)
		b, bok := tip(at, k.To)
		switch {
		case aok && bok:
		case aok && layout.OffBoard(k.To.Unit):
			b = edge(&p.Board, a)
		case bok && layout.OffBoard(k.From.Unit):
			a = edge(&p.Board, b)
		default:
			continue
		}
		c := Cable{ID: fmt.Sprintf("c%d", len(out)+1), From: k.From, To: k.To, Path: []Point3{a, b}}
		c.Run = Distance(a, b)
		if !c.OffBoard() {
			c.Cut = Cut(c.Run)
			c.Stock = NextStock(c.Cut)
		}
		out = append(out, c)
	}
	return out
}

// Total returns the runs of the cables that stay on the board, added up.
func Total(cs []Cable) layout.Length {
	var sum layout.Length
	for i := range cs {
		if !cs[i].OffBoard() {
			sum += cs[i].Run
		}
	}
	return sum
}

// Cut returns the length to cut for a run.
func Cut(run layout.Length) layout.Length {
	return run + 2*PlugTake + max(run/slackShare, SlackLeast)
}

// NextStock returns the shortest ready-made length that is at least cut, or
// zero when none is.
func NextStock(cut layout.Length) layout.Length {
	for _, s := range Stock {
		if s >= cut {
			return s
		}
	}
	return 0
}

// Distance returns the straight distance, rounded up to a micrometre.
func Distance(a, b Point3) layout.Length {
	dx, dy, dz := float64(a.X-b.X), float64(a.Y-b.Y), float64(a.Z-b.Z)
	return layout.Length(math.Ceil(math.Sqrt(dx*dx + dy*dy + dz*dz)))
}

func tip(at map[string]*layout.Standing, r layout.JackRef) (Point3, bool) {
	s := at[r.Unit]
	if s == nil {
		return Point3{}, false
	}
	j := s.Unit.Jack(r.Jack)
	if j == nil {
		return Point3{}, false
	}
	p, z := s.Unit.Tip(j, s.Place.Turn)
	p = p.Add(s.Place.At)
	return Point3{p.X, p.Y, s.Z + z}, true
}

// edge returns the point of the board's side and back edges that is nearest to
// a; cables do not leave over the front, where the player's feet are.
func edge(b *layout.Board, a Point3) Point3 {
	x, y := min(max(a.X, 0), b.W), min(max(a.Y, 0), b.D)
	best := Point3{x, b.D, a.Z}
	for _, e := range []Point3{{0, y, a.Z}, {b.W, y, a.Z}} {
		if Distance(a, e) < Distance(a, best) {
			best = e
		}
	}
	return best
}

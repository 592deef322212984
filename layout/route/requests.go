package route

import (
	"fmt"

	"footplank/layout"
)

// Outside diameters of usual cables: common practice, no source.
const (
	PatchDiameter = 4 * layout.Millimetre // between units
	LeadDiameter  = 4 * layout.Millimetre // of power; there are thinner ones
	StageDiameter = 6 * layout.Millimetre // to the instrument, the amp and the desk
)

// BendRadius returns the least radius for a cable of that outside diameter:
// five times it, the low end of 5 to 10 for coax (rfessentials).
func BendRadius(diameter layout.Length) layout.Length { return 5 * diameter }

// Allowances for cutting a cable or a lead. The take is the middle of the 20 to
// 30 mm that makers of solderless plugs state; the slack is common practice, no
// source.
const (
	PlugTake   = 25 * layout.Millimetre
	SlackLeast = 20 * layout.Millimetre
	slackShare = 10 // a tenth of the run
)

// Cut returns the length to cut for a run.
func Cut(run layout.Length) layout.Length {
	return run + 2*PlugTake + max(run/slackShare, SlackLeast)
}

// EndOf returns the end of a cable at a jack of a placed unit; ok is false when
// the unit has no such jack.
func EndOf(s *layout.Standing, jack string) (e End, ok bool) {
	j := s.Unit.Jack(jack)
	if j == nil {
		return End{}, false
	}
	p, z := s.Unit.Tip(j, s.Place.Turn)
	return End{
		Unit: s.Unit.ID, Jack: jack, At: p.Add(s.Place.At), Z: s.Z + z, Dir: j.Wall.Turned(s.Place.Turn),
	}, true
}

// AudioRequests returns the line-up's audio cables in the order of the signal,
// named c1, c2 and so on. Those with an end at a unit without a place are left
// out. A cable that leaves the board ends at an edge; see EdgeFor.
func AudioRequests(p *layout.Plan, l *layout.Lineup) []Request {
	placed, _ := p.Standings(l)
	at := make(map[string]*layout.Standing, len(placed))
	for i := range placed {
		at[placed[i].Unit.ID] = &placed[i]
	}
	end := func(r layout.JackRef) (End, bool) {
		if s := at[r.Unit]; s != nil {
			return EndOf(s, r.Jack)
		}
		return End{}, false
	}
	var out []Request
	for _, k := range p.ChainLinks(l) {
		from, fromOK := end(k.From)
		to, toOK := end(k.To)
		diameter := PatchDiameter
		switch {
		case fromOK && toOK:
		case fromOK && layout.OffBoard(k.To.Unit):
			to, diameter = EdgeFor(&p.Board, from, k.To.Unit), StageDiameter
		case toOK && layout.OffBoard(k.From.Unit):
			from, diameter = EdgeFor(&p.Board, to, k.From.Unit), StageDiameter
		default:
			continue
		}
		out = append(out, Request{
			ID: fmt.Sprintf("c%d", len(out)+1), Kind: Audio, From: from, To: to,
			Diameter: diameter, BendRadius: BendRadius(diameter),
		})
	}
	return out
}

// EdgeFor returns the end at which a cable from e leaves the board, to what the
// name says: the place of the board's sides and back that is nearest to the
// tip, counting what it takes to turn there. Cables do not leave over the
// front, where the player's feet are. A tip that is past the edge already is
// its own end.
func EdgeFor(b *layout.Board, e End, name string) End {
	x, y := min(max(e.At.X, 0), b.W), min(max(e.At.Y, 0), b.D)
	radius := BendRadius(StageDiameter)
	var best End
	var least layout.Length = -1
	for _, to := range []End{
		{At: layout.Point{X: x, Y: max(b.D, e.At.Y)}, Dir: layout.Back},
		{At: layout.Point{X: b.W + max(e.At.X-b.W, 0), Y: y}, Dir: layout.Right},
		{At: layout.Point{X: min(0, e.At.X), Y: y}, Dir: layout.Left},
	} {
		cost := apart(e.At, to.At)
		switch heading(to.Dir) - heading(e.Dir) {
		case 0:
		case 2, -2: // about turn, and round the unit that the plug is in
			cost += 4 * radius
		default:
			cost += radius
		}
		if least < 0 || cost < least {
			best, least = to, cost
		}
	}
	best.Unit, best.Edge, best.Z = name, true, StageDiameter/2
	return best
}

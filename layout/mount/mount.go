package mount

import (
	"slices"

	"footplank/layout"
)

// Kind is a kind of fastener.
type Kind string

const (
	Interlock   Kind = "interlock"     // mushroom heads that snap into each other
	HookAndLoop Kind = "hook-and-loop" // peels off
)

// KindOf returns the kind of fastener for a mount.
func KindOf(m layout.Mount) Kind {
	if m == layout.Fixed {
		return Interlock
	}
	return HookAndLoop
}

// Widths is the stock widths of both kinds, rising: common practice, no source.
var Widths = []layout.Length{20 * layout.Millimetre, 25 * layout.Millimetre, 50 * layout.Millimetre}

const (
	// Margin is kept free along the edges of the base and of the surface, so
	// that nothing shows or peels: common practice, no source.
	Margin = 4 * layout.Millimetre
	// Gap is the least distance between two strips beneath one unit: common
	// practice, no source.
	Gap = 10 * layout.Millimetre
	// Sliver is the least width of a strip: a bearing narrower than this less
	// its margin gets a strip of half its width.
	Sliver = 8 * layout.Millimetre

	// JerkG is the load that a unit puts on its fastener, as a multiple of
	// its weight, when the board is carried upright and bumped: common
	// practice, no source.
	JerkG = 5
	// gravity in mm/s2 makes N from g: 9.80665 m/s2 (ISO 80000-3).
	gravity = 9.80665
	// Published strengths in kPa: the least shear strength on retail labels
	// of hook-and-loop, 10 psi; the least tension figure for 250+250 stems
	// in a mushroom-head datasheet.
	hookAndLoopKPa, interlockKPa = 69.0, 207.0
	// designShare is the share of a published figure that may be used:
	// common practice, no source.
	designShare = 0.1
)

// Piece is one strip of fastener. The board's side and the unit's side are cut
// alike.
type Piece struct {
	Unit   string
	Lineup string // name of the line-up, "" when the piece is there in every one
	Kind   Kind
	// Surface is the name of the surface; OnBoard is where on it, in the
	// board's frame.
	Surface string
	OnBoard layout.Rect
	// UnderUnit is where on the unit's base, with the unit turned over left
	// to right, its front wall towards the reader: origin at the front-left
	// corner as it is then seen.
	UnderUnit layout.Rect
	Width     layout.Length // stock width of the strip it is cut from
}

// Length returns the length to cut, the longer side.
func (p *Piece) Length() layout.Length { return max(p.OnBoard.W(), p.OnBoard.D()) }

// Pieces returns the pieces beneath the placed units of a line-up, in the
// plan's order of units, for each from the front-left on. A unit that bears on
// nothing has none.
func Pieces(p *layout.Plan, l *layout.Lineup) []Piece {
	placed, _ := p.Standings(l)
	var out []Piece
	for i := range placed {
		s := &placed[i]
		surface, _ := p.Board.Surface(s.Place.On)
		base := s.Unit.Base(s.Place)
		name := l.Name
		if everywhere(p, s.Unit) {
			name = ""
		}
		strips, width := cutStrips(regions(surface, base), Needed(s.Unit))
		for _, r := range strips {
			out = append(out, Piece{
				Unit: s.Unit.ID, Lineup: name, Kind: KindOf(s.Unit.Mount), Surface: s.Place.On,
				OnBoard: r, UnderUnit: Under(s.Unit, s.Place, r), Width: width,
			})
		}
	}
	return out
}

// All returns the pieces of every line-up, those that are in all of them once.
func All(p *layout.Plan) []Piece {
	var out []Piece
	for i := range p.Lineups {
		for _, piece := range Pieces(p, &p.Lineups[i]) {
			if i == 0 || piece.Lineup != "" {
				out = append(out, piece)
			}
		}
	}
	return out
}

// everywhere reports whether the unit stands at one place in all line-ups.
func everywhere(p *layout.Plan, u *layout.Unit) bool {
	if p.InSlots(u.ID) {
		return false
	}
	for i := range p.Lineups {
		if _, own := p.Lineups[i].Place[u.ID]; own {
			return false
		}
	}
	return true
}

// Needed returns the area of fastener that carries the unit, in mm2.
func Needed(u *layout.Unit) float64 {
	kPa := hookAndLoopKPa
	if u.Mount == layout.Fixed {
		kPa = interlockKPa
	}
	newtons := u.Mass.Grams() / 1000 * gravity * JerkG
	return newtons / (kPa * designShare) * 1000 // 1 kPa is 1 N per 1000 mm2
}

// regions returns where the base bears, less the margin, from the front-left
// on.
func regions(s layout.Surface, base layout.Rect) []layout.Rect {
	bearing := []layout.Rect{s.At.Intersect(base)}
	if s.Rails != nil {
		bearing = bearing[:0]
		for _, r := range s.Rails {
			bearing = append(bearing, r.At.Intersect(base).Intersect(s.At))
		}
	}
	var out []layout.Rect
	for _, r := range bearing {
		if !r.Empty() {
			x, y := inset(r.W()), inset(r.D())
			out = append(out, layout.Rect{X0: r.X0 + x, Y0: r.Y0 + y, X1: r.X1 - x, Y1: r.Y1 - y})
		}
	}
	slices.SortStableFunc(out, func(a, b layout.Rect) int {
		return cmpPoint(layout.Point{X: a.X0, Y: a.Y0}, layout.Point{X: b.X0, Y: b.Y0})
	})
	return out
}

func cmpPoint(a, b layout.Point) int {
	if a.Y != b.Y {
		return int(min(max(a.Y-b.Y, -1), 1))
	}
	return int(min(max(a.X-b.X, -1), 1))
}

// inset returns the margin at each end of a length: less where a strip would
// become a sliver.
func inset(l layout.Length) layout.Length {
	if l >= 2*Margin+Sliver {
		return Margin
	}
	return l / 4
}

// cutStrips lays strips of one stock width into the regions: the narrowest
// that reach the area needed, else those with the largest area.
func cutStrips(regions []layout.Rect, needed float64) (strips []layout.Rect, width layout.Length) {
	best := 0.0
	for _, w := range Widths {
		var list []layout.Rect
		area := 0.0
		for _, r := range regions {
			for _, s := range stripsIn(r, w, len(regions) == 1) {
				list = append(list, s)
				area += s.W().MM() * s.D().MM()
			}
		}
		if area > best {
			strips, width, best = list, w, area
		}
		if area >= needed {
			break
		}
	}
	return strips, width
}

// stripsIn returns the strips in a region, along its longer side: two at the
// sides if asked and they fit, else one in the middle, cut narrower if the
// region is narrower.
func stripsIn(r layout.Rect, w layout.Length, two bool) []layout.Rect {
	if r.Empty() {
		return nil
	}
	if r.D() > r.W() {
		out := stripsIn(flip(r), w, two)
		for i := range out {
			out[i] = flip(out[i])
		}
		return out
	}
	if two && r.D() >= 2*w+Gap {
		return []layout.Rect{{X0: r.X0, Y0: r.Y0, X1: r.X1, Y1: r.Y0 + w}, {X0: r.X0, Y0: r.Y1 - w, X1: r.X1, Y1: r.Y1}}
	}
	w = min(w, r.D())
	y := r.Y0 + (r.D()-w)/2
	return []layout.Rect{{X0: r.X0, Y0: y, X1: r.X1, Y1: y + w}}
}

func flip(r layout.Rect) layout.Rect {
	return layout.Rect{X0: r.Y0, Y0: r.X0, X1: r.Y1, Y1: r.X1}
}

// Under returns a rectangle of the board as it lies on the base of the unit at
// that place, the unit turned over left to right.
//
//	seen from above    turned over
//	+-----+            +-----+
//	|##   |            |   ##|
//	|     |            |     |
//	+--v--+            +--v--+
func Under(u *layout.Unit, pl layout.Placement, onBoard layout.Rect) layout.Rect {
	w, d := pl.Turn.Footprint(u.Body.W, u.Body.D)
	back := layout.Turn(0).Add(-pl.Turn)
	r := back.Rect(onBoard.Move(layout.Point{X: -pl.At.X, Y: -pl.At.Y}), w, d)
	return layout.Rect{X0: u.Body.W - r.X1, Y0: r.Y0, X1: u.Body.W - r.X0, Y1: r.Y1}
}

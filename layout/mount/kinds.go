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

// Kinds lists the kinds in the order in which they are laid and listed.
var Kinds = []Kind{Interlock, HookAndLoop}

// KindOf returns the kind of fastener for a mount.
func KindOf(m layout.Mount) Kind {
	if m == layout.Fixed {
		return Interlock
	}
	return HookAndLoop
}

const (
	// Margin is kept free along the edges of a base where the plan says
	// nothing, so that nothing shows or peels: common practice, no source.
	Margin = 4 * layout.Millimetre
	// Clear is kept free along the edges of a surface or a rail, round what is
	// on a base, and round fastener of the other kind: common practice, no
	// source.
	Clear = 1 * layout.Millimetre
	// Least is the least width and length of a piece; what is smaller peels
	// by itself: common practice, no source.
	Least = 8 * layout.Millimetre
	// RollLength is that of a new roll: common practice, no source.
	RollLength = 1000 * layout.Millimetre
	// DefaultUnitSide is the side of hook-and-loop that units carry where the
	// plan says nothing: the soft one, kind to bags and fingers. Both are
	// seen.
	DefaultUnitSide = layout.Loop
)

// Widths is the stock widths of both kinds, rising, where the plan says
// nothing: common practice, no source.
var Widths = []layout.Length{20 * layout.Millimetre, 25 * layout.Millimetre, 50 * layout.Millimetre}

// InchWidths are Widths where the player measures in inches: common practice, no
// source.
var InchWidths = []layout.Length{layout.Inch * 3 / 4, layout.Inch, 2 * layout.Inch}

// WidthName writes the width of a roll as it is sold: "20mm", or in a plan of
// inches "3/4in" for one that is so wide.
func WidthName(w layout.Length, u layout.LengthUnit) string {
	if u == layout.Inches && w.Marked() {
		return w.Format(u)
	}
	return w.String()
}

// Roll is a make-up of fastener with its defaults filled in.
type Roll struct {
	Kind        Kind
	Name        string          // in the catalog; may be empty
	Widths      []layout.Length // rising
	StrengthKPa float64         // as published
}

// Published strengths in kPa where the plan says nothing: the least shear
// strength on retail labels of hook-and-loop, 10 psi; the least tension figure
// for 250+250 stems in a mushroom-head datasheet.
const (
	HookAndLoopKPa = 69.0
	InterlockKPa   = 207.0
)

// RollOf returns the fastener of that kind that the plan uses.
func RollOf(p *layout.Plan, k Kind) Roll {
	from, kPa := p.Fastening.HookAndLoop, HookAndLoopKPa
	if k == Interlock {
		from, kPa = p.Fastening.Interlock, InterlockKPa
	}
	r := Roll{Kind: k, Name: from.Name, Widths: from.Widths, StrengthKPa: from.StrengthKPa}
	if len(r.Widths) == 0 {
		if r.Widths = Widths; p.Measure() == layout.Inches {
			r.Widths = InchWidths
		}
	}
	if r.StrengthKPa <= 0 {
		r.StrengthKPa = kPa
	}
	return r
}

// design is the stress in N/mm2 that a design may count on.
func (r *Roll) design() float64 { return r.StrengthKPa * DesignShare / 1000 }

// owned returns the widths of which the player has a roll, rising.
func owned(p *layout.Plan, k Kind) []layout.Length {
	var out []layout.Length
	for _, r := range p.Owned.Rolls {
		if r.Kind == string(k) && r.Width > 0 && !slices.Contains(out, r.Width) {
			out = append(out, r.Width)
		}
	}
	slices.Sort(out)
	return out
}

// Side names what is cut from a roll: the hook or the loop side, or
// "interlock", which mates with itself.
type Side string

const (
	HookSide      = Side(layout.Hook)
	LoopSide      = Side(layout.Loop)
	InterlockSide = Side(Interlock)
)

// Sides returns which side of the fastener goes on the board and which on the
// units, one choice for the whole plan.
func Sides(p *layout.Plan, k Kind) (board, unit Side) {
	if k == Interlock {
		return InterlockSide, InterlockSide
	}
	side := p.Fastening.UnitSide
	if side == "" {
		side = DefaultUnitSide
	}
	if side == layout.Hook {
		return LoopSide, HookSide
	}
	return HookSide, LoopSide
}

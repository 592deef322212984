package catalog

import (
	"slices"

	"footplank/layout"
)

// base reads one [[form.base]]: what is on the base, as it is seen with the unit
// turned over from left to right.
func (tb *table) base(u *layout.Unit) layout.BaseSpot {
	tb.need("kind")
	kind := tb.word("kind", string(layout.Foot), string(layout.BatteryDoor), string(layout.Screw), string(layout.BaseLabel))
	at := tb.rect("base", layout.Rect{X1: u.Body.W, Y1: u.Body.D})
	tb.end()
	return layout.BaseSpot{Kind: layout.BasePart(kind), At: u.TurnedOver(at)}
}

// FitBase moves what is on the base of a form to a body of another size: each
// part keeps its distance from the edges that it is nearest to, as feet do,
// and what would be off the base is cut.
func FitBase(spots []layout.BaseSpot, form, body layout.Size) []layout.BaseSpot {
	if form.W == body.W && form.D == body.D {
		return spots
	}
	spots = slices.Clone(spots)
	whole := layout.Rect{X1: body.W, Y1: body.D}
	for i := range spots {
		at := &spots[i].At
		var by layout.Point
		if at.X0+at.X1 > form.W {
			by.X = body.W - form.W
		}
		if at.Y0+at.Y1 > form.D {
			by.Y = body.D - form.D
		}
		*at = at.Move(by).Intersect(whole)
	}
	return slices.DeleteFunc(spots, func(s layout.BaseSpot) bool { return s.At.Empty() })
}

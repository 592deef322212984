package edit

import (
	"fmt"
	"slices"

	"footplank/catalog"
	"footplank/layout"
)

// usualSignal is what a jack of a kind carries unless it says otherwise.
var usualSignal = map[layout.JackKind]layout.Signal{
	layout.Phone: layout.Audio, layout.MiniTRS: layout.Control, layout.XLR: layout.Audio,
	layout.DIN: layout.Control, layout.DC: layout.Power, layout.Mains: layout.Line,
}

// SetJackKind makes a jack one of another kind, with that kind's usual signal and
// plug, or the form's where that is its kind. form is what the unit's form gives,
// or nil.
func SetJackKind(j *layout.Jack, kind layout.JackKind, form *layout.Unit, c *catalog.Catalog) {
	if j.Kind == kind {
		return
	}
	*j = j.Asked()
	j.Kind, j.Signal, j.PlugGiven = kind, usualSignal[kind], false
	j.Plug, _ = c.DefaultPlug(kind)
	if f := jackOf(form, j.ID); f != nil && f.Kind == kind {
		j.Signal, j.Plug = f.Signal, f.Plug
	}
}

// SetWall puts a jack into another wall. A leg of its plug that cannot point
// along that wall as it did is left to the program.
func SetWall(j *layout.Jack, wall layout.Wall, form *layout.Unit) {
	*j = j.Asked()
	j.Wall = wall
	if j.LegGiven && !slices.Contains(LegSides(wall), j.Leg) {
		j.LegGiven = false
	}
	if j.LegGiven {
		return
	}
	j.Leg = ""
	if f := jackOf(form, j.ID); f != nil {
		j.Leg = f.Leg
	}
	if j.Leg != "" && !slices.Contains(LegSides(wall), j.Leg) {
		j.Leg = layout.LegUp
	}
}

// LegSides are the sides to which the leg of a plug in that wall can point.
func LegSides(wall layout.Wall) []layout.LegSide {
	if wall == layout.Left || wall == layout.Right {
		return []layout.LegSide{layout.LegUp, layout.LegDown, layout.LegFront, layout.LegBack}
	}
	return []layout.LegSide{layout.LegUp, layout.LegDown, layout.LegLeft, layout.LegRight}
}

// jackOf is the jack of that name that the unit's form gives; nil where there is
// none, or no form.
func jackOf(form *layout.Unit, id string) *layout.Jack {
	if form == nil {
		return nil
	}
	return form.Jack(id)
}

// MissingJacks returns the jacks of its form that a unit does not have.
func MissingJacks(u, form *layout.Unit) []string {
	var out []string
	if form != nil {
		for i := range form.Jacks {
			if id := form.Jacks[i].ID; u.Jack(id) == nil {
				out = append(out, id)
			}
		}
	}
	return out
}

// RestoreJack gives a unit a jack of its form back, where the form has it among
// the others, with the output that it is; the unit draws by it as its form does.
func RestoreJack(u *layout.Unit, id string, form *layout.Unit) error {
	if jackOf(form, id) == nil || u.Jack(id) != nil {
		return fmt.Errorf("%s lacks no jack %q of its form", u.Label, id)
	}
	whole := *form
	Resize(&whole, u.Body, form)
	u.Jacks = slices.Insert(slices.Clone(u.Jacks), behindOthers(whole.Jacks, u.Jacks, id, jackID), *whole.Jack(id))
	if o := form.Output(id); o != nil {
		u.Outputs = slices.Insert(slices.Clone(u.Outputs), behindOthers(whole.Outputs, u.Outputs, id, outputID), *o)
	}
	if in := u.PowerIn(); u.Draw == nil && form.Draw != nil && in != nil && in.ID == id {
		d := *form.Draw
		u.Draw = &d
	}
	return nil
}

func jackID(j layout.Jack) string     { return j.ID }
func outputID(o layout.Output) string { return o.Jack }

// behindOthers returns where in a list the thing of that id goes to stand behind
// the last of those that stand before it in the whole.
func behindOthers[T any](whole, list []T, id string, idOf func(T) string) int {
	at := 0
	for _, before := range whole {
		if idOf(before) == id {
			break
		}
		if i := slices.IndexFunc(list, func(x T) bool { return idOf(x) == idOf(before) }); i >= 0 {
			at = max(at, i+1)
		}
	}
	return at
}

// Unform makes what a unit's form says the unit's own. The plugs of jacks that the
// plan does not name are then the usual ones of their kinds.
func Unform(u *layout.Unit, c *catalog.Catalog) {
	u.Form = ""
	u.Jacks = slices.Clone(u.Jacks)
	for i := range u.Jacks {
		j := u.Jacks[i].Asked()
		if !j.PlugGiven {
			j.Plug, _ = c.DefaultPlug(j.Kind)
		}
		if !j.LegGiven {
			j.Leg = ""
		}
		u.Jacks[i] = j
	}
}

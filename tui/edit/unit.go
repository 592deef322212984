package edit

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"footplank/catalog"
	"footplank/layout"
)

// Resize gives a unit the size that a tape measure found. What is in its walls
// and on its base goes with them: a jack or a switch that would be off the body
// moves in proportion, knobs stand out as far as before, and feet keep their
// distance from the edges. form is what the unit's form gives, nil without one;
// what the form says of a body that is not changed in it stays so.
func Resize(u *layout.Unit, to layout.Size, form *layout.Unit) {
	was := u.Body
	more := layout.Size{W: max(0, u.Overall.W-was.W), D: max(0, u.Overall.D-was.D), H: max(0, u.Overall.H-was.H)}
	switch {
	case form != nil && slices.Equal(u.OnBase, catalog.FitBase(form.OnBase, form.Body, was)):
		u.OnBase = catalog.FitBase(form.OnBase, form.Body, to)
	case len(u.OnBase) > 0:
		u.OnBase = catalog.FitBase(u.OnBase, was, to)
	}
	tall := u.Height()
	u.Body, u.Overall = to, layout.Size{W: to.W + more.W, D: to.D + more.D, H: to.H + more.H}
	u.Jacks = slices.Clone(u.Jacks)
	for i := range u.Jacks {
		j := &u.Jacks[i]
		long, is := was.W, to.W
		if j.Wall == layout.Left || j.Wall == layout.Right {
			long, is = was.D, to.D
		}
		j.Along = keptWithin(j.Along, long, is)
		j.Height = keptWithin(j.Height, tall, u.Height())
	}
	u.Switches = slices.Clone(u.Switches)
	for i := range u.Switches {
		s := &u.Switches[i]
		s.At.X, s.At.Y = keptWithin(s.At.X, was.W, to.W), keptWithin(s.At.Y, was.D, to.D)
		if s.Height == was.H {
			s.Height = to.H
		}
		s.Height = keptWithin(s.Height, tall, u.Height())
	}
}

// keptWithin moves a place that would be past the end of a shorter side in
// proportion, to whole millimetres.
func keptWithin(at, was, is layout.Length) layout.Length {
	if at <= is || was <= 0 {
		return at
	}
	return min(at, was) * is / was / layout.Millimetre * layout.Millimetre
}

// Draw returns the unit's draw for changing, a new one where it has none.
func Draw(u *layout.Unit) *layout.Draw {
	d := layout.Draw{Millivolts: 9000}
	if u.Draw != nil {
		d = *u.Draw
	}
	u.Draw = &d
	return u.Draw
}

// SetCurrent sets what a unit draws. One that draws and has no jack to draw by
// gets one in the middle of its back, with the usual plug.
func SetCurrent(u *layout.Unit, milliamps int, c *catalog.Catalog) {
	if milliamps == 0 {
		u.Draw = nil
		return
	}
	Draw(u).Milliamps = milliamps
	if u.PowerIn() != nil || u.Jack("dc") != nil {
		return
	}
	plug, _ := c.DefaultPlug(layout.DC)
	u.Jacks = append(slices.Clone(u.Jacks), layout.Jack{ID: "dc", Kind: layout.DC, Signal: layout.Power, Dir: layout.In,
		Wall: layout.Back, Along: u.Body.W / 2 / layout.Millimetre * layout.Millimetre, Height: u.Body.H / 2, Plug: plug})
}

// SetPlug gives a jack a plug of the player's, by its form's name, or with ""
// leaves it to the program again. form is what the unit's form gives, or nil.
func SetPlug(u *layout.Unit, jack, plug string, form *layout.Unit, c *catalog.Catalog) error {
	u.Jacks = slices.Clone(u.Jacks)
	j := u.Jack(jack)
	if j == nil {
		return fmt.Errorf("%s has no jack %q", u.Label, jack)
	}
	if plug != "" {
		f, ok := c.Plug(plug)
		if !ok || f.Kind != j.Kind {
			return fmt.Errorf("the plug %q does not go into this jack", plug)
		}
		j.Plug, j.PlugGiven = f.PlugForm, true
		return nil
	}
	usual := j.UsualSeat()
	if j.PlugGiven {
		usual.Plug, _ = c.DefaultPlug(j.Kind)
		if fj := jackOf(form, jack); fj != nil && fj.Kind == j.Kind {
			usual.Plug = fj.Plug
		}
	}
	j.Plug, j.PlugGiven, j.Usual = usual.Plug, false, layout.Seat{}
	if !j.LegGiven {
		j.Leg = usual.Leg
	}
	return nil
}

// SetLeg makes a right-angle plug's leg point to a side, or with "" leaves it to
// the program again.
func SetLeg(u *layout.Unit, jack string, leg layout.LegSide, form *layout.Unit) error {
	u.Jacks = slices.Clone(u.Jacks)
	j := u.Jack(jack)
	if j == nil {
		return fmt.Errorf("%s has no jack %q", u.Label, jack)
	}
	if leg != "" {
		j.Leg, j.LegGiven = leg, true
		return nil
	}
	usual := j.UsualSeat()
	if j.LegGiven {
		usual.Leg = ""
		if fj := jackOf(form, jack); fj != nil {
			usual.Leg = fj.Leg
		}
	}
	if !j.PlugGiven {
		j.Plug = usual.Plug
	}
	j.Leg, j.LegGiven, j.Usual = usual.Leg, false, layout.Seat{}
	return nil
}

// FreeID makes an id of a label or a form's name, unlike all that the plan has.
func FreeID(p *layout.Plan, from string) string {
	words := strings.FieldsFunc(strings.ToLower(from), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	base := []rune(strings.Join(words, "-"))
	base = base[:min(len(base), layout.MaxID-5)]
	if !layout.ValidUnitID(string(base)) {
		base = []rune("unit")
	}
	id := string(base)
	for n := 2; p.Unit(id) != nil; n++ {
		id = fmt.Sprintf("%s-%d", string(base), n)
	}
	return id
}

// CopyUnit puts another unit of the same kind behind one, and behind it in the
// chain and in the slots that it is in. It stands nowhere yet, and takes what
// output the power map gives it.
func CopyUnit(p *layout.Plan, id string) (copied string, err error) {
	i := slices.IndexFunc(p.Units, func(u layout.Unit) bool { return u.ID == id })
	if i < 0 {
		return "", fmt.Errorf("there is no unit %q", id)
	}
	u := p.Units[i]
	u.ID = FreeID(p, id)
	u.Label = nextLabel(p, u.Label)
	u.Place, u.Pinned = nil, false
	if u.Draw != nil && u.Draw.Feed.Unit != "" {
		Draw(&u).Feed = layout.JackRef{}
	}
	if err := p.AddUnit(u); err != nil {
		return "", err
	}
	if err := p.MoveUnit(u.ID, i+1); err != nil {
		return "", err
	}
	behind := func(ids []string) []string {
		if k := slices.Index(ids, id); k >= 0 {
			return slices.Insert(slices.Clone(ids), k+1, u.ID)
		}
		return ids
	}
	for k := range p.Lineups {
		for slot, ids := range p.Lineups[k].Fill {
			p.Lineups[k].Fill[slot] = behind(ids)
		}
	}
	if k := slices.IndexFunc(p.Chain.Stops, func(s layout.Stop) bool { return s.Unit == id }); k >= 0 && Passes(&u) {
		p.Chain.Stops = slices.Insert(slices.Clone(p.Chain.Stops), k+1, layout.Stop{Unit: u.ID})
	}
	p.Feeds = nil
	return u.ID, nil
}

// nextLabel counts labels on: "Drive", "Drive 2", "Drive 3".
func nextLabel(p *layout.Plan, label string) string {
	base := strings.TrimRight(label, "0123456789")
	if base = strings.TrimSpace(base); base == "" || len(base) == len(label) {
		base = label
	}
	for n := 2; ; n++ {
		next := fmt.Sprintf("%s %d", base, n)
		if !slices.ContainsFunc(p.Units, func(u layout.Unit) bool { return u.Label == next }) {
			return next
		}
	}
}

// Passes reports whether the signal of the chain can go through a unit by its
// usual jacks.
func Passes(u *layout.Unit) bool {
	through := func(id string, dir layout.Direction) bool {
		j := u.Jack(id)
		return j != nil && j.Dir == dir && j.CarriesSignal()
	}
	return through("in", layout.In) && through("out", layout.Out)
}

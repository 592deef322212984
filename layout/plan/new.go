package plan

import (
	"cmp"
	"fmt"

	"footplank/catalog"
	"footplank/layout"
)

// New returns a plan that has no file yet, made of answers as Starter makes it;
// with the board's size alone it is an empty board. SaveAs gives it a file.
func New(a Answers) (*Doc, error) {
	text, err := Starter(a)
	if err != nil {
		return nil, err
	}
	d, err := Parse("new plan", text, a.Forms)
	if err != nil {
		return nil, fmt.Errorf("a new plan is not readable: %w", err)
	}
	return d, nil
}

// Forms returns the catalog that the plan's forms are in.
func (d *Doc) Forms() *catalog.Catalog { return d.forms }

// NewUnit returns a unit of a form of the catalog for the plan, with an id made
// of its label, or of the form's name when it has no label. It is not in the plan
// before Plan.AddUnit, and stands nowhere.
func (d *Doc) NewUnit(form, label string) (layout.Unit, error) {
	u := layout.Unit{
		ID:    newID(cmp.Or(label, form), func(id string) bool { return d.Plan.Unit(id) != nil }),
		Label: label, Mount: layout.Fixed,
	}
	if u.Label == "" {
		u.Label = u.ID
	}
	return u, d.SetForm(&u, form)
}

// SetForm gives a unit another form, and with it all that is of the unit itself:
// its size, mass, jacks, switches, base and what it draws or gives. What is the
// player's stays: id, label, mount, place, how often it is worked, where and how
// it may stand, whether it is owned.
func (d *Doc) SetForm(u *layout.Unit, form string) error {
	f, ok := d.forms.Unit(form)
	if !ok {
		var names []string
		for _, f := range d.forms.Units() {
			names = append(names, f.Name)
		}
		return fmt.Errorf("there is no form %q: %s", form, wanted(form, names))
	}
	t := f.Template()
	t.ID, t.Label, t.Form, t.Mount, t.Pinned = u.ID, u.Label, f.Name, u.Mount, u.Pinned
	t.Often, t.On, t.Turns, t.ToBuy, t.Place = u.Often, u.On, u.Turns, u.ToBuy, u.Place
	for _, id := range u.Uses {
		if t.Jack(id) != nil {
			t.Uses = append(t.Uses, id)
		}
	}
	*u = t
	return nil
}

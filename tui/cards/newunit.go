package cards

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/tui/edit"
	"footplank/tui/form"
)

// NoForm stands for the form of a unit that has none.
const NoForm = "none"

// template is a unit to begin with: of a form, or of none with jacks where most
// have them.
func (s Shop) template(name string) (u layout.Unit, intro string, err error) {
	if f, ok := s.Forms.Unit(name); ok {
		u = f.Template()
		u.Form, u.Label = f.Name, firstWord(f.Name)
		return u, f.Summary + ". The sizes are the form's: put in what your tape measure says.", nil
	}
	if name != NoForm {
		return u, "", fmt.Errorf("there is no form %q", name)
	}
	const mm = layout.Millimetre
	u = layout.Unit{Label: "Unit", Body: layout.Size{W: 70 * mm, D: 120 * mm, H: 50 * mm}}
	u.Overall = u.Body
	plug, _ := s.Forms.DefaultPlug(layout.Phone)
	side := func(id string, dir layout.Direction, wall layout.Wall) layout.Jack {
		return layout.Jack{ID: id, Kind: layout.Phone, Signal: layout.Audio, Dir: dir, Wall: wall, Along: u.Body.D / 2, Height: u.Body.H / 2, Plug: plug}
	}
	u.Jacks = []layout.Jack{side("in", layout.In, layout.Right), side("out", layout.Out, layout.Left)}
	return u, "Measured whole. Its jacks are assumed in its sides: its card says where they are, and its switches.", nil
}

// NewUnit is the card of units of a form, or of none, that are put into the plan.
func (s Shop) NewUnit(name string) (*form.Form, error) {
	u, intro, err := s.template(name)
	if err != nil {
		return nil, err
	}
	u.ID, u.Mount = edit.FreeID(s.Plan, cmp.Or(u.Form, u.Label)), layout.Fixed
	b := unitCard{s, u.ID, &u}
	count := 1
	c := &form.Form{Title: "New unit: " + name, Intro: intro, Name: "new unit", Subject: u.ID, What: "add " + cmp.Or(u.Form, "a unit"), Take: "add it", Fresh: true,
		Begin: func(p *layout.Plan) error { count = 1; return p.AddUnit(u) }}
	if name == NoForm {
		c.Title = "New unit of no form"
	}
	c.Fields = []*form.Field{b.label(),
		form.Whole("How many", 1, 1, 20, "how many of them you have", func(_ *layout.Plan, n int) error { count = n; return nil })}
	c.Fields = append(c.Fields, b.body()...)
	c.Fields = append(c.Fields, b.mass(), b.mount())
	if !u.Supplies() {
		c.Fields = append(c.Fields, b.current())
	}
	if _, passed := edit.Pass(&u, nil); passed {
		in := form.YesNo("In the chain", true, "yes: the signal passes it in every line-up", func(p *layout.Plan, is bool) error {
			if !is {
				return nil
			}
			return edit.Join(p, u.ID)
		})
		in.Always = true
		c.Fields = append(c.Fields, in)
	}
	c.Fields = append(c.Fields, form.YesNo("To buy", false, "yes: it stands on the shopping list", func(p *layout.Plan, is bool) error {
		return b.on(func(u *layout.Unit) error { u.ToBuy = is; return nil })(p)
	}))
	c.Finish = func(p *layout.Plan) error {
		last := u.ID
		if added := p.Unit(u.ID); added != nil {
			c.What = "add " + added.Label
		}
		if count > 1 {
			c.What = fmt.Sprintf("add %d units", count)
		}
		for range count - 1 {
			next, err := edit.CopyUnit(p, last)
			if err != nil {
				return err
			}
			last = next
		}
		return nil
	}
	return c, nil
}

// firstWord makes a label of a form's name: "die-cast-small" is "Die-cast small".
func firstWord(name string) string {
	words := strings.Split(name, "-")
	words[0] = strings.ToUpper(words[0][:1]) + words[0][1:]
	return strings.Join(words, " ")
}

// LikeForm is the card that gives a unit another form. What the player said of the
// unit stays; its size, jacks and power are the form's. It is nil where there is no
// such unit.
func (s Shop) LikeForm(id, name string, set func(u *layout.Unit, form string) error) *form.Form {
	u := s.Plan.Unit(id)
	if u == nil {
		return nil
	}
	what := "give " + u.Label + " the form " + name
	if name == NoForm {
		what = "give " + u.Label + " no form"
	}
	return &form.Form{Title: u.Label, Name: "form", Subject: id, What: what, Unit: id, Fresh: true,
		Begin: func(p *layout.Plan) error {
			if err := set(p.Unit(id), name); err != nil {
				return err
			}
			// Cables of jacks that the new form does not have go.
			q := p.Unit(id)
			has := func(r layout.JackRef) bool { return r.Unit != id || q.Jack(r.Jack) != nil }
			p.Chain.Links = slices.DeleteFunc(slices.Clone(p.Chain.Links), func(k layout.Link) bool { return !has(k.From) || !has(k.To) })
			p.Chain.Stops = slices.DeleteFunc(slices.Clone(p.Chain.Stops), func(st layout.Stop) bool {
				in, out := cmp.Or(st.In, "in"), cmp.Or(st.Out, "out")
				return st.Unit == id && (q.Jack(in) == nil || q.Jack(out) == nil)
			})
			return nil
		}}
}

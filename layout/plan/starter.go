package plan

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"footplank/catalog"
	"footplank/layout"
)

// Answers are what a new plan is made of. Only the board's width and depth are
// needed.
type Answers struct {
	Title          string
	Unit           layout.LengthUnit // Millimetres if empty
	BoardW, BoardD layout.Length
	Surface        layout.SurfaceKind // Solid if empty
	// Material is one of the catalog's; birch plywood if it is empty, or
	// aluminium for rails.
	Material  string
	Thickness layout.Length // 15 mm if zero
	Mass      layout.Mass   // of the board as weighed; zero to compute it
	// End is where the chain ends: layout.Amp, the usual, or layout.Desk.
	End   string
	Units []StarterUnit
	// Slots names the slots, for units that change from gig to gig. Each is the
	// whole deck, and stands in the chain where its first unit would, else at the
	// end.
	Slots   []string
	Lineups []StarterLineup
	// Forms is the catalog that the units' forms are in; nil is the
	// built-in one.
	Forms *catalog.Catalog
}

// StarterUnit is a unit of a new plan: of a form, or measured, or both.
type StarterUnit struct {
	ID    string // made of the label or the form if empty
	Label string
	Form  string
	// Body is the measured size. With a form, what is zero is the form's.
	Body  layout.Size
	Mass  layout.Mass
	Mount layout.Mount
	Draw  *layout.Draw // nil for the form's; without current for none
}

// Starter returns the text of a new plan, with comments that say what to do
// next. It reads back without errors; answers that cannot are an error.
func Starter(a Answers) ([]byte, error) {
	s := newStarter(a)
	if err := s.fits(); err != nil {
		return nil, err
	}
	s.head()
	s.board()
	s.slots()
	s.units()
	s.chain()
	s.lineups()
	s.hints()
	if _, err := Parse("the new plan", s.Bytes(), s.a.Forms); err != nil {
		return nil, fmt.Errorf("these answers make no plan: %w", err)
	}
	return s.Bytes(), nil
}

// fits refuses a board of a size that no plan can have: each of its rails, and
// what hangs on its size, would be wrong with it.
func (s *starter) fits() error {
	for _, l := range []layout.Length{s.a.BoardW, s.a.BoardD} {
		if l < boardSide.lo || l > boardSide.hi {
			return fmt.Errorf("these answers make no plan: the board's size %s x %s: want each side from %s to %s", s.a.BoardW.Format(s.a.Unit), s.a.BoardD.Format(s.a.Unit),
				boardSide.lo.Format(s.a.Unit), boardSide.hi.Format(s.a.Unit))
		}
	}
	return nil
}

type starter struct {
	bytes.Buffer
	a     Answers
	spell speller
	taken map[string]bool
	order []string // units of the chain
	aside []string // units without the jacks for it
}

func newStarter(a Answers) *starter {
	if a.Forms == nil {
		a.Forms = catalog.Builtin()
	}
	if a.Unit == "" {
		a.Unit = layout.Millimetres
	}
	if a.Surface == "" {
		a.Surface = layout.Solid
	}
	if a.Material == "" {
		a.Material = map[layout.SurfaceKind]string{layout.Solid: "birch-plywood", layout.Rails: "aluminium"}[a.Surface]
	}
	if a.Thickness == 0 {
		a.Thickness = defaultThickness
	}
	if a.End == "" {
		a.End = layout.Amp
	}
	if len(a.Slots) > 0 && len(a.Lineups) == 0 {
		a.Lineups = []StarterLineup{{Name: DefaultLineup}}
	}
	if a.Title == "" {
		a.Title = "My board"
	}
	s := &starter{a: a, spell: speller{a.Unit, a.Forms}, taken: map[string]bool{}}
	for _, u := range a.Units {
		s.taken[u.ID] = true
	}
	return s
}

func (s *starter) line(format string, args ...any) { fmt.Fprintf(s, format+"\n", args...) }

func (s *starter) head() {
	s.line("# A plan of an effects board. Text behind a # is a note to yourself.")
	s.line("# Bare lengths are in %s; \"305mm\", \"12cm\" and \"7 1/2in\" are understood as well.", s.a.Unit)
	s.line("")
	s.line("title       = %s", quoted(s.a.Title))
	s.line("length_unit = %s", quoted(string(s.a.Unit)))
}

func (s *starter) board() {
	l := s.spell.length
	s.line("\n[board]")
	s.line("size      = [%s, %s]   # width, depth", l(s.a.BoardW), l(s.a.BoardD))
	s.line("surface   = %s", quoted(string(s.a.Surface)))
	s.line("material  = %s", quoted(s.a.Material))
	s.line("thickness = %s", l(s.a.Thickness))
	if s.a.Mass > 0 {
		s.line("mass      = %s", quoted(grams(s.a.Mass)))
	}
	s.line("# overhang = { left = %s }   # how far units may stand past an edge; plug_room says it for plugs", l(10*layout.Millimetre))
	if s.a.Surface == layout.Rails {
		s.rails()
	}
}

// rails divides the depth into rails with gaps a quarter as deep.
func (s *starter) rails() {
	const mm = layout.Millimetre
	l := s.spell.length
	n := max(1, (s.a.BoardD+15*mm)/(60*mm))
	pitch := s.a.BoardD * 5 / (n*5 - 1) / mm * mm
	depth := max(pitch*4/5/mm, 1) * mm
	s.line("\n# The rails, front to back: put your own board's here.")
	for i := layout.Length(0); i < n; i++ {
		s.line("[[board.rail]]\nat   = [0, %s]\nsize = [%s, %s]", l(i*pitch), l(s.a.BoardW), l(depth))
	}
}

func grams(m layout.Mass) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", m.Grams()), "0"), ".") + "g"
}

func (s *starter) units() {
	if len(s.a.Units) == 0 {
		s.line("\n# No units yet. Each is like this; \"footplank forms\" lists the forms.")
		s.line("# [[unit]]\n# id   = \"squash\"\n# form = \"compact\"")
		return
	}
	s.line("\n# The units. A form gives typical figures: measure your own and put the true ones here.")
	for _, u := range s.a.Units {
		s.unit(u)
	}
}

func (s *starter) unit(u StarterUnit) {
	if u.ID == "" {
		u.ID = s.newID(u)
	}
	s.line("\n[[unit]]")
	s.line("id    = %s", quoted(u.ID))
	if u.Label != "" {
		s.line("label = %s", quoted(u.Label))
	}
	form := layout.Unit{}
	if u.Form != "" {
		s.line("form  = %s", quoted(u.Form))
		if f, ok := s.a.Forms.Unit(u.Form); ok {
			form = f.Template()
		}
	}
	body := u.Body
	for _, side := range []struct{ own, form *layout.Length }{{&body.W, &form.Body.W}, {&body.D, &form.Body.D}, {&body.H, &form.Body.H}} {
		if *side.own == 0 {
			*side.own = *side.form
		}
	}
	if body != form.Body {
		s.line("body  = [%s, %s, %s]   # width, depth, height", s.spell.length(body.W), s.spell.length(body.D), s.spell.length(body.H))
	}
	if u.Mass > 0 {
		s.line("mass  = %s", quoted(grams(u.Mass)))
	}
	if u.Mount != "" {
		s.line("mount = %s", quoted(string(u.Mount)))
	}
	jacks := s.jacks(u, form, body)
	s.draw(u.Draw)
	for _, j := range jacks {
		s.line("%s", j)
	}
	s.join(u, form)
}

// newID makes an id of the unit's label or form, unlike all others.
func (s *starter) newID(u StarterUnit) string {
	from := u.Label
	if from == "" {
		from = u.Form
	}
	id := newID(from, func(id string) bool { return s.taken[id] })
	s.taken[id] = true
	return id
}

func (s *starter) draw(d *layout.Draw) {
	switch {
	case d == nil:
	case d.Milliamps == 0:
		s.line("draw  = false")
	default:
		s.line("draw  = { volts = %g, milliamps = %d }", float64(d.Millivolts)/1000, d.Milliamps)
	}
}

// jacks returns the tables of jacks and switches: assumed ones for a unit that
// was only measured, and the form's where a smaller body moves them.
func (s *starter) jacks(u StarterUnit, form layout.Unit, body layout.Size) []string {
	const mm = layout.Millimetre
	l := s.spell.length
	var out []string
	add := func(id, rest string, wall layout.Wall, along, height layout.Length) {
		out = append(out, fmt.Sprintf("[[unit.jack]]\nid     = %s\n%swall   = %q\nalong  = %s\nheight = %s", quoted(id), rest, wall, l(along), l(height)))
	}
	powered := u.Draw != nil && u.Draw.Milliamps > 0
	if form.Form == "" {
		out = append(out, "# Where its jacks are is assumed: measure from the left or from the front to the jack's middle.")
		side, up := body.D/2/mm*mm, body.H/2/mm*mm
		add("in", "kind   = \"phone\"\ndir    = \"in\"\n", layout.Right, side, up)
		add("out", "kind   = \"phone\"\ndir    = \"out\"\n", layout.Left, side, up)
		if powered {
			add("dc", "kind   = \"dc\"\n", layout.Back, body.W/2/mm*mm, up)
		}
		return out
	}
	height := body.H + max(0, form.Height()-form.Body.H)
	moved := func(at, was, is layout.Length) layout.Length { return at * is / was / mm * mm }
	for _, j := range form.Jacks {
		was, is := form.Body.W, body.W
		if j.Wall == layout.Left || j.Wall == layout.Right {
			was, is = form.Body.D, body.D
		}
		if j.Along > is || j.Height > height {
			add(j.ID, "", j.Wall, moved(j.Along, was, is), moved(j.Height, form.Height(), height))
		}
	}
	if powered && !slices.ContainsFunc(form.Jacks, func(j layout.Jack) bool { return j.Signal == layout.Power && j.Dir == layout.In }) {
		add("dc", "kind   = \"dc\"\n", layout.Back, body.W/2/mm*mm, body.H/2/mm*mm)
	}
	if slices.ContainsFunc(form.Switches, func(w layout.Switch) bool { return w.At.X > body.W || w.At.Y > body.D }) {
		for _, w := range form.Switches {
			out = append(out, fmt.Sprintf("[[unit.switch]]\nname   = %s\nat     = [%s, %s]\nheight = %s", quoted(w.Name),
				l(moved(w.At.X, form.Body.W, body.W)), l(moved(w.At.Y, form.Body.D, body.D)), l(min(w.Height, height))))
		}
	}
	if len(out) > 0 {
		out = append([]string{"# Your unit is smaller than its form, which moves these: measure where they are."}, out...)
	}
	return out
}

// join puts the unit into the chain if the signal can go through it.
func (s *starter) join(u StarterUnit, form layout.Unit) {
	through := func(id string, dir layout.Direction) bool {
		j := form.Jack(id)
		return form.Form == "" || j != nil && j.Dir == dir && j.CarriesSignal()
	}
	if through("in", layout.In) && through("out", layout.Out) {
		s.order = append(s.order, u.ID)
	} else {
		s.aside = append(s.aside, u.ID)
	}
}

func (s *starter) chain() {
	s.line("\n# The way of the signal. Put the units in your order.")
	s.line("[chain]")
	s.line("order = [")
	for _, id := range slices.Concat([]string{layout.Instrument}, s.stops(), []string{s.a.End}) {
		s.line("  %s,", quoted(id))
	}
	s.line("]")
	if len(s.aside) > 0 {
		s.line("# Not in it, for want of jacks called \"in\" and \"out\": %s", strings.Join(s.aside, ", "))
	}
}

// hints shows, as comments, what a plan can say besides.
func (s *starter) hints() {
	l := s.spell.length
	w, d := s.a.BoardW, s.a.BoardD
	const mm = layout.Millimetre
	s.line("\n# What else a plan can say; take the # away to use it.")
	s.line("#")
	s.line("# A shelf over the back of the board, for a second row and a supply beneath it:")
	s.line("# [[board.riser]]\n# name      = \"shelf\"\n# at        = [0, %s]\n# size      = [%s, %s]\n# height    = %s\n# thickness = %s",
		l(d/3*2/mm*mm), l(w/mm*mm), l(d/3/mm*mm), l(55*mm), l(9*mm))
	if len(s.a.Slots) > 0 {
		return
	}
	s.line("#")
	s.line("# A slot is a part of the board, and of the chain (\"slot:colour\"), whose units change from gig to gig:")
	s.line("# [[slot]]\n# name = \"colour\"\n# on   = \"deck\"\n# at   = [0, 0]\n# size = [%s, %s]", l(w/2/mm*mm), l(d/2/mm*mm))
	s.line("#")
	s.line("# Line-ups say what is in the slots:")
	s.line("# [[lineup]]\n# name = \"barn\"\n# fill = { colour = [] }")
}

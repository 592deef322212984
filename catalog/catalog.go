package catalog

import (
	"slices"
	"strings"
	"sync"

	"footplank/layout"
)

// Status says how sure a figure is.
type Status string

const (
	Read           Status = "read"            // read at the source named
	Computed       Status = "computed"        // computed from the source's figures
	FromMemory     Status = "from memory"     // known, the source not at hand
	CommonPractice Status = "common practice" // usual in the trade, no source
)

// Statuses returns the four statuses, the surest first.
func Statuses() []Status { return []Status{Read, Computed, FromMemory, CommonPractice} }

// Value tells how sure one figure of a form is.
type Value struct {
	Key    string // the form's key as written in the file: "body", "mass", "jack"
	Status Status
	Source string // "" where there is none
}

// Families of unit forms.
const (
	UnitFamily   = "units"
	SupplyFamily = "supplies" // forms with outputs
)

// UnitForm is a generic unit or supply.
type UnitForm struct {
	Name, Family, Summary string
	// Unit is the template: it has no ID, no label, no mount and no place.
	// Copy it with Template, for its lists are shared.
	Unit   layout.Unit
	Values []Value
}

// Template returns a copy of the form's unit that shares nothing with it.
func (f *UnitForm) Template() layout.Unit {
	u := f.Unit
	u.Switches = slices.Clone(u.Switches)
	u.Jacks = slices.Clone(u.Jacks)
	u.Outputs = slices.Clone(u.Outputs)
	u.OnBase = slices.Clone(u.OnBase)
	for i := range u.Outputs {
		u.Outputs[i].Choices = slices.Clone(u.Outputs[i].Choices)
	}
	if u.Mains != nil {
		m := *u.Mains
		u.Mains = &m
	}
	if u.Sweep != nil {
		s := *u.Sweep
		u.Sweep = &s
	}
	if u.Draw != nil {
		d := *u.Draw
		u.Draw = &d
	}
	return u
}

// PlugForm is a plug. Out is from the wall of the unit, with the jack's nut, to
// where the cable has made its first bend.
type PlugForm struct {
	layout.PlugForm
	Summary string
	Default bool // the plug of a jack that names none
	// Diameter and Shank are of what goes into the jack (or, for DIN and XLR,
	// of the shell); zero where not known.
	Diameter, Shank layout.Length
	Values          []Value
}

// Material is what boards are made of.
type Material struct {
	Name, Summary string
	Density       float64 // kg/m3
	Values        []Value
}

// BoardForm is a board of an ordinary size.
type BoardForm struct {
	Name, Summary string
	Board         layout.Board
	Price         *layout.Price // nil if not known
	Values        []Value
}

// Kinds of fastener.
const (
	Interlock   = "interlock" // mushroom heads, rigid to rigid
	HookAndLoop = "hook-and-loop"
)

// Fastener is a roll of fastener.
type Fastener struct {
	Name, Summary string
	Kind          string // Interlock or HookAndLoop
	Widths        []layout.Length
	StrengthKPa   float64 // as tested; see Test
	Test          string  // "shear" or "tension"
	// Hook and Loop are the two sides' thickness unmated; zero if not known.
	Hook, Loop layout.Length
	Values     []Value
}

// Catalog is a set of forms. It is not changed once it is made, so it may be
// shared between goroutines.
type Catalog struct {
	units     map[string]*UnitForm
	plugs     map[string]*PlugForm
	materials map[string]*Material
	boards    map[string]*BoardForm
	fasteners map[string]*Fastener
	defaults  map[layout.JackKind]string
}

// Builtin returns the built-in catalog. It is read once, on first use.
func Builtin() *Catalog { return builtin() }

var builtin = sync.OnceValue(func() *Catalog {
	c, err := assemble(embedded())
	if err != nil {
		panic("catalog: the built-in forms are broken: " + err.Error())
	}
	return c
})

// Unit returns the unit or supply form of that name.
func (c *Catalog) Unit(name string) (*UnitForm, bool) { f, ok := c.units[name]; return f, ok }

// Plug returns the plug form of that name.
func (c *Catalog) Plug(name string) (*PlugForm, bool) { f, ok := c.plugs[name]; return f, ok }

// Material returns the material of that name.
func (c *Catalog) Material(name string) (*Material, bool) { f, ok := c.materials[name]; return f, ok }

// Board returns the board form of that name.
func (c *Catalog) Board(name string) (*BoardForm, bool) { f, ok := c.boards[name]; return f, ok }

// Fastener returns the fastener of that name.
func (c *Catalog) Fastener(name string) (*Fastener, bool) { f, ok := c.fasteners[name]; return f, ok }

// Units returns all unit forms, units before supplies, each by name.
func (c *Catalog) Units() []*UnitForm {
	return inOrder(c.units, func(f *UnitForm) string {
		if f.Family == UnitFamily {
			return "0" + f.Name
		}
		return "1" + f.Name
	})
}

// Plugs returns all plug forms by kind and name.
func (c *Catalog) Plugs() []*PlugForm {
	return inOrder(c.plugs, func(f *PlugForm) string { return string(f.Kind) + " " + f.Name })
}

// Materials returns all materials by name.
func (c *Catalog) Materials() []*Material {
	return inOrder(c.materials, func(f *Material) string { return f.Name })
}

// Boards returns all board forms by name.
func (c *Catalog) Boards() []*BoardForm {
	return inOrder(c.boards, func(f *BoardForm) string { return f.Name })
}

// Fasteners returns all fasteners by name.
func (c *Catalog) Fasteners() []*Fastener {
	return inOrder(c.fasteners, func(f *Fastener) string { return f.Name })
}

// DefaultPlug returns the plug that a jack of that kind takes when nothing
// names one.
func (c *Catalog) DefaultPlug(kind layout.JackKind) (layout.PlugForm, bool) {
	p, ok := c.plugs[c.defaults[kind]]
	if !ok {
		return layout.PlugForm{}, false
	}
	return p.PlugForm, true
}

func inOrder[F any](m map[string]F, key func(F) string) []F {
	out := make([]F, 0, len(m))
	for _, f := range m {
		out = append(out, f)
	}
	slices.SortFunc(out, func(a, b F) int { return strings.Compare(key(a), key(b)) })
	return out
}

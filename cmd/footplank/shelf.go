package main

import (
	"slices"

	"footplank/catalog"
	"footplank/layout"
)

// shelf is the catalog, or a part of it, as the forms command shows it: lengths
// in mm, masses in g. Its JSON names are stable.
type shelf struct {
	Schema    string          `json:"schema"`
	Units     []unitEntry     `json:"units"`
	Plugs     []plugEntry     `json:"plugs"`
	Boards    []boardEntry    `json:"boards"`
	Materials []materialEntry `json:"materials"`
	Fasteners []fastenerEntry `json:"fasteners"`
}

// entry is what every form has.
type entry struct {
	Name    string  `json:"name"`
	Summary string  `json:"summary"`
	Values  []value `json:"values"`
}

// value tells how sure one figure is.
type value struct {
	Key    string `json:"key"`
	Status string `json:"status"`
	Source string `json:"source,omitempty"`
}

type unitEntry struct {
	entry
	Family   string        `json:"family"`
	Body     [3]float64    `json:"body_mm"`
	Overall  [3]float64    `json:"overall_mm"`
	Mass     float64       `json:"mass_g"`
	Treadle  bool          `json:"treadle"`
	Switches []switchEntry `json:"switches"`
	Jacks    []jackEntry   `json:"jacks"`
	Draw     *currentEntry `json:"draw,omitempty"`
	Outputs  []outputEntry `json:"outputs,omitempty"`
}

type switchEntry struct {
	Name   string     `json:"name"`
	At     [2]float64 `json:"at_mm"`
	Height float64    `json:"height_mm"`
}

type jackEntry struct {
	ID     string  `json:"id"`
	Kind   string  `json:"kind"`
	Signal string  `json:"signal"`
	Dir    string  `json:"dir"`
	Wall   string  `json:"wall"`
	Along  float64 `json:"along_mm"`
	Height float64 `json:"height_mm"`
	Plug   string  `json:"plug"`
}

type currentEntry struct {
	Volts     float64 `json:"volts"`
	Milliamps int     `json:"milliamps"`
	Current   string  `json:"current"`
	Polarity  string  `json:"polarity"`
	Isolated  bool    `json:"isolated"`
}

type outputEntry struct {
	Jack string `json:"jack"`
	currentEntry
}

type plugEntry struct {
	entry
	Kind  string  `json:"kind"`
	Out   float64 `json:"out_mm"`
	Width float64 `json:"width_mm"`
	Leg   float64 `json:"leg_mm"`
}

type boardEntry struct {
	entry
	Surface   string     `json:"surface"`
	Size      [2]float64 `json:"size_mm"`
	Thickness float64    `json:"thickness_mm"`
	Material  string     `json:"material"`
	Mass      float64    `json:"mass_g"`
}

type materialEntry struct {
	entry
	Density float64 `json:"density_kg_m3"`
}

type fastenerEntry struct {
	entry
	Kind     string    `json:"kind"`
	Widths   []float64 `json:"widths_mm"`
	Strength float64   `json:"strength_kpa"`
}

func newShelf(c *catalog.Catalog) *shelf {
	s := &shelf{Schema: "footplank/forms/1", Units: []unitEntry{}, Plugs: []plugEntry{}, Boards: []boardEntry{},
		Materials: []materialEntry{}, Fasteners: []fastenerEntry{}}
	for _, f := range c.Units() {
		s.Units = append(s.Units, newUnitEntry(f))
	}
	for _, f := range c.Plugs() {
		s.Plugs = append(s.Plugs, plugEntry{newEntry(f.Name, f.Summary, f.Values), string(f.Kind),
			f.Out.MM(), f.Width.MM(), f.Leg.MM()})
	}
	for _, f := range c.Boards() {
		b := &f.Board
		s.Boards = append(s.Boards, boardEntry{newEntry(f.Name, f.Summary, f.Values), string(b.Kind),
			[2]float64{b.W.MM(), b.D.MM()}, b.Thickness.MM(), b.Material, b.TotalMass().Grams()})
	}
	for _, f := range c.Materials() {
		s.Materials = append(s.Materials, materialEntry{newEntry(f.Name, f.Summary, f.Values), f.Density})
	}
	for _, f := range c.Fasteners() {
		e := fastenerEntry{newEntry(f.Name, f.Summary, f.Values), f.Kind, []float64{}, f.StrengthKPa}
		for _, w := range f.Widths {
			e.Widths = append(e.Widths, w.MM())
		}
		s.Fasteners = append(s.Fasteners, e)
	}
	return s
}

func newEntry(name, summary string, values []catalog.Value) entry {
	e := entry{name, summary, []value{}}
	for _, v := range values {
		e.Values = append(e.Values, value{v.Key, string(v.Status), v.Source})
	}
	return e
}

func newUnitEntry(f *catalog.UnitForm) unitEntry {
	u := f.Template()
	e := unitEntry{entry: newEntry(f.Name, f.Summary, f.Values), Family: f.Family, Treadle: u.Treadle,
		Body: millimetres(u.Body), Overall: millimetres(u.Overall), Mass: u.Mass.Grams(),
		Switches: []switchEntry{}, Jacks: []jackEntry{}}
	for _, sw := range u.Switches {
		e.Switches = append(e.Switches, switchEntry{sw.Name, [2]float64{sw.At.X.MM(), sw.At.Y.MM()}, sw.Height.MM()})
	}
	for _, j := range u.Jacks {
		e.Jacks = append(e.Jacks, jackEntry{j.ID, string(j.Kind), string(j.Signal), string(j.Dir), j.Wall.String(),
			j.Along.MM(), j.Height.MM(), j.Plug.Name})
	}
	if d := u.Draw; d != nil {
		c := newCurrentEntry(d.Millivolts, d.Milliamps, d.AC, d.CentrePositive, d.Isolated)
		e.Draw = &c
	}
	for _, o := range u.Outputs {
		e.Outputs = append(e.Outputs, outputEntry{o.Jack,
			newCurrentEntry(o.Millivolts, o.Milliamps, o.AC, o.CentrePositive, o.Isolated)})
	}
	return e
}

func newCurrentEntry(millivolts, milliamps int, ac, positive, isolated bool) currentEntry {
	e := currentEntry{float64(millivolts) / 1000, milliamps, "dc", "centre-negative", isolated}
	if ac {
		e.Current = "ac"
	}
	if positive {
		e.Polarity = "centre-positive"
	}
	return e
}

func millimetres(s layout.Size) [3]float64 { return [3]float64{s.W.MM(), s.D.MM(), s.H.MM()} }

// names returns the names of all forms, each once, in the order of the list.
func (s *shelf) names() []string {
	var out []string
	s.each(func(_ string, e entry, _ string) {
		if !slices.Contains(out, e.Name) {
			out = append(out, e.Name)
		}
	})
	return out
}

// named returns the part of the shelf with the forms of that name.
func (s *shelf) named(name string) *shelf {
	return &shelf{Schema: s.Schema,
		Units:     keep(s.Units, func(e unitEntry) bool { return e.Name == name }),
		Plugs:     keep(s.Plugs, func(e plugEntry) bool { return e.Name == name }),
		Boards:    keep(s.Boards, func(e boardEntry) bool { return e.Name == name }),
		Materials: keep(s.Materials, func(e materialEntry) bool { return e.Name == name }),
		Fasteners: keep(s.Fasteners, func(e fastenerEntry) bool { return e.Name == name }),
	}
}

func keep[E any](all []E, wanted func(E) bool) []E {
	out := []E{}
	for _, e := range all {
		if wanted(e) {
			out = append(out, e)
		}
	}
	return out
}

package changeover

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/route"
	"footplank/layout/wiring"
)

// side is a line-up as it stands: before or after.
type side struct {
	p        *layout.Plan
	l        *layout.Lineup
	placed   []layout.Standing
	at       map[string]*layout.Standing
	unplaced []*layout.Unit
	links    []link
}

// link is something plugged in a line-up.
type link struct {
	sort       Sort
	name       string // of the cable; links of one sort and name may be one thing
	label      string
	ends       []layout.JackRef // on the board
	unit       string           // that a lead feeds
	millivolts int              // of a switched output
	path       []wiring.Point3
	thick      layout.Length
}

func newSide(m *Maker, l *layout.Lineup) *side {
	s := &side{p: m.p, l: l, at: map[string]*layout.Standing{}}
	s.placed, s.unplaced = m.p.Standings(l)
	for i := range s.placed {
		s.at[s.placed[i].Unit.ID] = &s.placed[i]
	}
	s.cables(m)
	s.leads(m)
	s.others()
	return s
}

// sound refuses a line-up that cannot be on the board as it is.
func (s *side) sound() error {
	if len(s.unplaced) > 0 {
		var ids, names []string
		for _, u := range s.unplaced {
			ids, names = append(ids, u.ID), append(names, u.Label)
		}
		return &Refusal{s.l.Name, ids, fmt.Sprintf("line-up %q is not on the board yet: %s without a place", s.l.Name, strings.Join(names, ", "))}
	}
	for i := range s.placed {
		for k := range s.placed[:i] {
			if a, b := &s.placed[k], &s.placed[i]; meet(a.Boxes, b.Boxes) {
				return &Refusal{s.l.Name, []string{a.Unit.ID, b.Unit.ID}, fmt.Sprintf("line-up %q cannot be built: %s and %s stand in each other or in each other's plugs", s.l.Name, a.Unit.Label, b.Unit.Label)}
			}
		}
	}
	return nil
}

func meet(a, b []layout.PartBox) bool {
	for i := range a {
		for k := range b {
			if a[i].Box.Overlaps(b[k].Box) {
				return true
			}
		}
	}
	return false
}

// bodies returns what of a standing unit takes room with nothing plugged.
func bodies(s *layout.Standing) []layout.PartBox {
	return slices.DeleteFunc(slices.Clone(s.Boxes), func(b layout.PartBox) bool { return b.Part == layout.PlugPart })
}

// cables adds the audio cables.
func (s *side) cables(m *Maker) {
	w := m.w.Of(s.l.Name)
	if w == nil {
		return
	}
	for i := range w.Cables {
		c := &w.Cables[i]
		k := link{sort: Patch, name: c.Kit, path: c.Path, thick: wiring.Cabling(s.p).Diameter}
		for n := range m.w.Kit {
			if m.w.Kit[n].ID == c.Kit {
				k.label = m.w.Kit[n].Label
			}
		}
		for _, r := range []layout.JackRef{c.From, c.To} {
			if layout.OffBoard(r.Unit) {
				k.sort, k.name, k.label = Stage, r.Unit, r.Unit
				continue
			}
			k.ends = append(k.ends, r)
		}
		if len(k.ends) > 0 {
			s.links = append(s.links, k)
		}
	}
}

// leads adds the power leads. A lead is known by its output: it stays in it and
// feeds what the line-up has there.
func (s *side) leads(m *Maker) {
	how := map[string]power.Assignment{}
	for _, a := range m.m.In(s.p, s.l.Name) {
		how[a.Unit] = a
	}
	for i := range m.m.Leads {
		d := &m.m.Leads[i]
		if d.Lineup != s.l.Name {
			continue
		}
		k := link{sort: Lead, unit: d.Unit, thick: route.LeadDiameter, ends: []layout.JackRef{{Unit: d.Supply, Jack: d.Output}, {Unit: d.Unit, Jack: d.Jack}}}
		k.name = d.Supply + "/" + d.Output
		k.label = "lead of " + s.jack(k.ends[0])
		if d.Reversing {
			k.name, k.label = k.name+" reversing", "reversing "+k.label
		}
		if d.Adaptor != "" {
			k.name, k.label = k.name+" "+d.Adaptor, k.label+", "+d.Adaptor
		}
		if how[d.Unit].Switched {
			k.millivolts = d.Millivolts
		}
		k.path = d.Path
		s.links = append(s.links, k)
	}
}

// others adds what is plugged where neither chain nor power say what it is.
func (s *side) others() {
	known := map[layout.JackRef]bool{}
	for i := range s.links {
		for _, e := range s.links[i].ends {
			known[e] = true
		}
	}
	used := s.p.Used(s.l)
	for i := range s.placed {
		u := s.placed[i].Unit
		for k := range u.Jacks {
			r := layout.JackRef{Unit: u.ID, Jack: u.Jacks[k].ID}
			if !used[r] || known[r] {
				continue
			}
			o := link{sort: Beside, name: r.Unit + "/" + r.Jack, label: "what is in it", ends: []layout.JackRef{r}}
			switch {
			case u.Jacks[k].Signal == layout.Line:
				o.sort, o.label = Mains, "mains cable"
			case u.Supplies() && !u.Expander() && u.PowerIn() == &u.Jacks[k]:
				o.sort, o.label = Mains, "adaptor"
			}
			s.links = append(s.links, o)
		}
	}
}

// jack names a jack in words.
func (s *side) jack(r layout.JackRef) string { return name(s.p, r.Unit) + " " + r.Jack }

// name is a unit's label, with its ID where another unit has the same label.
func name(p *layout.Plan, id string) string {
	u := p.Unit(id)
	if u == nil {
		return id
	}
	for i := range p.Units {
		if v := &p.Units[i]; v != u && v.Label == u.Label {
			return u.Label + " (" + id + ")"
		}
	}
	return u.Label
}

// over reports whether the link lies over the rectangle, above height z. A run
// that found no way is a straight line, which says nothing.
func (k *link) over(r layout.Rect, z layout.Length) bool {
	half := k.thick / 2
	for i := 1; i < len(k.path); i++ {
		a, b := k.path[i-1], k.path[i]
		if a.X != b.X && a.Y != b.Y {
			return false
		}
		run := layout.Rect{X0: min(a.X, b.X) - half, Y0: min(a.Y, b.Y) - half, X1: max(a.X, b.X) + half, Y1: max(a.Y, b.Y) + half}
		if max(a.Z, b.Z)+half > z && run.Overlaps(r) {
			return true
		}
	}
	return false
}

// travel is how far a plug goes into its jack, and so how much free room behind
// it a plug needs to come out.
var travel = map[layout.JackKind]layout.Length{
	layout.Phone:   31_750,                 // metaglossary, "phone plug"
	layout.DC:      9500,                   // IEC 60130-10 type A, as Wikipedia "EIAJ connector" has it
	layout.MiniTRS: 14 * layout.Millimetre, // from memory
	layout.DIN:     10 * layout.Millimetre, // common practice, no source
	layout.XLR:     20 * layout.Millimetre, // common practice, no source
	layout.Mains:   20 * layout.Millimetre, // common practice, no source
}

// tight returns the unit that leaves the plug in the jack no room to go straight
// in or out, or "".
func (s *side) tight(r layout.JackRef) string {
	st := s.at[r.Unit]
	if st == nil {
		return ""
	}
	j := st.Unit.Jack(r.Jack)
	for _, b := range st.Boxes {
		if b.Part != layout.PlugPart || b.Jack != r.Jack {
			continue
		}
		way := behind(b.Box, j.Wall.Turned(st.Place.Turn), travel[j.Kind])
		for i := range s.placed {
			if o := &s.placed[i]; o != st && o.Boxes[0].Box.Overlaps(way) {
				return o.Unit.ID
			}
		}
	}
	return ""
}

// behind returns the room that a plug takes on its way out.
func behind(b layout.Box, side layout.Wall, d layout.Length) layout.Box {
	switch side {
	case layout.Front:
		b.Y0, b.Y1 = b.Y0-d, b.Y0
	case layout.Back:
		b.Y0, b.Y1 = b.Y1, b.Y1+d
	case layout.Left:
		b.X0, b.X1 = b.X0-d, b.X0
	default:
		b.X0, b.X1 = b.X1, b.X1+d
	}
	return b
}

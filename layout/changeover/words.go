package changeover

import (
	"cmp"
	"fmt"
	"strings"

	"footplank/layout"
)

// words puts a step into words.
func (c *change) words(s *Step) {
	switch s.Kind {
	case Mute:
		s.Text = "Turn down at the " + c.end() + ", or ask for it"
		if c.leads() {
			s.Text += "; switch the supply off if it can be, so that no loose lead is live"
		}
		s.Text += " (common practice)."
	case Unplug:
		if s.Sort == Beside {
			s.Text = "Unplug what is in " + c.ends(s, c.from) + "."
			return
		}
		s.Text = "Unplug " + s.called() + " from " + c.ends(s, c.from) + c.then(s) + "."
	case Plug, Power:
		if s.Sort == Beside {
			s.Text = "Plug what belongs there into " + c.ends(s, c.to) + "."
			return
		}
		s.Text = c.plugWords(s) + " into " + c.ends(s, c.to) + "." + c.volts(s)
	case Lift:
		s.Text = c.liftWords(s)
	case Place:
		s.Text = fmt.Sprintf("%s %s%s %s%s.", c.clearWords(s, "Place"), name(c.p, s.Unit), again(s.Aside), c.spot(c.to, s.Unit), c.goesIn(s))
	case Move:
		s.Text = fmt.Sprintf("%s %s %s, to stand %s%s.", c.clearWords(s, pick(s.beneath != "", "Slide", "Move")), name(c.p, s.Unit), c.way(s), c.spot(c.to, s.Unit), c.goesIn(s))
	case Check:
		if s.Sort == Lead {
			s.Text = c.powerWords(s)
		} else {
			s.Text = "Play a note, turn up at the " + c.end() + ", and step through " + c.list(s.Units) + "."
		}
	}
}

// leads reports whether a lead is pulled or plugged.
func (c *change) leads() bool {
	for i := range c.pairs {
		p := &c.pairs[i]
		if k := cmp.Or(p.before, p.after); k.sort == Lead && len(p.in)+len(p.out) > 0 {
			return true
		}
	}
	return false
}

func again(aside bool) string {
	if aside {
		return ", set aside before,"
	}
	return ""
}

func (s *Step) called() string { return (&link{sort: s.Sort, name: s.Cable, label: s.Label}).called() }

// end names where the signal goes.
func (c *change) end() string {
	nodes := c.p.Nodes(c.to.l)
	if n := len(nodes); n > 0 && layout.OffBoard(nodes[n-1].Unit) && nodes[n-1].Unit != layout.Instrument {
		return nodes[n-1].Unit
	}
	return "amp or desk"
}

// ends lists the jacks of a step, and which end of a cable stays. Of a lead that
// goes without saying: it is called by the output that it stays in.
func (c *change) ends(s *Step, on *side) string {
	var out []string
	for _, e := range s.Ends {
		text := on.jack(e.JackRef)
		if u := c.p.Unit(e.Unit); s.Sort == Lead && e.Unit != s.Unit && u != nil && u.Supplies() {
			text = "the output" // which it is called by
		}
		if e.Tight != "" {
			text += " (tight)"
		}
		out = append(out, text)
	}
	text := strings.Join(out, " and ")
	if len(s.Stays) > 0 && s.Sort != Lead {
		text += "; its end in " + c.from.jack(s.Stays[0]) + " stays"
	}
	return text
}

func (c *change) volts(s *Step) string {
	if s.Millivolts == 0 {
		return ""
	}
	return fmt.Sprintf(" The output must stand at %s V.", volts(s.Millivolts))
}

func volts(mv int) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", float64(mv)/1000), "0"), ".")
}

// then says why a cable that stays is pulled at one end, and what becomes of one
// that is pulled out whole.
func (c *change) then(s *Step) string {
	switch {
	case s.Over != "":
		return ": it lies over " + name(c.p, s.Over)
	case len(s.Stays) > 0 || s.Sort == Beside || s.Sort == Mains:
		return ""
	case s.By:
		return ", and put it by"
	case s.Sort == Patch:
		return ", and keep it at hand"
	}
	return ""
}

// plugWords begins the plugging of what is there, or has to be fetched.
func (c *change) plugWords(s *Step) string {
	if s.Fetched && s.Sort == Patch {
		return "Take " + s.called() + " and plug it"
	}
	return "Plug " + s.called()
}

// powerWords asks first about what has just been given power.
func (c *change) powerWords(s *Step) string {
	fresh := map[string]bool{}
	for i := range c.pairs {
		if p := &c.pairs[i]; p.after != nil && p.after.sort == Lead && len(p.in) > 0 {
			fresh[p.after.unit] = true
		}
	}
	var now []string
	for _, id := range s.Units {
		if fresh[id] {
			now = append(now, id)
		}
	}
	switch {
	case len(now) == 0:
		return "With the supply on, see that each still has power: " + c.list(s.Units) + "."
	case len(now) == len(s.Units):
		return "With the supply on, see that each has power: " + c.list(s.Units) + "."
	}
	return "With the supply on, see that " + c.list(now) + pick(len(now) == 1, " has", " have") + " power, and the others still."
}

func (c *change) liftWords(s *Step) string {
	st := c.from.at[s.Unit]
	from := "off " + c.surface(st.Place.On)
	if s.out != nil {
		from = "out from under " + s.out.words(c.p, "to")
	}
	if s.Aside {
		return fmt.Sprintf("Lift %s %s and set it aside: its place is not free yet.", name(c.p, s.Unit), from)
	}
	return fmt.Sprintf("Lift %s %s.", name(c.p, s.Unit), from)
}

// clearWords begins a step with its verb, and with what is in the way.
func (c *change) clearWords(s *Step, verb string) string {
	if len(s.Clear) == 0 {
		return verb
	}
	return "Hold " + strings.Join(s.Clear, " and ") + " out of the way, still plugged, and " + strings.ToLower(verb)
}

// goesIn says how a unit comes under a riser.
func (c *change) goesIn(s *Step) string {
	if s.in == nil {
		return ""
	}
	return ", in under " + s.in.words(c.p, "from")
}

// surface names a surface with its article.
func (c *change) surface(on string) string { return "the " + on }

// spot says where a unit is to stand.
func (c *change) spot(s *side, id string) string {
	st := s.at[id]
	text := fmt.Sprintf("on %s at %s, %s %s", c.surface(st.Place.On), c.num(st.Place.At.X), c.num(st.Place.At.Y), c.unit())
	if st.Place.Turn != 0 {
		text += fmt.Sprintf(", turned %d degrees", st.Place.Turn.Degrees())
	}
	if slot := s.p.SlotOf(s.l, id); slot != nil {
		text += fmt.Sprintf(" (slot %s)", slot.Name)
	}
	return text
}

// way says how far a unit moves, as the player sees it.
func (c *change) way(s *Step) string {
	var parts []string
	if s.out != nil {
		parts = append(parts, "out from under "+s.out.words(c.p, "to"))
	}
	if s.From.On != s.To.On {
		parts = append(parts, "from "+c.surface(s.From.On)+" to "+c.surface(s.To.On))
	} else {
		dx, dy := s.To.At.X-s.From.At.X, s.To.At.Y-s.From.At.Y
		if dx != 0 {
			parts = append(parts, c.num(max(dx, -dx))+" "+c.unit()+" to the "+pick(dx > 0, "right", "left"))
		}
		if dy != 0 {
			parts = append(parts, c.num(max(dy, -dy))+" "+c.unit()+" to the "+pick(dy > 0, "back", "front"))
		}
	}
	if s.beneath != "" {
		parts = append(parts, "beneath the "+s.beneath)
	}
	// Of one that lay at turn 0 the place says as much.
	if t := s.To.Turn.Add(4 - s.From.Turn); t != 0 && s.From.Turn != 0 {
		parts = append(parts, fmt.Sprintf("turned by %d degrees clockwise", t.Degrees()))
	}
	return strings.Join(parts, ", ")
}

func pick(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// num is a length as a tape measure shows it, and unit what it counts.
func (c *change) num(l layout.Length) string { return l.Tape(c.p.Measure()) }
func (c *change) unit() string               { return string(c.p.Measure()) }

func (c *change) list(ids []string) string {
	var out []string
	for _, id := range ids {
		out = append(out, name(c.p, id))
	}
	return strings.Join(out, ", ")
}

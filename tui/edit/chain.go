package edit

import (
	"cmp"
	"fmt"
	"slices"

	"footplank/layout"
)

// StopAt returns the index of the unit's first stop in the chain, -1 for none.
func StopAt(p *layout.Plan, id string) int {
	return slices.IndexFunc(p.Chain.Stops, func(s layout.Stop) bool { return s.Unit == id })
}

// Join puts a unit at the end of the chain, before the amp or the desk.
func Join(p *layout.Plan, id string) error { return JoinAt(p, id, len(p.Chain.Stops)) }

// JoinAt puts a unit at that index of the chain, as AddStop does.
func JoinAt(p *layout.Plan, id string, at int) error {
	u := p.Unit(id)
	switch {
	case u == nil:
		return fmt.Errorf("there is no unit %q", id)
	case p.InSlots(id):
		return fmt.Errorf("%s is in a slot, and is in the chain through it", u.Label)
	case StopAt(p, id) >= 0:
		return nil
	}
	s, ok := Pass(u, nil)
	if !ok {
		return fmt.Errorf("%s has no jacks for the signal to come in by and leave by", u.Label)
	}
	AddStop(p, s, at)
	return nil
}

// Leave takes a unit out of the chain, all its stops.
func Leave(p *layout.Plan, id string) {
	p.Chain.Stops = slices.DeleteFunc(slices.Clone(p.Chain.Stops), func(s layout.Stop) bool { return s.Unit == id })
}

// AddStop puts a stop at that index of the chain, but behind the instrument and
// before the end.
func AddStop(p *layout.Plan, s layout.Stop, at int) {
	stops := slices.Clone(p.Chain.Stops)
	if !layout.OffBoard(s.Unit) {
		if at == 0 && len(stops) > 0 && stops[0].Unit == layout.Instrument {
			at = 1
		}
		if n := len(stops); at >= n && n > 0 && stops[n-1].Unit != layout.Instrument && layout.OffBoard(stops[n-1].Unit) {
			at = n - 1
		}
	}
	p.Chain.Stops = slices.Insert(stops, min(max(at, 0), len(stops)), s)
}

// MoveStop moves a stop of the chain by so many places. The instrument stays
// first, the amp or the desk last.
func MoveStop(p *layout.Plan, i, by int) (at int, err error) {
	stops := p.Chain.Stops
	if i < 0 || i >= len(stops) {
		return i, fmt.Errorf("there is no such stop")
	}
	first, last := 0, len(stops)-1
	if stops[0].Unit == layout.Instrument {
		first = 1
	}
	if last > 0 && layout.OffBoard(stops[last].Unit) {
		last--
	}
	to := i + by
	switch {
	case layout.OffBoard(stops[i].Unit):
		return i, fmt.Errorf("the chain begins and ends with what is off the board")
	case to < first:
		return i, fmt.Errorf("it is the first already")
	case to > last:
		return i, fmt.Errorf("it is the last already")
	}
	s := stops[i]
	stops = slices.Delete(slices.Clone(stops), i, i+1)
	p.Chain.Stops = slices.Insert(stops, to, s)
	return to, nil
}

// RemoveStop takes a stop out of the chain.
func RemoveStop(p *layout.Plan, i int) error {
	if i < 0 || i >= len(p.Chain.Stops) {
		return fmt.Errorf("there is no such stop")
	}
	p.Chain.Stops = slices.Delete(slices.Clone(p.Chain.Stops), i, i+1)
	return nil
}

// SetStop changes the jacks by which the signal passes a unit.
func SetStop(p *layout.Plan, i int, in, out string) error {
	if i < 0 || i >= len(p.Chain.Stops) {
		return fmt.Errorf("there is no such stop")
	}
	p.Chain.Stops = slices.Clone(p.Chain.Stops)
	s := &p.Chain.Stops[i]
	if in == "in" && (out == "out" || out == "") {
		in, out = "", ""
	}
	if out == "out" && in == "" {
		out = ""
	}
	s.In, s.Out = in, out
	return nil
}

// Pass is a stop of the chain at a unit: by its jacks in and out, or by the first
// others that the signal can pass by and that none of the stops given takes.
func Pass(u *layout.Unit, stops []layout.Stop) (layout.Stop, bool) {
	first := func(dir layout.Direction, usual string, at func(s layout.Stop) string) string {
		found := ""
		for i := range u.Jacks {
			j := &u.Jacks[i]
			taken := slices.ContainsFunc(stops, func(s layout.Stop) bool { return s.Unit == u.ID && cmp.Or(at(s), usual) == j.ID })
			if j.Dir == dir && (j.Signal == layout.Audio || j.Signal == layout.Control) && !taken && (found == "" || j.ID == usual) {
				found = j.ID
			}
		}
		return found
	}
	s := layout.Stop{Unit: u.ID, In: first(layout.In, "in", func(s layout.Stop) string { return s.In }),
		Out: first(layout.Out, "out", func(s layout.Stop) string { return s.Out })}
	ok := s.In != "" && s.Out != ""
	if s.In == "in" && s.Out == "out" {
		s.In, s.Out = "", ""
	}
	return s, ok
}

// PassAgain puts a second stop at a unit into the chain, by jacks that the first
// does not take. One with a send and a return is then left by its send the first
// time and entered by its return the second.
func PassAgain(p *layout.Plan, id string) error {
	u := p.Unit(id)
	if u == nil {
		return fmt.Errorf("there is no unit %q", id)
	}
	if i := StopAt(p, id); i >= 0 && loops(u) && cmp.Or(p.Chain.Stops[i].Out, "out") == "out" {
		if err := SetStop(p, i, cmp.Or(p.Chain.Stops[i].In, "in"), "send"); err != nil {
			return err
		}
	}
	s, ok := AgainBy(p, u)
	if !ok {
		return fmt.Errorf("%s has no other jacks for the signal to pass it by", u.Label)
	}
	AddStop(p, s, len(p.Chain.Stops))
	return nil
}

// AgainBy is the stop that PassAgain puts into the chain.
func AgainBy(p *layout.Plan, u *layout.Unit) (layout.Stop, bool) {
	if loops(u) && !slices.ContainsFunc(p.Chain.Stops, func(s layout.Stop) bool { return s.Unit == u.ID && s.In == "return" }) {
		return layout.Stop{Unit: u.ID, In: "return", Out: "out"}, true
	}
	return Pass(u, p.Chain.Stops)
}

// loops reports whether a unit has a loop of its own for others to be in.
func loops(u *layout.Unit) bool {
	return u.Jack("return") != nil && u.Jack("send") != nil && Passes(u)
}

// SetEnd makes the chain end at the amp or at the desk.
func SetEnd(p *layout.Plan, end string) {
	p.Chain.Stops = slices.Clone(p.Chain.Stops)
	if n := len(p.Chain.Stops); n > 0 && p.Chain.Stops[n-1].Unit != layout.Instrument && layout.OffBoard(p.Chain.Stops[n-1].Unit) {
		p.Chain.Stops[n-1].Unit = end
		return
	}
	p.Chain.Stops = append(p.Chain.Stops, layout.Stop{Unit: end})
}

// Unpassed returns the units that the signal could pass and does not: those of
// no slot that are not in the chain.
func Unpassed(p *layout.Plan) []*layout.Unit {
	var out []*layout.Unit
	for i := range p.Units {
		u := &p.Units[i]
		if _, ok := Pass(u, nil); ok && !p.InSlots(u.ID) && StopAt(p, u.ID) < 0 {
			out = append(out, u)
		}
	}
	return out
}

// SetLink changes the ith of the cables beside the chain; the one behind the last
// is a new one.
func SetLink(p *layout.Plan, i int, k layout.Link) {
	p.Chain.Links = slices.Clone(p.Chain.Links)
	if i >= len(p.Chain.Links) {
		p.Chain.Links = append(p.Chain.Links, k)
		return
	}
	p.Chain.Links[i] = k
}

// RemoveLink takes a cable beside the chain out.
func RemoveLink(p *layout.Plan, i int) error {
	if i < 0 || i >= len(p.Chain.Links) {
		return fmt.Errorf("there is no such cable")
	}
	p.Chain.Links = slices.Delete(slices.Clone(p.Chain.Links), i, i+1)
	return nil
}

// Fill puts a unit into a line-up's slot or takes it out, at that index of what
// is in it. A unit that goes out of its last slot stays in the plan, in every
// line-up from then on: the signal passes it behind the slot that it was in. A slot that the
// chain does not pass yet takes the place in it of the first unit that it gets.
func Fill(p *layout.Plan, lineup, slot, id string, in bool, at int) error {
	l := p.LineupNamed(lineup)
	if l == nil {
		return fmt.Errorf("there is no line-up %q", lineup)
	}
	ids := slices.DeleteFunc(slices.Clone(l.Fill[slot]), func(x string) bool { return x == id })
	if in {
		ids = slices.Insert(ids, min(max(at, 0), len(ids)), id)
		if i := StopAt(p, id); i >= 0 && !Chained(p, slot) {
			p.Chain.Stops = slices.Insert(slices.Clone(p.Chain.Stops), i, layout.Stop{Slot: slot})
		}
	}
	if err := p.SetFill(lineup, slot, ids); err != nil {
		return err
	}
	u := p.Unit(id)
	if in || u == nil || p.InSlots(id) || StopAt(p, id) >= 0 {
		return nil
	}
	if s, ok := Pass(u, nil); ok {
		at := slices.IndexFunc(p.Chain.Stops, func(s layout.Stop) bool { return s.Slot == slot })
		if at < 0 {
			at = len(p.Chain.Stops) - 1
		}
		AddStop(p, s, at+1)
	}
	return nil
}

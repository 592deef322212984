package layout

import (
	"fmt"
	"slices"
)

// eachJackRef calls do with every jack that the plan names outside of the unit
// itself, but for those of the chain's stops: ends of links, and outputs that
// units name to draw from.
func (p *Plan) eachJackRef(do func(r *JackRef)) {
	p.Chain.Links = slices.Clone(p.Chain.Links)
	for i := range p.Chain.Links {
		do(&p.Chain.Links[i].From)
		do(&p.Chain.Links[i].To)
	}
	p.eachFeed(do)
}

// RemoveJack takes a jack out of a unit and out of all that refers to it: its
// cables go, with stops of the chain that need it, and an output that it is; who
// drew from that is left to the power map. A unit that has no jack to draw by any
// more draws nothing.
func (p *Plan) RemoveJack(unit, jack string) error {
	u, err := p.unitWithJack(unit, jack)
	if err != nil {
		return err
	}
	at := JackRef{unit, jack}
	u.Jacks = slices.DeleteFunc(slices.Clone(u.Jacks), func(j Jack) bool { return j.ID == jack })
	u.Uses = without(u.Uses, jack)
	if len(u.Uses) == 0 {
		u.Uses = nil
	}
	u.withoutOutput(jack)
	if u.Draw != nil && u.PowerIn() == nil {
		u.Draw = nil
	}
	p.Chain.Stops = slices.DeleteFunc(slices.Clone(p.Chain.Stops), func(s Stop) bool {
		in, out := s.Jacks()
		return s.Unit == unit && (in == jack || out == jack)
	})
	p.Chain.Links = slices.DeleteFunc(slices.Clone(p.Chain.Links), func(k Link) bool { return k.From == at || k.To == at })
	p.unfeed(at)
	return nil
}

func (u *Unit) withoutOutput(jack string) {
	u.Outputs = slices.DeleteFunc(slices.Clone(u.Outputs), func(o Output) bool { return o.Jack == jack })
	if len(u.Outputs) == 0 {
		u.Outputs = nil
	}
}

// unfeed leaves the units that named an output to draw from to the power map.
func (p *Plan) unfeed(output JackRef) {
	p.eachFeed(func(r *JackRef) {
		if *r == output {
			*r = JackRef{}
		}
	})
	p.Feeds = nil
}

// RemoveOutput makes a jack of a unit no output any more. Who drew from it is left
// to the power map.
func (p *Plan) RemoveOutput(unit, jack string) error {
	u, err := p.unitWithJack(unit, jack)
	switch {
	case err != nil:
		return err
	case u.Output(jack) == nil:
		return fmt.Errorf("jack %q of %s is no output", jack, u.Label)
	}
	u.withoutOutput(jack)
	p.unfeed(JackRef{unit, jack})
	return nil
}

// RenameJack gives a jack of a unit another id, wherever the plan names it.
func (p *Plan) RenameJack(unit, jack, to string) error {
	u, err := p.unitWithJack(unit, jack)
	switch {
	case err != nil:
		return err
	case jack == to:
		return nil
	case !ValidID(to):
		return badName("jack", to)
	case u.Jack(to) != nil:
		return fmt.Errorf("%s has a jack %q already", u.Label, to)
	}
	u.Jacks, u.Uses, u.Outputs = slices.Clone(u.Jacks), slices.Clone(u.Uses), slices.Clone(u.Outputs)
	u.Jack(jack).ID = to
	for i := range u.Uses {
		if u.Uses[i] == jack {
			u.Uses[i] = to
		}
	}
	for i := range u.Outputs {
		if o := &u.Outputs[i]; o.Jack == jack {
			o.Jack = to
		}
	}
	p.Chain.Stops = slices.Clone(p.Chain.Stops)
	for i := range p.Chain.Stops {
		s := &p.Chain.Stops[i]
		if s.Unit != unit {
			continue
		}
		in, out := s.Jacks()
		if in == jack {
			s.In = to
		}
		if out == jack {
			s.Out = to
		}
	}
	p.eachJackRef(func(r *JackRef) {
		if *r == (JackRef{unit, jack}) {
			r.Jack = to
		}
	})
	p.Feeds = nil
	return nil
}

func (p *Plan) unitWithJack(unit, jack string) (*Unit, error) {
	u := p.Unit(unit)
	switch {
	case u == nil:
		return nil, fmt.Errorf("there is no unit %q", unit)
	case u.Jack(jack) == nil:
		return nil, fmt.Errorf("%s has no jack %q", u.Label, jack)
	}
	return u, nil
}

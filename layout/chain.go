package layout

import "fmt"

// Node is one stop of the chain as a line-up plays it: a unit, or an end of
// the chain with no jacks.
type Node struct {
	Unit    string
	In, Out string // jack IDs, "" at the ends of the chain
}

// Nodes returns the chain of the line-up, slots replaced by their units.
func (p *Plan) Nodes(l *Lineup) []Node {
	var out []Node
	for _, s := range p.Chain.Stops {
		switch {
		case s.Slot != "":
			for _, id := range l.Fill[s.Slot] {
				out = append(out, Stop{Unit: id}.node())
			}
		case OffBoard(s.Unit):
			out = append(out, Node{Unit: s.Unit})
		default:
			out = append(out, s.node())
		}
	}
	return out
}

func (s Stop) node() Node {
	in, out := s.Jacks()
	return Node{s.Unit, in, out}
}

// ChainLinks returns the line-up's audio links in the order of the signal: one
// between each two neighbours of the chain, then the extra links whose units
// are all on the board.
func (p *Plan) ChainLinks(l *Lineup) []Link {
	var out []Link
	nodes := p.Nodes(l)
	for i := 1; i < len(nodes); i++ {
		a, b := nodes[i-1], nodes[i]
		out = append(out, Link{JackRef{a.Unit, a.Out}, JackRef{b.Unit, b.In}})
	}
	for _, k := range p.Chain.Links {
		if p.linkPresent(l, k.From) && p.linkPresent(l, k.To) {
			out = append(out, k)
		}
	}
	return out
}

func (p *Plan) linkPresent(l *Lineup, r JackRef) bool {
	return OffBoard(r.Unit) || p.Present(l, r.Unit)
}

// PassOf names the pass of the signal through a unit that a jack is part of, as
// a search for loops sees it. A jack by which the chain goes in or out belongs to
// that pass. The others belong to the only pass of a unit that the chain passes
// once by its usual jacks; where the chain names jacks, or passes the unit more
// than once, they stand for themselves, for there the unit has lines of its own.
func PassOf(nodes []Node, r JackRef) string {
	passes, usual := 0, -1
	for i, n := range nodes {
		if n.Unit != r.Unit {
			continue
		}
		if n.In == r.Jack || n.Out == r.Jack {
			return fmt.Sprint(r.Unit, " ", i)
		}
		if passes++; n.In == "in" && n.Out == "out" {
			usual = i
		}
	}
	switch {
	case passes == 0:
		return r.Unit
	case passes == 1 && usual >= 0:
		return fmt.Sprint(r.Unit, " ", usual)
	}
	return r.Unit + "/" + r.Jack
}

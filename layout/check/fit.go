package check

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// caseRoom checks the board and what stands on it against its case. The board
// may lie anywhere in the case; only the loaded board's whole width and depth
// count.
func (c *checker) caseRoom() {
	b := &c.p.Board
	if b.Case == nil {
		return
	}
	inside := b.Case.Inside
	if b.W > inside.W || b.D > inside.D {
		side, room := b.W, inside.W
		if b.D-inside.D > b.W-inside.W {
			side, room = b.D, inside.D
		}
		c.addLength(CaseBoard, Fault, fmt.Sprintf("The bare board does not go into the case: one side is %s, the case inside %s. Take a larger case or a smaller board.",
			c.atLeast(side), c.atMost(room)), side, room)
		return
	}
	boxes := c.travelling()
	c.caseWall(boxes, "wide", "left and right", b.W, inside.W, func(x layout.Box) (lo, hi layout.Length) { return x.X0, x.X1 })
	c.caseWall(boxes, "deep", "front and back", b.D, inside.D, func(x layout.Box) (lo, hi layout.Length) { return x.Y0, x.Y1 })
	c.caseLid(boxes, inside.H-b.Case.Below)
}

// packed is a box that goes into the case: of a unit, or of the board itself,
// and then unit is nil and piece its name.
type packed struct {
	unit  *layout.Unit
	part  *layout.PartBox
	piece string
	box   layout.Box
}

func (k *packed) name() string {
	if k.unit == nil {
		return "the " + k.piece
	}
	return part(k.unit, k.part)
}

// travelling returns what goes into the case: the board's own parts, bodies,
// and the plugs of cables that stay on the board.
func (c *checker) travelling() []packed {
	n := 8 // parts of the board, about
	for i := range c.stand {
		n += len(c.stand[i].Boxes)
	}
	out := make([]packed, 0, n)
	for _, o := range c.p.Board.Obstacles() {
		out = append(out, packed{piece: o.Name, box: o.Box})
	}
	for i := range c.stand {
		s := &c.stand[i]
		for k := range s.Boxes {
			b := &s.Boxes[k]
			if b.Part == layout.BodyPart || b.Part == layout.PlugPart && !layout.PulledOut(c.links, s.Unit, b.Jack) {
				out = append(out, packed{s.Unit, b, "", b.Box})
			}
		}
	}
	return out
}

// caseWall checks one direction; axis gives a box's ends along it.
func (c *checker) caseWall(boxes []packed, word, edges string, side, room layout.Length, axis func(layout.Box) (lo, hi layout.Length)) {
	lo, hi := layout.Length(0), side
	for _, b := range boxes {
		l, h := axis(b.box)
		lo, hi = min(lo, l), max(hi, h)
	}
	if hi-lo <= room {
		return
	}
	var names, ids []string
	for _, b := range boxes {
		l, h := axis(b.box)
		if l == lo && l < 0 || h == hi && h > side {
			names = append(names, b.name())
			if b.unit != nil && !slices.Contains(ids, b.unit.ID) {
				ids = append(ids, b.unit.ID)
			}
		}
	}
	c.addLength(CaseWall, Fault, fmt.Sprintf("Loaded, the board is %s %s, and the case inside only %s: past its %s edges stands %s. Bring that in by %s, or take a larger case.",
		c.atLeast(hi-lo), word, c.atMost(room), edges, layout.And(names), c.atLeast(hi-lo-room)), hi-lo, room, ids...)
}

// caseLid checks the height, one finding a unit.
func (c *checker) caseLid(boxes []packed, room layout.Length) {
	for i := 0; i < len(boxes); {
		tallest, j := i, i
		for ; j < len(boxes) && (j == i || boxes[j].unit == boxes[i].unit && boxes[i].unit != nil); j++ {
			if boxes[j].box.Z1 > boxes[tallest].box.Z1 {
				tallest = j
			}
		}
		i = j
		b := boxes[tallest]
		if b.box.Z1 <= room {
			continue
		}
		var ids []string
		if b.unit != nil {
			ids = []string{b.unit.ID}
		}
		c.addLength(CaseLid, Fault, fmt.Sprintf("The lid does not close: %s reaches %s above the deck, and the case leaves %s. Stand it lower by %s, or take a deeper case.",
			b.name(), c.atLeast(b.box.Z1), c.atMost(max(room, 0)), c.atLeast(b.box.Z1-room)), b.box.Z1, room, ids...)
	}
}

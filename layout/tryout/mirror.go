package tryout

import (
	"footplank/layout"
	"footplank/pack"
)

// The complete search stands everything as far left and to the front as it
// can. Where the room that grows is there, a search in the mirror uses of it what
// it must instead of all.
//
//	front-left corner          in the mirror
//	+---+-----------+          +-----------+---+
//	|new|           |          |           |new|
//	+---+-----------+          +-----------+---+
//	 <- all is drawn            all is drawn away
//	    into the new            from the new

// mirrored returns the problem seen in a mirror beside the board, or in front of
// it, where the side that grows is left or front; else the problem itself.
func mirrored(p *pack.Problem, side layout.Wall) *pack.Problem {
	if side != layout.Left && side != layout.Front {
		return p
	}
	q := &pack.Problem{}
	for i := range p.Items {
		it := p.Items[i]
		was := it.Shapes
		it.Shapes = make([]pack.Shape, len(was))
		for s := range was {
			for _, b := range was[s].Boxes {
				it.Shapes[s].Boxes = append(it.Shapes[s].Boxes, mirroredBox(b, side))
			}
		}
		regions := it.Regions
		it.Regions = make([]pack.Region, len(regions))
		for k, r := range regions {
			if side == layout.Left {
				r.X0, r.X1 = -r.X1, -r.X0
			} else {
				r.Y0, r.Y1 = -r.Y1, -r.Y0
			}
			it.Regions[k] = r
		}
		q.Items = append(q.Items, it)
	}
	for _, o := range p.Obstacles {
		o.Box = mirroredBox(o.Box, side)
		q.Obstacles = append(q.Obstacles, o)
	}
	return q
}

func mirroredBox(b pack.Box, side layout.Wall) pack.Box {
	if side == layout.Left {
		b.X0, b.X1 = -b.X1, -b.X0
	} else {
		b.Y0, b.Y1 = -b.Y1, -b.Y0
	}
	return b
}

// unmirrored puts places in the mirror back on the board.
func unmirrored(at []pack.Place, side layout.Wall) {
	for i := range at {
		switch side {
		case layout.Left:
			at[i].X = -at[i].X
		case layout.Front:
			at[i].Y = -at[i].Y
		}
	}
}

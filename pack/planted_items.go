package pack

import "fmt"

// problem turns the plan into items and shuffles them.
func (pl *planter) problem(tooLarge bool) (*Problem, []Place) {
	p := &Problem{}
	var places []Place
	f := pl.d - pl.riser
	p.Obstacles = []Obstacle{
		{Name: "platform", Box: Box{X0: 0, Y0: f, Z0: plantClear, X1: pl.w, Y1: pl.d, Z1: plantClear + plantThick}},
		{Name: "left leg", Box: Box{X0: 0, Y0: f, Z0: 0, X1: plantLeg, Y1: pl.d, Z1: plantClear}},
		{Name: "right leg", Box: Box{X0: pl.w - plantLeg, Y0: f, Z0: 0, X1: pl.w, Y1: pl.d, Z1: plantClear}},
	}
	wide := -1
	for _, i := range pl.rng.Perm(len(pl.groups)) {
		boxes := pl.boxes(i)
		if wide < 0 && tooLarge {
			wide = i
			widen(boxes)
		}
		it, shape := pl.item(i, boxes)
		p.Items = append(p.Items, it)
		places = append(places, pl.home(i, it, shape))
	}
	return p, places
}

// home is where the plan has item i, which stands there in the given shape.
func (pl *planter) home(i int, it Item, shape int) Place {
	z := int64(0)
	if pl.level[i] == 2 {
		z = plantClear + plantThick
	}
	var at Place
	for _, q := range pl.parts {
		if q.item == i && !q.plug {
			at = Place{X: q.r.x0, Y: q.r.y0}
		}
	}
	for r, reg := range it.Regions {
		if reg.Shape == shape && reg.Z == z {
			at.Region = r
		}
	}
	return at
}

// boxes returns the item as it stands in the plan, the body first, with the
// body's corner as origin.
func (pl *planter) boxes(i int) []Box {
	var out []Box
	height := pl.between(30_000, 48_000)
	if pl.level[i] == 0 {
		height = pl.between(30_000, 90_000)
	}
	var body forbid
	for _, q := range pl.parts {
		if q.item == i && !q.plug {
			body = q.r
		}
	}
	out = append(out, Box{X1: body.x1 - body.x0, Y1: body.y1 - body.y0, Z1: height})
	for _, q := range pl.parts {
		if q.item != i || !q.plug {
			continue
		}
		b := Box{X0: q.r.x0 - body.x0, Y0: q.r.y0 - body.y0, Z0: pl.between(8_000, plantJack0),
			X1: q.r.x1 - body.x0, Y1: q.r.y1 - body.y0, Z1: pl.between(plantJack1, 28_000)}
		if q.groups != pl.groups[i] {
			b.Groups = q.groups
		}
		out = append(out, b)
	}
	for len(out) < 3 { // knobs on the lid
		w, d := out[0].X1, out[0].Y1
		x, y := pl.between(0, w/2), pl.between(0, d/2)
		out = append(out, Box{X0: x, Y0: y, Z0: height, X1: x + pl.between(8_000, w/2), Y1: y + pl.between(8_000, d/2), Z1: height + pl.between(3_000, 7_000)})
	}
	return out
}

// widen makes the body a millimetre wider and moves what stands beyond it.
func widen(boxes []Box) {
	edge := boxes[0].X1
	boxes[0].X1 += 1000
	for k := range boxes[1:] {
		b := &boxes[k+1]
		if b.X0 >= edge {
			b.X0 += 1000
			b.X1 += 1000
		}
	}
}

// item gives the boxes their turns and the places where those fit; shape is
// the one that has not been turned.
func (pl *planter) item(i int, boxes []Box) (it Item, shape int) {
	it = Item{Name: fmt.Sprintf("unit %d", i), Groups: pl.groups[i]}
	turns, first := 1, 0
	switch pl.rng.IntN(3) {
	case 0:
		turns, first = 4, pl.rng.IntN(4)
	case 1:
		turns, first = 2, 2*pl.rng.IntN(2)
	}
	for k := 0; k < turns; k++ {
		step := 1
		if turns == 2 {
			step = 2
		}
		if (first+k*step)%4 == 0 {
			shape = k
		}
		it.Shapes = append(it.Shapes, turned(boxes, (first+k*step)%4))
	}
	f := pl.d - pl.riser
	for s, sh := range it.Shapes {
		x0, y0, x1, y1 := sh.Boxes[0].X0, sh.Boxes[0].Y0, sh.Boxes[0].X1, sh.Boxes[0].Y1
		for _, b := range sh.Boxes {
			x0, y0, x1, y1 = min(x0, b.X0), min(y0, b.Y0), max(x1, b.X1), max(y1, b.Y1)
		}
		for _, r := range []Region{
			{Shape: s, X0: -x0, Y0: -y0, X1: pl.w - x1, Y1: pl.d - y1},
			{Shape: s, X0: -x0, Y0: f - y0, X1: pl.w - x1, Y1: pl.d - y1, Z: plantClear + plantThick},
		} {
			if r.X0 <= r.X1 && r.Y0 <= r.Y1 {
				it.Regions = append(it.Regions, r)
			}
		}
	}
	return it, shape
}

// turned returns the boxes turned clockwise by quarters, with the corner of the
// turned body, which is the first box, as origin again.
func turned(boxes []Box, quarters int) Shape {
	out := append([]Box(nil), boxes...)
	for ; quarters > 0; quarters-- {
		d := out[0].X1 // the body's width becomes its depth
		for k, b := range out {
			b.X0, b.Y0, b.X1, b.Y1 = b.Y0, d-b.X1, b.Y1, d-b.X0
			out[k] = b
		}
	}
	return Shape{Boxes: out}
}

package pack

import "context"

// headStart is the number of steps for which the outline search runs alone,
// a few milliseconds: much is decided by then, and what is not has cost little.
const headStart = 40000

// beamsFrom is the number of rectangles from which beams run beside the
// complete searches.
const beamsFrom = 30

// runPlain searches c with all methods.
func runPlain(ctx context.Context, c *plainCore, opt Options) plainFound {
	methods := []plainMethod{skylineMethod(false, byArea)}
	first := opt
	if first.Steps <= 0 || first.Steps > headStart {
		first.Steps = headStart
	}
	f := runRace(ctx, c, first, methods)
	if f.verdict != Undecided || first.Steps == opt.Steps || ctx.Err() != nil {
		return f
	}
	methods = append(methods, furtherMethods(c)...)
	if c.n > beamsFrom {
		methods = append(methods, beamMethod(opt.Seed))
	}
	return runRace(ctx, c, opt, methods)
}

// furtherMethods are those worth their share of the processors beside the
// upright outline search. The less may be lost, the better that search does
// and the worse learning.
func furtherMethods(c *plainCore) []plainMethod {
	var list []plainMethod
	waste := c.W*c.H - c.area
	if 200*waste > c.area || c.n <= 12 {
		list = append(list, orderedMethod(orderBold))
	}
	if !c.symmetric() {
		list = append(list, skylineMethod(true, byArea))
	}
	if 100*waste > c.area {
		list = append(list, orderedMethod(orderTimid))
	}
	return list
}

// answer restates what a search found in the caller's lengths and order.
func (c *plainCore) answer(f plainFound) plainAnswer {
	a := plainAnswer{Verdict: f.verdict, Nodes: f.nodes}
	switch f.verdict {
	case Impossible:
		r := &Reason{Rule: "search", Nodes: f.nodes}
		for i := range c.rects {
			r.Items = append(r.Items, i)
		}
		a.Reason = r
	case Fits:
		a.At = make([]plainPos, c.rects)
		for k, kd := range c.kinds {
			for j, it := range kd.items {
				at := f.pos[k][j]
				a.At[it.index] = plainPos{at.X * c.unitX, at.Y * c.unitY, at.Turned != it.flip}
			}
		}
	}
	return a
}

// reason restates a bound's reason, whose items are kinds, in the caller's
// lengths and order.
func (c *plainCore) reason(r *Reason) *Reason {
	out := *r
	out.Items = nil
	in := make([]bool, c.rects)
	for _, k := range r.Items {
		for _, it := range c.kinds[k].items {
			in[it.index] = true
		}
	}
	for i, yes := range in {
		if yes {
			out.Items = append(out.Items, i)
		}
	}
	switch r.Rule {
	case "area":
		out.Need, out.Have = r.Need*c.unitX*c.unitY, r.Have*c.unitX*c.unitY
	case "load-x":
		out.Need, out.Have = r.Need*c.unitX, r.Have*c.unitX
	case "load-y", "pair":
		out.Need, out.Have = r.Need*c.unitY, r.Have*c.unitY
	}
	return &out
}

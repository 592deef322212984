package pack

// Bounds: proofs that plain rectangles cannot be packed, without search.
//
// Pair. Two rectangles too wide together to stand side by side must stand one
// above the other. If they are too high for that as well, they cannot both be
// in. (Rectangles that no two of which fit side by side make a stack; its
// height is bounded by load-y below.)
//
// Load. Take every rectangle wider than half the container: any two share a
// column of the middle, so their heights add up. More generally weigh widths
// by a function f that never turns a set of widths that fits side by side into
// one that does not; then the sum of f(w) * h over all rectangles is at most
// f(W) * H, because it holds for each row by itself.
//
// Dual feasible functions. Such an f, with integer values here, is one with
// f(w1) + ... + f(wk) <= f(W) whenever w1 + ... + wk <= W. Four families, with
// a parameter k each, are used (S. P. Fekete and J. Schepers, Math. Program.
// 91 (2001) 11-31 and Math. Oper. Res. 29 (2004) 353-368; J. Carlier,
// F. Clautiaux and A. Moukrim, Comput. Oper. Res. 34 (2007) 2223-2250; in our
// own words, from memory):
//
//	lift   k <= W/2: up from W-k counts as all of W, below k as nothing,
//	       in between as itself. What is below k may share a row with
//	       something that was lifted, and is left out of account.
//	steps  k+1 units: w counts as the number of whole (k+1)-ths of W in it,
//	       except that exact multiples stay as they are.
//	halves k <= W/2: up to half counts as the k-pieces in w, above half as
//	       those of W less those of W-w; twice all for evenness.
//	round  k: w counts as the whole k-pieces in it, W as those in W.
//
// Both axes are weighed, each with any function of any family (or as it is),
// and with each pair the weighed areas are compared.

// dff is a dual feasible function on lengths up to size, tabulated for the
// kinds: of[k] is the value for kind k's measure, turned[k] for its other
// one; whole is the value of the container.
type dff struct {
	of, turned []int64
	whole      int64
	plain      bool // the identity
}

// boundPlain proves without search that c cannot be packed, or returns nil.
// The reason's items are kinds and its figures in the core's units.
func boundPlain(c *plainCore) *Reason {
	if c.area > c.W*c.H {
		return areaReason(c)
	}
	if r := boundPairs(c); r != nil {
		return r
	}
	fx, fy := dffs(c, 0), dffs(c, 1)
	for i := range fx {
		for j := range fy {
			if r := weigh(c, &fx[i], &fy[j]); r != nil {
				return r
			}
		}
	}
	return nil
}

func areaReason(c *plainCore) *Reason {
	r := &Reason{Rule: "area", Need: c.area, Have: c.W * c.H}
	for k := range c.kinds {
		r.Items = append(r.Items, k)
	}
	return r
}

// boundPairs looks for two rectangles that can stand neither beside nor above
// each other, however turned.
func boundPairs(c *plainCore) *Reason {
	for i := range c.kinds {
		for j := 0; j <= i; j++ {
			if i == j && len(c.kinds[i].items) < 2 {
				continue
			}
			if !pairFits(c, &c.kinds[i], &c.kinds[j]) {
				a, b := &c.kinds[i], &c.kinds[j]
				r := &Reason{Rule: "pair", Items: []int{j, i}, Need: min(a.h, a.flat()) + min(b.h, b.flat()), Have: c.H}
				if i == j {
					r.Items = r.Items[:1]
				}
				return r
			}
		}
	}
	return nil
}

// flat is the kind's height when turned, if it may be.
func (k *plainKind) flat() int64 {
	if k.turn {
		return k.w
	}
	return k.h
}

func pairFits(c *plainCore, a, b *plainKind) bool {
	for _, p := range a.forms() {
		for _, q := range b.forms() {
			if p[0]+q[0] <= c.W || p[1]+q[1] <= c.H {
				return true
			}
		}
	}
	return false
}

// forms lists width and height in each turn.
func (k *plainKind) forms() [][2]int64 {
	if k.turn {
		return [][2]int64{{k.w, k.h}, {k.h, k.w}}
	}
	return [][2]int64{{k.w, k.h}}
}

// weigh compares the rectangles' weighed area with the container's.
func weigh(c *plainCore, fx, fy *dff) *Reason {
	have := fx.whole * fy.whole
	var need int64
	for k := range c.kinds {
		a := fx.of[k] * fy.of[k]
		if c.kinds[k].turn {
			a = min(a, fx.turned[k]*fy.turned[k])
		}
		n := int64(len(c.kinds[k].items))
		if a > 0 && n > (have-need)/a {
			return weighReason(c, fx, fy)
		}
		need += a * n
	}
	return nil
}

// weighReason names the broken bound: weights on one axis only make it a
// load, in lengths; otherwise the figures are weighed areas.
func weighReason(c *plainCore, fx, fy *dff) *Reason {
	r := &Reason{Rule: "dual-feasible", Have: fx.whole * fy.whole}
	for k := range c.kinds {
		a := fx.of[k] * fy.of[k]
		if c.kinds[k].turn {
			a = min(a, fx.turned[k]*fy.turned[k])
		}
		if a > 0 {
			r.Need += a * min(int64(len(c.kinds[k].items)), r.Have/a+1)
			r.Items = append(r.Items, k)
		}
		if r.Need > r.Have {
			break // these alone are too much
		}
	}
	switch {
	case fy.plain && !fx.plain:
		r.Rule, r.Need, r.Have = "load-y", ceilDiv(r.Need, fx.whole), c.H
	case fx.plain && !fy.plain:
		r.Rule, r.Need, r.Have = "load-x", ceilDiv(r.Need, fy.whole), c.W
	}
	return r
}

func ceilDiv(a, b int64) int64 { return (a + b - 1) / b }

// dffs tabulates the identity and all functions worth trying on an axis.
func dffs(c *plainCore, axis int) []dff {
	size := c.side(axis)
	out := []dff{tabulate(c, axis, size, func(v int64) int64 { return v })}
	out[0].plain = true
	if size > maxWeighed {
		return out
	}
	for _, k := range parameters(c, axis) {
		if 2*k <= size {
			out = append(out, tabulate(c, axis, size, lift(size, k)), tabulate(c, axis, 2*(size/k), halves(size, k)))
		}
		out = append(out, tabulate(c, axis, size/k, func(v int64) int64 { return v / k }))
	}
	for k := int64(1); k <= 12 && k < size; k++ {
		out = append(out, tabulate(c, axis, size*k, steps(size, k)))
	}
	return out
}

func tabulate(c *plainCore, axis int, whole int64, f func(int64) int64) dff {
	d := dff{whole: whole}
	for k := range c.kinds {
		d.of = append(d.of, f(c.kinds[k].measure(axis)))
		d.turned = append(d.turned, f(min(c.kinds[k].measure(1-axis), c.side(axis))))
	}
	return d
}

// parameters lists the lengths at which the functions of an axis change.
func parameters(c *plainCore, axis int) []int64 {
	size := c.side(axis)
	seen := map[int64]bool{}
	var out []int64
	most := maxParameters
	if len(c.kinds) > manyKinds {
		most /= 5
	}
	add := func(v int64) {
		if v > 0 && v <= size && !seen[v] && len(out) < most {
			seen[v] = true
			out = append(out, v)
		}
	}
	for k := range c.kinds {
		for _, f := range c.kinds[k].forms() {
			add(f[axis])
			add(size - f[axis] + 1)
			add(f[axis] + 1)
		}
	}
	return out
}

const (
	maxParameters = 60
	manyKinds     = 250            // beyond, fewer functions are tried
	maxWeighed    = int64(1) << 26 // weighed areas stay inside an int64
)

// lift counts lengths over size-k as all, those under k as nothing.
func lift(size, k int64) func(int64) int64 {
	return func(v int64) int64 {
		switch {
		case v > size-k:
			return size
		case v < k:
			return 0
		}
		return v
	}
}

// halves counts k-pieces, above half from the other side.
func halves(size, k int64) func(int64) int64 {
	all := size / k
	return func(v int64) int64 {
		switch {
		case 2*v > size:
			return 2 * (all - (size-v)/k)
		case 2*v == size:
			return all
		}
		return 2 * (v / k)
	}
}

// steps counts whole (k+1)-ths of size, exact multiples as themselves, in
// units of 1/k of a length.
func steps(size, k int64) func(int64) int64 {
	return func(v int64) int64 {
		if v*(k+1)%size == 0 {
			return v * k
		}
		return v * (k + 1) / size * size
	}
}

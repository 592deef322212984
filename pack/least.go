package pack

import (
	"context"
	"errors"
	"fmt"
	"math"
)

// Rect is a rectangle to place; with Turn it may also stand on its side.
type Rect struct {
	W, H int64
	Turn bool
}

// RectPlace is where a rectangle stands: its lower left corner, and whether
// its width and height are exchanged.
type RectPlace struct {
	X, Y   int64
	Turned bool
}

// Container is the smallest container that a search has found.
type Container struct {
	W, H   int64       // its sides, in the lengths of the rectangles
	Places []RectPlace // one a rectangle
	Lower  int64       // no side (or height) under this can do, proved
	Proved bool        // none smaller can do, proved
	Nodes  int64       // search nodes, all searches together
}

// ErrNothingFound says that the time or the steps were up before any
// container was found, or that none can exist at all.
var ErrNothingFound = errors.New("pack: no container found")

// LeastSquare looks for the smallest square that holds all rects. It searches
// from below, each side until it is refuted or found, and beside that from
// above. It ends with a proof, or with ctx, or after opt.Steps steps of each
// of the two; then the best so far is returned, not proved.
func LeastSquare(ctx context.Context, rects []Rect, opt Options) (Container, error) {
	f := &family{rects: rects, square: true}
	if err := f.ready(); err != nil {
		return Container{}, err
	}
	var longest int64
	for _, r := range rects {
		longest = max(longest, r.W, r.H)
	}
	f.low = max(longest, ceilSqrt(f.area))
	f.high = min(maxPlain, longest*ceilSqrt(int64(len(rects))))
	f.sizes(true)
	return f.least(ctx, opt)
}

// LeastHeight looks for the least height of a strip of the given width that
// holds all rects, as LeastSquare does for squares.
func LeastHeight(ctx context.Context, width int64, rects []Rect, opt Options) (Container, error) {
	if width < 1 || width > maxPlain {
		return Container{}, fmt.Errorf("pack: strip of width %d: want 1 to %d", width, maxPlain)
	}
	f := &family{rects: rects, width: width}
	if err := f.ready(); err != nil {
		return Container{}, err
	}
	f.low = ceilDiv(f.area, width)
	for i, r := range rects {
		least := int64(math.MaxInt64)
		if r.W <= width {
			least = r.H
		}
		if r.Turn && r.H <= width {
			least = min(least, r.W)
		}
		if least == math.MaxInt64 {
			return Container{}, fmt.Errorf("%w: rectangle %d, %d x %d, is wider than the strip of %d", ErrNothingFound, i, r.W, r.H, width)
		}
		f.low = max(f.low, least)
		f.high += least
	}
	f.high = min(f.high, maxPlain)
	f.sizes(false)
	return f.least(ctx, opt)
}

// family is a row of containers of growing size in which the smallest is
// sought that holds all rects.
type family struct {
	rects     []Rect
	square    bool
	width     int64 // of the strip, if not square
	area      int64
	low, high int64 // under low nothing fits, at high everything does
	unit      int64 // divides every length
	sums      sums  // sizes worth asking about, in units
}

func (f *family) ready() error {
	if len(f.rects) == 0 {
		return fmt.Errorf("pack: no rectangles")
	}
	for i, r := range f.rects {
		if r.W < 1 || r.H < 1 || r.W > maxPlain || r.H > maxPlain {
			return fmt.Errorf("pack: rectangle %d, %d x %d: want sides of 1 to %d", i, r.W, r.H, maxPlain)
		}
		if f.area += r.W * r.H; f.area > 1<<61 {
			return fmt.Errorf("pack: rectangles of more than %d in area together", int64(1)<<61)
		}
	}
	return nil
}

// sizes lists the sizes worth asking about: a container is as good as the
// next smaller one whose side is a sum of sides. With both set the widths
// count as well as the heights.
func (f *family) sizes(both bool) {
	for _, r := range f.rects {
		f.unit = gcd(f.unit, r.H)
		if both || r.Turn {
			f.unit = gcd(f.unit, r.W)
		}
	}
	size := f.high / f.unit
	f.sums = newSums(size)
	f.sums.set(0)
	across := newSums(size)
	across.set(0)
	for _, r := range f.rects {
		h, w := min(r.H/f.unit, size), min(r.W/f.unit, size)
		f.sums.shiftOr(h, r.Turn, w)
		if both {
			across.shiftOr(w, r.Turn, h)
		}
	}
	f.sums.union(&across)
}

// next returns the least size worth asking about that is at least s.
func (f *family) next(s int64) int64 {
	if n := f.sums.next(ceilDiv(s, f.unit)); n >= 0 {
		return min(n*f.unit, f.high)
	}
	return f.high
}

// previous returns the greatest size worth asking about that is less than s.
func (f *family) previous(s int64) int64 {
	return f.sums.below((s-1)/f.unit) * f.unit
}

func ceilSqrt(v int64) int64 {
	s := int64(math.Sqrt(float64(v)))
	for s*s >= v && s > 0 {
		s--
	}
	for s*s < v {
		s++
	}
	return s
}

// sides are those of the container of size s.
func (f *family) sides(s int64) (w, h int64) {
	if f.square {
		return s, s
	}
	return f.width, s
}

// problem is the family's container of size s.
func (f *family) problem(s int64) plainProblem {
	var pp plainProblem
	pp.W, pp.H = f.sides(s)
	for _, r := range f.rects {
		pp.Rects = append(pp.Rects, plainRect(r))
	}
	return pp
}

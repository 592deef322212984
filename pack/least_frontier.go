package pack

import (
	"context"
	"errors"
	"sort"
)

// RectAnswer is what FitRects found.
type RectAnswer struct {
	Verdict Verdict
	Places  []RectPlace // one a rectangle when Verdict is Fits
	Reason  *Reason     // set when Verdict is Impossible
	Nodes   int64
}

// FitRects decides whether rects fit into a container of w x h. It is Solve
// for plain rectangles.
func FitRects(ctx context.Context, w, h int64, rects []Rect, opt Options) (RectAnswer, error) {
	f := &family{rects: rects}
	if err := f.ready(); err != nil {
		return RectAnswer{}, err
	}
	if w < 1 || h < 1 || w > maxPlain || h > maxPlain {
		return RectAnswer{}, errors.New("pack: container's sides out of range")
	}
	pp := plainProblem{W: w, H: h}
	for _, r := range rects {
		pp.Rects = append(pp.Rects, plainRect(r))
	}
	a := solvePlain(ctx, pp, opt)
	out := RectAnswer{Verdict: a.Verdict, Reason: a.Reason, Nodes: a.Nodes}
	for _, p := range a.At {
		out.Places = append(out.Places, RectPlace(p))
	}
	return out, nil
}

// Frontier trades width against height: it returns containers, the narrowest
// first, of which none is as narrow and as low as another. Between minW and
// maxW every width worth asking about is looked at while ctx and opt.Steps
// (for each width) last, those first that halve the widest gap; a container
// is Proved when none lower of its width can do. The list is complete when
// the second result is true: then no other container with a width in the
// range is better than all of these.
func Frontier(ctx context.Context, rects []Rect, minW, maxW int64, opt Options) ([]Container, bool, error) {
	widths, err := frontierWidths(rects, minW, maxW)
	if err != nil {
		return nil, false, err
	}
	fr := &frontier{ctx: ctx, rects: rects, opt: opt, widths: widths, at: map[int]Container{}}
	fr.complete = true
	last := len(widths) - 1
	if err := fr.ask(0, last); err != nil {
		return nil, false, err
	}
	fr.between(0, last)
	return fr.list(), fr.complete && ctx.Err() == nil, nil
}

// frontierWidths lists the widths from minW to maxW that are sums of sides,
// and minW itself.
func frontierWidths(rects []Rect, minW, maxW int64) ([]int64, error) {
	f := &family{rects: rects, width: maxW}
	if err := f.ready(); err != nil {
		return nil, err
	}
	if minW < 1 || maxW < minW || maxW > maxPlain {
		return nil, errors.New("pack: frontier: want 1 <= least width <= greatest width")
	}
	across := &family{high: maxW}
	for _, r := range rects {
		across.rects = append(across.rects, Rect{W: r.H, H: r.W, Turn: r.Turn})
	}
	across.sizes(false)
	widths := []int64{minW}
	for w := across.next(minW + 1); w <= maxW; w = across.next(w + 1) {
		if w > widths[len(widths)-1] {
			widths = append(widths, w)
		}
		if w == maxW || len(widths) > maxFrontier {
			break
		}
	}
	return widths, nil
}

const maxFrontier = 1 << 16

type frontier struct {
	ctx      context.Context
	rects    []Rect
	opt      Options
	widths   []int64
	at       map[int]Container // by index in widths
	complete bool
}

// ask finds the least heights at the given indexes of widths.
func (fr *frontier) ask(indexes ...int) error {
	for _, i := range indexes {
		if _, done := fr.at[i]; done {
			continue
		}
		c, err := LeastHeight(fr.ctx, fr.widths[i], fr.rects, fr.opt)
		if err != nil && !errors.Is(err, ErrNothingFound) {
			return err
		}
		if err == nil {
			fr.at[i] = c
		}
		fr.complete = fr.complete && (err != nil && c.Lower == 0 || c.Proved)
	}
	return nil
}

// between looks at the widths strictly between two that were asked about,
// unless their heights are proved the same: then all between are no better.
func (fr *frontier) between(lo, hi int) {
	queue := [][2]int{{lo, hi}}
	for len(queue) > 0 {
		lo, hi := queue[0][0], queue[0][1]
		queue = queue[1:]
		if hi-lo < 2 {
			continue
		}
		a, aok := fr.at[lo]
		b, bok := fr.at[hi]
		if aok && bok && a.H <= b.Lower {
			continue
		}
		if fr.ctx.Err() != nil {
			fr.complete = false
			return
		}
		mid := (lo + hi) / 2
		if fr.ask(mid) != nil {
			fr.complete = false
			return
		}
		queue = append(queue, [2]int{lo, mid}, [2]int{mid, hi})
	}
}

// list returns what was found, without containers that another one beats.
func (fr *frontier) list() []Container {
	var all []Container
	for _, c := range fr.at {
		all = append(all, c)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].W < all[j].W })
	var out []Container
	for _, c := range all {
		if len(out) == 0 || c.H < out[len(out)-1].H {
			out = append(out, c)
		}
	}
	return out
}

package mount

import (
	"context"
	"slices"

	"footplank/layout"
	"footplank/layout/cut"
)

// Need is what is cut of one side of one kind of fastener in one width. A roll
// of hook-and-loop is sold as both sides, so one that the player has counts for
// hook and for loop.
type Need struct {
	Kind  Kind
	Side  Side
	Width layout.Length // of the roll
	// OnBoard and OnUnits are the lengths of the pieces; BoardLength and
	// UnitLength are those together.
	OnBoard, OnUnits        []layout.Length
	BoardLength, UnitLength layout.Length
	Rolls                   []CutRoll // those that the player has first
	Buy                     int       // new rolls, of RollLength
	// Proved is set when no list takes fewer new rolls for what is left over
	// by the rolls that the player has.
	Proved bool
}

// Length is all that is cut.
func (n *Need) Length() layout.Length { return n.BoardLength + n.UnitLength }

// CutRoll is a roll with the lengths that are cut from it, longest first.
type CutRoll struct {
	Length layout.Length
	Owned  bool // by the player
	Cuts   []layout.Length
	Left   layout.Length
}

// Needs returns what is cut of each side, kind and width: interlocking first,
// hook before loop, then by width. What the player has is cut first: from each
// roll, the shortest first, the pieces that leave least of it; the rest comes
// from as few new rolls as layout/cut finds. A piece longer than a new roll comes
// from the shortest roll that has room for it wholly, before all others, and is
// put together from several pieces only where there is none.
func (r *Result) Needs(ctx context.Context, p *layout.Plan) []Need {
	var out []Need
	for _, kind := range Kinds {
		sides := []Side{InterlockSide}
		if kind == HookAndLoop {
			sides = []Side{HookSide, LoopSide}
		}
		for _, side := range sides {
			from := len(out)
			for _, w := range r.widths(kind) {
				if n, ok := r.need(ctx, p, kind, side, w); ok {
					out = append(out, n)
				}
			}
			slices.SortFunc(out[from:], func(a, b Need) int { return int(min(max(a.Width-b.Width, -1), 1)) })
		}
	}
	return out
}

// widths returns the widths of roll that pieces of a kind are cut from.
func (r *Result) widths(k Kind) []layout.Length {
	var out []layout.Length
	for i := range r.Board {
		if r.Board[i].Kind == k && !slices.Contains(out, r.Board[i].Width) {
			out = append(out, r.Board[i].Width)
		}
	}
	return out
}

func (r *Result) need(ctx context.Context, p *layout.Plan, kind Kind, side Side, w layout.Length) (Need, bool) {
	n := Need{Kind: kind, Side: side, Width: w}
	var pieces []layout.Length
	for i := range r.Board {
		if b := &r.Board[i]; b.Kind == kind && b.Side == side && b.Width == w {
			n.OnBoard = append(n.OnBoard, b.Cut)
			n.BoardLength += b.Cut
			pieces = append(pieces, b.Cut)
		}
	}
	for i := range r.Bases {
		if b := &r.Bases[i]; b.Kind == kind && b.Side == side && b.Width == w {
			n.OnUnits = append(n.OnUnits, b.Cut)
			n.UnitLength += b.Cut
			pieces = append(pieces, b.Cut)
		}
	}
	if len(pieces) == 0 {
		return n, false
	}
	var have []layout.Length
	for _, o := range p.Owned.Rolls {
		if o.Kind == string(kind) && o.Width == w {
			have = append(have, o.Length)
		}
	}
	n.cut(ctx, pieces, have)
	return n, true
}

// cut shares the pieces out among the rolls.
func (n *Need) cut(ctx context.Context, pieces, have []layout.Length) {
	slices.Sort(have)
	for _, length := range have {
		n.Rolls = append(n.Rolls, CutRoll{Length: length, Owned: true, Left: length})
	}
	left := inRolls(n.wholly(pieces), RollLength)
	for i := range n.Rolls {
		roll := &n.Rolls[i]
		for _, c := range fullest(left, roll.Left) {
			roll.take(c)
			k := slices.Index(left, c)
			left = slices.Delete(left, k, k+1)
		}
	}
	n.Proved = true
	if len(left) == 0 {
		return
	}
	list := make([]cut.Piece, 0, len(left))
	for _, l := range left {
		list = append(list, cut.Piece{Length: l, Count: 1})
	}
	r, err := cut.Cut(ctx, RollLength, list)
	if err != nil { // more pieces than it takes: one after the other
		r = oneByOne(left)
	}
	n.Proved = r.Proved
	n.Buy = len(r.Bars)
	for _, b := range r.Bars {
		n.Rolls = append(n.Rolls, CutRoll{Length: RollLength, Cuts: b.Cuts, Left: b.Waste})
	}
}

func (r *CutRoll) take(l layout.Length) {
	r.Cuts = append(r.Cuts, l)
	r.Left -= l
}

// wholly cuts the pieces that are longer than a new roll, the longest first,
// each from the roll with room for it that has least left, and returns the
// pieces that remain.
func (n *Need) wholly(pieces []layout.Length) []layout.Length {
	pieces = slices.Clone(pieces)
	slices.Sort(pieces)
	slices.Reverse(pieces)
	return slices.DeleteFunc(pieces, func(l layout.Length) bool {
		if l <= RollLength {
			return false
		}
		var best *CutRoll
		for i := range n.Rolls {
			if r := &n.Rolls[i]; r.Left >= l && (best == nil || r.Left < best.Left) {
				best = r
			}
		}
		if best != nil {
			best.take(l)
		}
		return best != nil
	})
}

// inRolls splits what is longer than a roll, and puts the longest first.
func inRolls(pieces []layout.Length, roll layout.Length) []layout.Length {
	var out []layout.Length
	for _, l := range pieces {
		for ; l > roll; l -= roll {
			out = append(out, roll)
		}
		if l > 0 {
			out = append(out, l)
		}
	}
	slices.Sort(out)
	slices.Reverse(out)
	return out
}

// fullest returns the pieces, longest first as given, that leave least of the
// roll: of all sums that can be made, the largest.
func fullest(pieces []layout.Length, roll layout.Length) []layout.Length {
	// Whole millimetres rounded up keep the table small.
	room := int(roll / layout.Millimetre)
	const most = 20_000
	if room > most {
		room = most
	}
	taken := make([][]bool, len(pieces)+1)
	taken[0] = make([]bool, room+1)
	taken[0][0] = true
	for i, l := range pieces {
		w := wholeMM(l)
		taken[i+1] = slices.Clone(taken[i])
		for c := w; c <= room; c++ {
			taken[i+1][c] = taken[i+1][c] || taken[i][c-w]
		}
	}
	c := room
	for !taken[len(pieces)][c] {
		c--
	}
	var out []layout.Length
	for i := len(pieces); i > 0; i-- {
		if taken[i-1][c] {
			continue
		}
		out = append(out, pieces[i-1])
		c -= wholeMM(pieces[i-1])
	}
	slices.Sort(out)
	slices.Reverse(out)
	return out
}

func wholeMM(l layout.Length) int {
	return int((l + layout.Millimetre - 1) / layout.Millimetre)
}

// oneByOne fills one roll after the other.
func oneByOne(pieces []layout.Length) cut.Result {
	var r cut.Result
	for _, l := range pieces {
		if k := len(r.Bars) - 1; k >= 0 && r.Bars[k].Waste >= l {
			r.Bars[k].Cuts = append(r.Bars[k].Cuts, l)
			r.Bars[k].Waste -= l
			continue
		}
		r.Bars = append(r.Bars, cut.Bar{Cuts: []layout.Length{l}, Waste: RollLength - l})
	}
	return r
}

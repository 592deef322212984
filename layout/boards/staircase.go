package boards

import (
	"context"
	"fmt"

	"footplank/layout"
	"footplank/pack"
)

// Staircase finds the boards of the plan's own make that fit while none does
// that is smaller both ways, in steps of that length, up to a size: each way zero
// for half as much again as the plan's board, or, where the case counts, as much
// as it holds. The plan's own board is tried as well, to compare them with. See
// the package's comment for the walk, and Compare for the rest.
func Staircase(ctx context.Context, p *layout.Plan, step layout.Length, up layout.Size, opt Options) (*Result, error) {
	if least := 5 * layout.Millimetre; step < least {
		return nil, fmt.Errorf("steps of %s: want at least %s", step.Format(unit(p.LengthUnit)), least.Format(unit(p.LengthUnit)))
	}
	t, err := newTrial(p, opt)
	if err != nil {
		return nil, err
	}
	up = t.reach(up)
	first, last := t.least(step)/step, layout.Size{W: up.W / step, D: up.D / step}
	if min(last.W, last.D) < first {
		u := unit(p.LengthUnit)
		return nil, fmt.Errorf("boards up to %s x %s: the largest unit needs sides of %s at least", up.W.Format(u), up.D.Format(u), t.least(step).Format(u))
	}
	if max(last.W, last.D) > 1000 {
		return nil, fmt.Errorf("steps of %s: that is more than a thousand boards each way", step.Format(unit(p.LengthUnit)))
	}
	ctx, cancel := opt.within(ctx)
	defer cancel()
	r := t.result()
	r.Step = step
	r.Sure = t.onlyWood()
	s := &stairs{t: t, ctx: ctx, r: r, step: step}
	s.try(Own(t.p))
	s.walk(first, last)
	r.sort()
	r.Stopped = ctx.Err() != nil
	r.mark()
	return r, nil
}

// reach is how large the boards get.
func (t *trial) reach(up layout.Size) layout.Size {
	b := &t.p.Board
	w, d := b.W*3/2, b.D*3/2
	if b.Case != nil {
		w, d = b.Case.Inside.W, b.Case.Inside.D
	}
	if up.W <= 0 {
		up.W = w
	}
	if up.D <= 0 {
		up.D = d
	}
	return up
}

// least is a side that no board can do with less of, rounded up to a step: half
// the narrowest side of the largest unit must bear.
func (t *trial) least(step layout.Length) layout.Length {
	side := 50 * layout.Millimetre
	for i := range t.p.Units {
		u := &t.p.Units[i]
		side = max(side, min(u.Body.W, u.Body.D)/2)
	}
	return (side + step - 1) / step * step
}

// onlyWood reports whether a larger board only adds wood to a smaller one, so
// that what fits on the smaller fits on the larger.
func (t *trial) onlyWood() bool {
	b := &t.p.Board
	if len(b.Risers) > 0 || len(b.Fixtures) > 0 || b.Case != nil || b.Kind == layout.Rails {
		return false
	}
	for i := range t.p.Units {
		u := &t.p.Units[i]
		if u.Pinned && t.opt.Mounting != FreeAll || t.opt.Mounting == KeepFixed && u.Mount == layout.Fixed && u.Place != nil {
			return false
		}
		// A plug that hangs below the deck fits past an edge only.
		for k := range u.Jacks {
			j := &u.Jacks[k]
			if j.Height < j.Plug.Width/2 || j.Plug.Leg > 0 && j.Leg == layout.LegDown && j.Height < j.Plug.Leg {
				return false
			}
		}
	}
	return true
}

// stairs is a walk along the staircase, in steps.
type stairs struct {
	t    *trial
	ctx  context.Context
	r    *Result
	step layout.Length
}

// walk goes down in width and up in depth; the last that fits at a depth is a
// corner, unless the time is up there.
func (s *stairs) walk(first layout.Length, last layout.Size) {
	var corner *Board
	depth := s.lowest(first, last)
	for w := last.W; w >= first && depth <= last.D && s.ctx.Err() == nil; {
		b := s.at(w, depth)
		if b.fits() {
			corner = b
			w--
			continue
		}
		s.r.Sure = s.r.Sure && (b.Verdict == pack.Impossible && b.AnySlots)
		if corner != nil {
			s.r.Corners = append(s.r.Corners, corner)
			corner = nil
		}
		depth++
	}
	if corner != nil && s.ctx.Err() == nil { // stopped here, narrower ones are open
		s.r.Corners = append(s.r.Corners, corner)
	}
}

// lowest finds the least depth at which the widest board fits, by halving.
func (s *stairs) lowest(first layout.Length, last layout.Size) layout.Length {
	lo, hi := first, last.D+1
	for lo < hi && s.ctx.Err() == nil {
		mid := (lo + hi) / 2
		if b := s.at(last.W, mid); b.fits() {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return hi
}

// at tries a board so many steps wide and deep, once.
func (s *stairs) at(w, d layout.Length) *Board {
	c := Candidate{W: w * s.step, D: d * s.step}
	for _, b := range s.r.Boards {
		if b.W == c.W && b.D == c.D {
			return b
		}
	}
	return s.try(c)
}

func (s *stairs) try(c Candidate) *Board {
	b := &Board{Candidate: c}
	s.t.try(s.ctx, b)
	s.r.Boards = append(s.r.Boards, b)
	if s.t.opt.Progress != nil {
		s.t.opt.Progress(len(s.r.Boards), 0, b)
	}
	return b
}

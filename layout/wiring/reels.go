package wiring

import (
	"context"
	"slices"

	"footplank/layout"
	"footplank/layout/cut"
)

// Reel is one reel and which cables of the kit are cut from it.
type Reel struct {
	Length layout.Length
	Owned  bool     // the player has it already
	Kit    []string // IDs
	Left   layout.Length
}

// cutList cuts what must be made of the kit: first from what the player has on a
// reel, as much as it gives, then from new reels.
func (r *Result) cutList(owned layout.Length) {
	var made []*KitCable
	for i := range r.Kit {
		if !r.Kit[i].Owned {
			made = append(made, &r.Kit[i])
		}
	}
	first := fill(made, owned)
	if len(first) > 0 {
		reel := Reel{Length: owned, Owned: true, Left: owned}
		for _, k := range first {
			reel.Kit = append(reel.Kit, k.ID)
			reel.Left -= k.Cut
		}
		slices.Sort(reel.Kit)
		r.List = append(r.List, reel)
	}
	var pieces []cut.Piece
	var sum layout.Length
	waiting := map[layout.Length][]string{}
	for _, k := range made {
		if k.Cut > r.Reel || slices.Contains(first, k) {
			continue
		}
		sum += k.Cut
		pieces = append(pieces, cut.Piece{Length: k.Cut, Count: 1})
		waiting[k.Cut] = append(waiting[k.Cut], k.ID)
	}
	list, err := cut.Within(context.Background(), r.Reel, pieces, cutSteps)
	if err != nil {
		return // a plan made by hand with a reel of no length, or no end of cables
	}
	// With a reel of the player's own the choice of what to cut from that one
	// counts too; no choice leaves less than this.
	r.Proved = list.Proved && (len(first) == 0 || len(list.Bars) <= int((sum+r.Reel-1)/r.Reel))
	for _, b := range list.Bars {
		reel := Reel{Length: r.Reel, Left: b.Waste}
		for _, c := range b.Cuts {
			reel.Kit = append(reel.Kit, waiting[c][0])
			waiting[c] = waiting[c][1:]
		}
		slices.Sort(reel.Kit)
		r.List = append(r.List, reel)
	}
}

// fill returns the cables that take the most of a reel, by the sums that can be
// made of their lengths.
func fill(cables []*KitCable, reel layout.Length) []*KitCable {
	step := reel
	var fit []*KitCable
	var sum layout.Length
	for _, k := range cables {
		if k.Cut > 0 && k.Cut <= reel {
			fit, sum = append(fit, k), sum+k.Cut
			for a, b := step, k.Cut; ; a, b = b, a%b {
				if b == 0 {
					step = a
					break
				}
			}
		}
	}
	if sum <= reel {
		return fit
	}
	step = max(step, reel/maxSums)   // a reel of no round length
	last := make([]int, reel/step+1) // the cable that makes a sum, counted from 1
	for i, k := range fit {
		n := int((k.Cut + step - 1) / step)
		for s := len(last) - 1; s >= n; s-- {
			if last[s] == 0 && (s == n || last[s-n] != 0 && last[s-n] <= i) {
				last[s] = i + 1
			}
		}
	}
	at := len(last) - 1
	for at > 0 && last[at] == 0 {
		at--
	}
	var out []*KitCable
	for at > 0 {
		k := fit[last[at]-1]
		out = append(out, k)
		at -= int((k.Cut + step - 1) / step)
	}
	return out
}

// maxSums bounds the memory for sums of lengths.
const maxSums = 200_000

// cutSteps bounds the search for a cutting list to a part of a second.
const cutSteps = 4_000_000

// tooLong reports whether no reel gives what the cable takes, and the player has
// none that would do.
func (r *Result) tooLong(c *Cable) bool {
	if c.Cut <= r.Reel {
		return false
	}
	own := slices.ContainsFunc(r.Kit, func(k KitCable) bool { return k.ID == c.Kit && k.Owned })
	cutFrom := slices.ContainsFunc(r.List, func(l Reel) bool { return slices.Contains(l.Kit, c.Kit) })
	return !own && !cutFrom
}

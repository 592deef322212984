package power

import (
	"math"
	"math/bits"
	"slices"
)

// broken looks for a rule over several demands that a map breaks, and returns
// the demands that break it together: taking one of them away, or elsewhere, is
// the only mend. nil means that the map holds.
func (pr *problem) broken(at []int) []int {
	settings, bad := pr.positions(at)
	if bad != nil {
		return bad
	}
	for l := range pr.rows {
		if bad := pr.grounds(at, l); bad != nil {
			return bad
		}
		if bad := pr.watts(at, settings, l); bad != nil {
			return bad
		}
	}
	return nil
}

// positions chooses for each outlet the lowest setting that suits all that it
// feeds in any line-up, for a switch is set once. Without one it returns the
// demands on the outlet.
func (pr *problem) positions(at []int) (settings []int, bad []int) {
	masks := make([]uint64, len(pr.outlets))
	for o := range masks {
		masks[o] = 1<<len(pr.outlets[o].settings) - 1
	}
	for i, o := range at {
		if o == nowhere {
			continue
		}
		if masks[o] &= pr.demands[i].fit[o]; masks[o] == 0 {
			return nil, pr.on(at, -1, o)
		}
	}
	if pr.share {
		for l, rows := range pr.rows {
			load := map[int]int64{}
			for _, i := range rows {
				if at[i] != nowhere {
					load[at[i]] += int64(pr.demands[i].unit.Draw.Milliamps)
				}
			}
			for o, w := range load {
				for k, st := range pr.outlets[o].settings {
					if !pr.within(w, int64(st.Milliamps)) {
						masks[o] &^= 1 << k
					}
				}
			}
			for _, i := range rows {
				if o := at[i]; o != nowhere && masks[o] == 0 {
					return nil, pr.tight(at, l, o)
				}
			}
		}
	}
	settings = make([]int, len(masks))
	for o, m := range masks {
		settings[o] = bits.TrailingZeros64(m)
	}
	return settings, nil
}

// tight returns the demands that leave an outlet no setting: those of the
// line-up if they alone are too much for every setting, else all on it.
func (pr *problem) tight(at []int, l, o int) []int {
	load, mask := int64(0), uint64(1)<<len(pr.outlets[o].settings)-1
	here := pr.on(at, l, o)
	for _, i := range here {
		load += int64(pr.demands[i].unit.Draw.Milliamps)
		mask &= pr.demands[i].fit[o]
	}
	for k, st := range pr.outlets[o].settings {
		if mask>>k&1 == 1 && pr.within(load, int64(st.Milliamps)) {
			return pr.on(at, -1, o)
		}
	}
	return here
}

// on returns the demands on an outlet, in a line-up or, for -1, in any.
func (pr *problem) on(at []int, l, o int) (out []int) {
	for i, where := range at {
		if where == o && (l < 0 || slices.Contains(pr.rows[l], i)) {
			out = append(out, i)
		}
	}
	return out
}

// grounds checks that a unit that must have a ground of its own has it, and
// that units on one outlet want the same polarity.
func (pr *problem) grounds(at []int, l int) []int {
	rows := pr.rows[l]
	for x, i := range rows {
		if at[i] == nowhere {
			continue
		}
		for _, j := range rows[:x] {
			if at[j] == nowhere {
				continue
			}
			a, b := at[i], at[j]
			sameZone := pr.outlets[a].zone == pr.outlets[b].zone
			if sameZone && (pr.demands[i].alone[a] || pr.demands[j].alone[b]) {
				return []int{j, i}
			}
		}
		for _, f := range pr.forced {
			if slices.Contains(f.lineups, l) && pr.outlets[f.outlet].zone == pr.outlets[at[i]].zone && pr.demands[i].alone[at[i]] {
				return []int{i}
			}
		}
	}
	return nil
}

// load returns the milliwatts that each supply gives in a line-up, what it
// gives to expanders included.
func (pr *problem) load(at, settings []int, l int) []int64 {
	out := make([]int64, len(pr.nodes))
	add := func(o, milliamps, millivolts int) {
		for n := pr.outlets[o].node; n >= 0; n = pr.nodes[n].parent {
			out[n] += int64(milliamps) * int64(millivolts) / 1000
		}
	}
	for _, i := range pr.rows[l] {
		if o := at[i]; o != nowhere {
			add(o, pr.demands[i].unit.Draw.Milliamps, pr.outlets[o].settings[settings[o]].Millivolts)
		}
	}
	for _, f := range pr.forced {
		if slices.Contains(f.lineups, l) {
			add(f.outlet, f.unit.Draw.Milliamps, pr.outlets[f.outlet].settings[0].Millivolts)
		}
	}
	return out
}

// bound returns the least of what a supply may give in all, its link gives it,
// and it may take there, in milliwatts; 0 for no bound.
func (n *node) bound() int64 {
	var least int64
	if n.unbounded {
		return 0
	}
	for _, w := range []int64{int64(n.unit.Milliwatts), n.linkWatts()} {
		if w > 0 && (least == 0 || w < least) {
			least = w
		}
	}
	return least
}

// linkWatts is what an expander's link and its own draw allow. Losses in the
// expander are covered by the headroom.
func (n *node) linkWatts() int64 {
	if n.parent < 0 {
		return 0
	}
	volts, amps := n.unit.Draw.Millivolts, n.unit.Draw.Milliamps
	if n.rated != nil {
		volts, amps = n.rated.Millivolts, min(amps, n.rated.Milliamps)
	}
	return int64(volts) * int64(amps) / 1000
}

// watts checks what each supply gives in all; too much is the doing of every
// unit below it.
func (pr *problem) watts(at, settings []int, l int) []int {
	for n, w := range pr.load(at, settings, l) {
		if top := pr.nodes[n].bound(); top > 0 && !pr.within(w, top) {
			var bad []int
			for _, i := range pr.rows[l] {
				if at[i] != nowhere && pr.below(pr.outlets[at[i]].node, n) {
					bad = append(bad, i)
				}
			}
			return bad
		}
	}
	return nil
}

// below reports whether a node is fed, in the end, by another, or is it.
func (pr *problem) below(n, by int) bool {
	for ; n >= 0; n = pr.nodes[n].parent {
		if n == by {
			return true
		}
	}
	return false
}

// tooMuch reports whether in some line-up the demands that can only be fed by
// one supply ask more watts of it than it gives, or all together more than all
// supplies give: then a branch holds no map, whatever is chosen in it.
func (s *search) tooMuch(b *branch) bool {
	if s.leave {
		return false
	}
	for _, rows := range s.rows {
		bound := make([]int64, len(s.nodes)+1)
		least := make([]int64, len(s.nodes)+1)
		whole := true
		for n := range s.nodes {
			bound[n] = s.nodes[n].bound()
			if s.nodes[n].parent < 0 {
				bound[len(s.nodes)] += bound[n]
				whole = whole && bound[n] > 0
			}
		}
		if !whole {
			bound[len(s.nodes)] = 0
		}
		for _, i := range rows {
			s.addLeast(b, i, least)
		}
		for n, top := range bound {
			if top > 0 && !s.within(least[n], top) {
				return true
			}
		}
	}
	return false
}

// addLeast adds the least that a demand takes to every supply that it cannot
// avoid, and to the sum of all.
func (s *search) addLeast(b *branch, i int, least []int64) {
	list := b.can[i].list()
	if len(list) == 0 {
		return
	}
	lowest, common := math.MaxInt, s.outlets[list[0]].node
	for _, o := range list {
		low := bits.TrailingZeros64(b.masks[o] & s.demands[i].fit[o])
		lowest = min(lowest, s.outlets[o].settings[low].Millivolts)
		for common >= 0 && !s.below(s.outlets[o].node, common) {
			common = s.nodes[common].parent
		}
	}
	w := int64(lowest) * int64(s.demands[i].unit.Draw.Milliamps) / 1000
	for n := common; n >= 0; n = s.nodes[n].parent {
		least[n] += w
	}
	least[len(s.nodes)] += w
}

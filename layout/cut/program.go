package cut

import (
	"math"
	"slices"
)

// Bounds of the linear program. Above the widest bar the knapsack's table would
// be too large, and the search alone must do.
const (
	widest    = 1 << 16
	maxPivots = 5000
	restSteps = 100_000 // for a search for the rest of a dive
	tiny      = 1e-9    // what counts as nothing beside 1
)

// program solves the linear program over all patterns for the bound, and dives
// from its answer for a list.
func (s *solver) program() {
	if s.room > widest || len(s.size) > 400 {
		return
	}
	x, ok := s.relax(s.count)
	if !ok {
		return
	}
	s.bound = max(s.bound, s.priced(x.dual))
	left := slices.Clone(s.count)
	var list []pattern
	for s.open() {
		list = append(list, s.take(x, left)...)
		if len(list) >= len(s.best) {
			return
		}
		if slices.Max(left) == 0 {
			s.keep(list)
			return
		}
		if rest, _ := s.into(s.bound-len(list), left, restSteps); rest != nil {
			s.keep(append(list, rest...))
			return
		}
		if x, ok = s.relax(left); !ok {
			return
		}
	}
}

// take cuts the whole part of each pattern's number, as far as pieces are left,
// and where that is nothing one of the pattern with the largest fraction.
func (s *solver) take(x *simplex, left []int) []pattern {
	var list []pattern
	cutOne := func(p pattern) bool {
		for i, k := range p {
			if left[i] < k {
				return false
			}
		}
		for i, k := range p {
			left[i] -= k
		}
		list = append(list, p)
		return true
	}
	largest := -1
	for b := range x.basis {
		for n := math.Floor(x.value[b] + tiny); n > 0 && cutOne(x.basis[b]); n-- {
		}
		if largest < 0 || x.value[b] > x.value[largest] {
			largest = b
		}
	}
	if len(list) == 0 && !cutOne(x.basis[largest]) {
		// A start pattern that asks for more than is left: cut what is.
		p := make(pattern, len(left))
		for i, k := range x.basis[largest] {
			p[i] = min(k, left[i])
		}
		cutOne(p)
	}
	return list
}

// simplex is a basis of the linear program
//
//	least sum of x(p) over all patterns p,  sum of p[i] x(p) = left[i],  x >= 0
//
// with the inverse of its matrix. Kinds of which none are left keep a row of
// their own with a zero value.
type simplex struct {
	basis   []pattern
	inverse [][]float64
	value   []float64 // of the patterns of the basis
	dual    []float64 // of the kinds
}

// relax solves the linear program for the pieces in left. The start is a
// pattern of each kind alone. It fails when the steps run out.
func (s *solver) relax(left []int) (*simplex, bool) {
	m := len(s.size)
	x := &simplex{basis: make([]pattern, m), inverse: make([][]float64, m), value: make([]float64, m), dual: make([]float64, m)}
	for i := range x.basis {
		k := max(1, min(left[i], int(s.room/s.size[i])))
		x.basis[i] = make(pattern, m)
		x.basis[i][i] = k
		x.inverse[i] = make([]float64, m)
		x.inverse[i][i] = 1 / float64(k)
		x.value[i] = float64(left[i]) / float64(k)
	}
	for range maxPivots {
		for j := range x.dual {
			x.dual[j] = 0
			for i := range x.inverse {
				x.dual[j] += x.inverse[i][j]
			}
		}
		p, worth, ok := s.knapsack(x.dual, left)
		if !ok {
			return nil, false
		}
		if worth <= 1+tiny {
			return x, true
		}
		if !s.spend(m*m) || !x.pivot(p) {
			return nil, false
		}
	}
	return nil, false
}

// pivot brings a pattern into the basis. It fails where the numbers have become
// too bad to go on.
func (x *simplex) pivot(p pattern) bool {
	m := len(p)
	col := make([]float64, m)
	out := -1
	for i := range col {
		for j, k := range p {
			if k != 0 {
				col[i] += x.inverse[i][j] * float64(k)
			}
		}
		if col[i] > tiny && (out < 0 || x.value[i]*col[out] < x.value[out]*col[i]) {
			out = i
		}
	}
	if out < 0 {
		return false
	}
	x.basis[out] = p
	for j := range x.inverse[out] {
		x.inverse[out][j] /= col[out]
	}
	x.value[out] /= col[out]
	for i := range col {
		if i == out || col[i] == 0 {
			continue
		}
		for j, v := range x.inverse[out] {
			x.inverse[i][j] -= col[i] * v
		}
		x.value[i] = max(0, x.value[i]-col[i]*x.value[out])
	}
	return true
}

// lot is a number of pieces of one kind that are taken together: lots of 1, 2,
// 4 ... and a rest make up any number.
type lot struct{ kind, n int }

func (s *solver) lots(left []int, worth func(kind int) bool) []lot {
	var out []lot
	for i, k := range left {
		if !worth(i) {
			continue
		}
		k = min(k, int(s.room/s.size[i]))
		for n := 1; k > 0; n *= 2 {
			n = min(n, k)
			out = append(out, lot{i, n})
			k -= n
		}
	}
	return out
}

// knapsack returns the pattern of the pieces in left that is worth most, and its
// worth. It fails when the steps run out.
func (s *solver) knapsack(dual []float64, left []int) (pattern, float64, bool) {
	lots := s.lots(left, func(i int) bool { return dual[i] > tiny })
	wide := int(s.room) + 1
	if !s.spend(len(lots) * wide / 16) {
		return nil, 0, false
	}
	best := make([]float64, wide)
	taken := make([]bool, len(lots)*wide)
	for t, l := range lots {
		w, v := int(s.size[l.kind])*l.n, dual[l.kind]*float64(l.n)
		row := taken[t*wide : (t+1)*wide]
		for c := wide - 1; c >= w; c-- {
			if n := best[c-w] + v; n > best[c] {
				best[c], row[c] = n, true
			}
		}
	}
	p := make(pattern, len(s.size))
	c := wide - 1
	for t := len(lots) - 1; t >= 0; t-- {
		if taken[t*wide+c] {
			p[lots[t].kind] += lots[t].n
			c -= int(s.size[lots[t].kind]) * lots[t].n
		}
	}
	return p, best[wide-1], true
}

// priced returns the bound that the duals give, in whole numbers: with a worth
// for each kind and no pattern worth more than most, n bars hold at most n times
// most.
func (s *solver) priced(dual []float64) int {
	const scale = 1 << 30
	worth := make([]int64, len(dual))
	var all int64
	for i, d := range dual {
		worth[i] = int64(min(max(d, 0), 1) * scale)
		all += worth[i] * int64(s.count[i])
	}
	lots := s.lots(s.count, func(i int) bool { return worth[i] > 0 })
	best := make([]int64, s.room+1)
	for _, l := range lots {
		w, v := s.size[l.kind]*int64(l.n), worth[l.kind]*int64(l.n)
		for c := s.room; c >= w; c-- {
			best[c] = max(best[c], best[c-w]+v)
		}
	}
	most := best[s.room]
	if most == 0 {
		return 0
	}
	return int(ceilDiv(all, most))
}

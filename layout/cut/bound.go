package cut

// manyKinds is where trying every kind as a threshold takes too long.
const manyKinds = 1000

// lowerBound returns the best of the bounds that need no search.
func (s *solver) lowerBound() int {
	in := s.instance
	best := max(in.halves(in.count), in.feasible(0, 0))
	if len(in.size) > manyKinds {
		return best
	}
	for _, eps := range append([]int64{0}, in.size...) {
		if 2*eps > in.room {
			continue
		}
		for k := int64(0); k <= 20; k++ {
			best = max(best, in.feasible(eps, k))
		}
	}
	return best
}

// feasible returns the bound by two dual feasible functions, one after the
// other: the first counts a piece longer than room - eps as a whole bar and one
// shorter than eps as nothing; the second, for k > 0, counts a piece by how many
// (k+1)ths of a bar it passes, of which no bar holds more than k, and leaves
// those that are just so many.
//
// Fekete and Schepers, "New classes of fast lower bounds for bin packing
// problems", 2001: U(eps) and u(k) (from memory).
func (in *instance) feasible(eps, k int64) int {
	var sum int64 // in units of 1/(room * max(k,1)) of a bar
	for i, x := range in.size {
		switch {
		case x > in.room-eps:
			x = in.room
		case x < eps:
			x = 0
		}
		v := x
		if k > 0 {
			if v = x * k; (k+1)*x%in.room != 0 {
				v = (k + 1) * x / in.room * in.room
			}
		}
		sum += v * int64(in.count[i])
	}
	return int(ceilDiv(sum, in.room*max(k, 1)))
}

// halves returns the best bound, over all eps, of the pieces in count: those
// longer than room - eps take a bar each, those over half too, and the rest down
// to eps must find room beside the latter (Martello and Toth, "Lower bounds and
// reduction procedures for the bin packing problem", 1990, L2; from memory). It
// takes one pass over the kinds.
func (in *instance) halves(count []int) int {
	// Kinds before big are over room - eps, those from there to half over a
	// half, those from half to the kind of eps are the rest.
	half := 0
	var halfCount int
	var halfSum int64
	for half < len(in.size) && 2*in.size[half] > in.room {
		halfCount += count[half]
		halfSum += in.size[half] * int64(count[half])
		half++
	}
	best := halfCount
	big := half
	bigCount, midCount, midSum := halfCount, 0, int64(0)
	var rest int64
	for i := half; i < len(in.size); i++ {
		if count[i] == 0 {
			continue
		}
		rest += in.size[i] * int64(count[i])
		for big > 0 && in.size[big-1] <= in.room-in.size[i] {
			big--
			bigCount -= count[big]
			midCount += count[big]
			midSum += in.size[big] * int64(count[big])
		}
		over := rest - (int64(midCount)*in.room - midSum)
		best = max(best, bigCount+midCount+int(max(0, ceilDiv(over, in.room))))
	}
	return best
}

// ceilDiv returns a/b rounded up, for b > 0.
func ceilDiv(a, b int64) int64 {
	q := a / b
	if a%b > 0 {
		q++
	}
	return q
}

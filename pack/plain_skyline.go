package pack

// skyline is the low-waste search: it keeps the upper outline of what stands
// and fills its lowest, leftmost niche.
//
//	      |        |          Every arrangement can be pushed left and down
//	 ____ |        |____      until nothing moves any more. So in the lowest
//	|    ||        |    |     niche (x, y, w), with a wall of height hl on the
//	|    ||hl    hr|    |     left and hr on the right, either
//	|    ||________|    |     (1) a rectangle stands in its left corner, or
//	|          w              (2) the leftmost rectangle on its floor stands
//	                          d from the corner; then it is higher than hl
//	(something on the left wall must hold it there) and d x hl is lost, or
//	(3) nothing stands on its floor and w x min(hl, hr) is lost.
//
// What is lost comes out of a budget, the container's area less that of all
// rectangles. With a small budget this alone decides quickly. Further, at
// each node:
//   - A column over the outline can be filled up only to a sum of heights that
//     the remaining rectangles have, a free stretch of a row only to a sum of
//     widths; the rest is lost in any case.
//   - Each remaining kind must have an empty rectangle that could hold it.
//   - An outline that failed before with the same rectangles left fails again
//     (what was lost follows from the two). A table of fixed size remembers
//     them by 128 bits, of which no two differing states will share all.
//   - Mirroring is taken out by keeping the centre of one rectangle in the
//     lower left quarter: pushing left and down keeps it there. Where
//     exchanging x and y changes nothing, it also keeps its x <= y.
type skyline struct {
	W, H              int64
	kinds             []skyKind
	forms             []skyForm
	left              []int // rectangles left, by kind
	byWidth, byHeight []int // kinds by least width, by least height
	n                 int   // rectangles left in all
	budget            int64 // area that may still be lost
	corner            int   // the kind whose first copy is kept in the lower left quarter, or -1
	mirror            bool  // exchanging x and y changes nothing: see diagonal
	second            int   // the kind that decides when corner's x = y, or -1
	duty              skyDuty
	partial           bool // something was left out, so that nothing is proved
	levels            []skyLevel
	placed            []skyPlaced
	pace              *pace
	nodes             int64
	memo              *memo
	key               memoKey // of the rectangles left
}

type skyKind struct {
	w, h int64
	turn bool
	zob  memoKey
}

// skyForm is a kind in one of its turns.
type skyForm struct {
	kind   int
	w, h   int64
	turned bool
}

type skySeg struct{ x, w, y int64 }

type skyPlaced struct {
	form int
	x, y int64
}

// skyLevel is the room that one node on the path works in.
type skyLevel struct {
	segs         []skySeg
	sumsW, sumsH sums
	places       sums
	from, ends   []int64
	cells        []narrow
}

// maxSkyline bounds the number of rectangles that the search takes on; with
// more it would need much memory and never end.
const maxSkyline = 500

// skylineMethod searches c upright; with across set, with x and y exchanged.
// order is the one in which rectangles are tried.
func skylineMethod(across bool, order skyOrder) plainMethod {
	return func(c *plainCore, p *pace) plainFound {
		if c.n > maxSkyline {
			return plainFound{}
		}
		s := newSkyline(c, p, across, order)
		verdict := s.search(0)
		if verdict == Impossible && s.partial {
			verdict = Undecided
		}
		f := plainFound{verdict: verdict, nodes: s.nodes}
		if verdict == Fits {
			f.pos = s.positions(across)
		}
		return f
	}
}

func newSkyline(c *plainCore, p *pace, across bool, order skyOrder) *skyline {
	s := &skyline{W: c.W, H: c.H, budget: c.W*c.H - c.area, pace: p, n: c.n, corner: -1, second: -1}
	if across {
		s.W, s.H = s.H, s.W
	}
	s.memo, s.mirror = newMemo(), c.symmetric()
	rng := splitmix(0x5eed)
	var largest int64
	for k, kd := range c.kinds {
		w, h := kd.w, kd.h
		if across {
			w, h = h, w
		}
		s.kinds = append(s.kinds, skyKind{w: w, h: h, turn: kd.turn, zob: rng.key()})
		s.left = append(s.left, len(kd.items))
		for range kd.items {
			s.key.add(s.kinds[k].zob)
		}
		s.forms = append(s.forms, skyForm{kind: k, w: w, h: h})
		if kd.turn {
			s.forms = append(s.forms, skyForm{kind: k, w: h, h: w, turned: true})
		}
		if len(kd.items) == 1 && w*h > largest {
			largest, s.corner, s.second = w*h, k, s.corner
		} else if len(kd.items) == 1 && (s.second < 0 || w*h > s.kinds[s.second].w*s.kinds[s.second].h) {
			s.second = k
		}
	}
	order.sort(s.forms)
	s.sortKinds()
	s.level(0).segs = append(s.level(0).segs, skySeg{0, s.W, 0})
	return s
}

// level returns the d-th level's room.
func (s *skyline) level(d int) *skyLevel {
	for len(s.levels) <= d {
		s.levels = append(s.levels, skyLevel{sumsW: newSums(s.W), sumsH: newSums(s.H), places: newSums(s.W)})
	}
	return &s.levels[d]
}

// search decides the outline at level d with what is left.
func (s *skyline) search(d int) Verdict {
	if s.n == 0 {
		return Fits
	}
	s.nodes++
	if !s.pace.spend(4) {
		return Undecided
	}
	l := s.level(d)
	at := nicheOf(l.segs)
	key := s.key
	key.a ^= uint64(s.duty)
	key.b ^= uint64(s.duty) << 32
	key.addSegs(l.segs)
	if s.memo.has(key) || s.hopeless(l) {
		return Impossible
	}
	verdict := s.branch(d, at)
	if verdict == Impossible {
		s.memo.put(key)
	}
	return verdict
}

// nicheOf returns the index of the niche to fill next: of the segments between
// two higher ones the narrowest, of these the lowest, then leftmost.
func nicheOf(segs []skySeg) int {
	at := -1
	for i := range segs {
		sg := &segs[i]
		if i > 0 && segs[i-1].y < sg.y || i+1 < len(segs) && segs[i+1].y < sg.y {
			continue
		}
		if at < 0 || sg.w < segs[at].w || sg.w == segs[at].w && sg.y < segs[at].y {
			at = i
		}
	}
	return at
}

// walls returns how far the outline rises beside the niche at index at.
func (s *skyline) walls(l *skyLevel, at int) (hl, hr int64) {
	hl, hr = s.H-l.segs[at].y, s.H-l.segs[at].y
	if at > 0 {
		hl = l.segs[at-1].y - l.segs[at].y
	}
	if at+1 < len(l.segs) {
		hr = l.segs[at+1].y - l.segs[at].y
	}
	return hl, hr
}

// branch tries all that may happen in the niche at index at of level d.
func (s *skyline) branch(d, at int) Verdict {
	niche := s.levels[d].segs[at]
	hl, hr := s.walls(&s.levels[d], at)
	for f := range s.forms {
		fm := &s.forms[f]
		if s.left[fm.kind] == 0 || fm.w > niche.w || niche.y+fm.h > s.H {
			continue
		}
		switch s.try(d, at, f, 0, hl) {
		case Fits:
			return Fits
		case Undecided:
			return Undecided
		}
	}
	if at > 0 && hl <= s.budget {
		switch s.branchGaps(d, at, hl) {
		case Fits:
			return Fits
		case Undecided:
			return Undecided
		}
	}
	if lost := niche.w * min(hl, hr); lost <= s.budget && (at > 0 || at+1 < len(s.levels[d].segs)) {
		s.level(d + 1)
		next := &s.levels[d+1]
		next.segs = append(next.segs[:0], s.levels[d].segs...)
		next.segs[at].y += min(hl, hr)
		next.merge(at)
		s.budget -= lost
		verdict := s.search(d + 1)
		s.budget += lost
		if verdict != Impossible {
			return verdict
		}
	}
	return Impossible
}

// try places form f at distance gap from the left corner of the niche and
// searches on.
func (s *skyline) try(d, at, f int, gap, hl int64) Verdict {
	fm := s.forms[f]
	l := &s.levels[d]
	niche := l.segs[at]
	x, y := niche.x+gap, niche.y
	if fm.kind == s.corner && (2*x+fm.w > s.W || 2*y+fm.h > s.H) {
		return Impossible
	}
	duty := s.duty
	if s.mirror && !s.diagonal(fm.kind, x, y) {
		return Impossible
	}
	s.level(d + 1)
	next := &s.levels[d+1]
	next.segs = append(next.segs[:0], s.levels[d].segs[:at]...)
	if gap > 0 {
		next.segs[at-1].w += gap
	}
	next.push(skySeg{x, fm.w, y + fm.h})
	if rest := niche.w - gap - fm.w; rest > 0 {
		next.push(skySeg{x + fm.w, rest, y})
	}
	for _, sg := range s.levels[d].segs[at+1:] {
		next.push(sg)
	}
	zob := s.kinds[fm.kind].zob
	s.left[fm.kind]--
	s.n--
	s.key.sub(zob)
	s.budget -= gap * hl
	s.placed = append(s.placed, skyPlaced{f, x, y})
	verdict := s.search(d + 1)
	if verdict == Fits {
		return Fits
	}
	s.placed = s.placed[:len(s.placed)-1]
	s.budget += gap * hl
	s.key.add(zob)
	s.n++
	s.left[fm.kind]++
	s.duty = duty
	return verdict
}

// skyDuty is what the diagonal's rule still asks.
type skyDuty uint64

const (
	dutyNone   skyDuty = iota
	dutySecond         // corner stands with x = y: second must have x <= y
	dutyCorner         // second stands with x > y: corner must have x < y
)

// diagonal reports whether kind may stand at x, y when of each arrangement
// and its mirror image at the diagonal only one is wanted: the one with the
// corner rectangle's x < y, or, if these are equal, the second's x <= y.
func (s *skyline) diagonal(kind int, x, y int64) bool {
	switch kind {
	case s.corner:
		if x > y || x == y && s.duty == dutyCorner {
			return false
		}
		s.duty = dutyNone
		if x == y && s.second >= 0 && s.left[s.second] > 0 {
			s.duty = dutySecond
		}
	case s.second:
		if x > y && s.duty == dutySecond {
			return false
		}
		s.duty = dutyNone
		if x > y && s.left[s.corner] > 0 {
			s.duty = dutyCorner
		}
	}
	return true
}

// push appends sg, joined to the last segment when level with it.
func (l *skyLevel) push(sg skySeg) {
	if k := len(l.segs) - 1; k >= 0 && l.segs[k].y == sg.y {
		l.segs[k].w += sg.w
		return
	}
	l.segs = append(l.segs, sg)
}

// merge joins the segment at index at with its neighbours where level.
func (l *skyLevel) merge(at int) {
	segs := l.segs
	l.segs = l.segs[:0]
	for _, sg := range segs {
		l.push(sg)
	}
}

// positions restates what was placed, kind by kind.
func (s *skyline) positions(across bool) [][]plainPos {
	pos := make([][]plainPos, len(s.kinds))
	for _, p := range s.placed {
		fm := s.forms[p.form]
		at := plainPos{p.x, p.y, fm.turned}
		if across {
			at.X, at.Y = at.Y, at.X
		}
		pos[fm.kind] = append(pos[fm.kind], at)
	}
	return pos
}

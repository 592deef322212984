package pack

import (
	"cmp"
	"math"
	"slices"
)

// beam is the heuristic for many rectangles. Like the outline search it fills
// the lowest niche of an outline, but it keeps only the best few partial
// arrangements of each size, and takes each a rectangle further:
//
//	size k      o    o    o         all children are scored, the best
//	           /|\  /|\  /|\        `width` of them kept, two with the
//	size k+1  o o o   o   o o       same outline and rest counted once
//
// The score weighs what is lost for good, the roughness of the outline and
// the area placed so far: large rectangles first. The weights are drawn anew
// for each run. It proves nothing.
type beam struct {
	c     *plainCore
	W, H  int64
	kinds []skyKind
	forms []skyForm // the narrowest first
	pace  *pace
	rng   splitmix
	width int
	// the weights of this run
	level, growth, base, spread float64
	nodes                       int64
	now, then                   []beamNode
	kids                        []beamKid
	steps                       []beamStep
}

// beamNode is a partial arrangement.
type beamNode struct {
	segs []skySeg
	left []int32
	key  memoKey // of the rectangles left
	lost int64
	area int64 // placed
	step int32 // the last of its steps, -1 for none
}

// beamStep records one placement, and the one before it.
type beamStep struct {
	before int32
	form   int32
	x, y   int64
}

// beamKid is a way to take a node further.
type beamKid struct {
	node  int32
	at    int32 // the niche's segment
	form  int32
	right bool
	score float64
}

// maxBeam bounds the width of beams, maxBeamSteps the placements of one run
// together, and so the memory they take.
const (
	maxBeam      = 1 << 13
	maxBeamSteps = 1 << 21
)

// beamWidth is the width of the round-th beam for n rectangles.
func beamWidth(round int64, n int) int {
	return max(1, min(maxBeam, maxBeamSteps/n, 1<<min(round, 20)))
}

// beamMethod looks for an arrangement with wider and wider beams, until it is
// told to stop.
func beamMethod(seed int64) plainMethod {
	return func(c *plainCore, p *pace) plainFound {
		b := newBeam(c, p, seed)
		for round := int64(0); !p.halted; round++ {
			if pos := b.run(beamWidth(round, c.n)); pos != nil {
				return plainFound{verdict: Fits, pos: pos, nodes: b.nodes}
			}
		}
		return plainFound{nodes: b.nodes}
	}
}

func newBeam(c *plainCore, p *pace, seed int64) *beam {
	b := &beam{c: c, pace: p, rng: splitmix(seed)}
	keys := splitmix(0xbea3)
	for k, kd := range c.kinds {
		b.kinds = append(b.kinds, skyKind{w: kd.w, h: kd.h, turn: kd.turn, zob: keys.key()})
		b.forms = append(b.forms, skyForm{kind: k, w: kd.w, h: kd.h})
		if kd.turn {
			b.forms = append(b.forms, skyForm{kind: k, w: kd.h, h: kd.w, turned: true})
		}
	}
	slices.SortStableFunc(b.forms, func(p, q skyForm) int { return cmp.Compare(p.w, q.w) })
	return b
}

// run looks for an arrangement with a beam of the given width; nil if it found
// none.
func (b *beam) run(width int) [][]plainPos {
	b.W, b.H, b.width = b.c.W, b.c.H, width
	b.draw()
	budget := b.W*b.H - b.c.area
	b.steps = b.steps[:0]
	b.now = append(b.now[:0], b.root())
	for n := b.c.n; n > 0; n-- {
		b.kids = b.kids[:0]
		for i := range b.now {
			b.expand(i)
			b.nodes++
			if !b.pace.spend(20) {
				return nil
			}
		}
		b.rank()
		if !b.advance(budget, n == 1) {
			return nil
		}
	}
	return b.trace(&b.now[0])
}

func (b *beam) root() beamNode {
	n := beamNode{segs: []skySeg{{0, b.W, 0}}, step: -1}
	for k := range b.c.kinds {
		n.left = append(n.left, int32(len(b.c.kinds[k].items)))
		for range b.c.kinds[k].items {
			n.key.add(b.kinds[k].zob)
		}
	}
	return n
}

// draw picks the weights of a run.
func (b *beam) draw() {
	b.level = []float64{0.03, 0.1, 0.2, 0.3}[b.rng.below(4)]
	b.growth = []float64{1, 2, 2, 3}[b.rng.below(4)]
	b.base = []float64{0.3, 0.6, 1.2, 2.5}[b.rng.below(4)]
	b.spread = []float64{0, 0.02, 0.05}[b.rng.below(3)]
}

// maxKids is how many ways to take a node further are looked at.
const maxKids = 24

// expand adds the best ways to fill the lowest niche of node i to b.kids.
func (b *beam) expand(i int) {
	n := &b.now[i]
	at := lowestSeg(n.segs)
	v := b.view(n, at)
	from := len(b.kids)
	for f := range b.forms {
		fm := &b.forms[f]
		if fm.w > v.sg.w {
			break // so are all that follow
		}
		if n.left[fm.kind] == 0 || v.sg.y+fm.h > b.H {
			continue
		}
		kid := beamKid{node: int32(i), at: int32(at), form: int32(f), right: v.hr > v.hl}
		kid.score = b.score(&v, fm)
		b.kids = keepBest(b.kids, from, kid)
	}
}

// keepBest inserts kid into kids[from:], sorted by score and at most maxKids.
func keepBest(kids []beamKid, from int, kid beamKid) []beamKid {
	j := len(kids)
	if j-from == maxKids {
		if kids[j-1].score <= kid.score {
			return kids
		}
		j--
	} else {
		kids = append(kids, kid)
	}
	for j > from && kids[j-1].score > kid.score {
		kids[j] = kids[j-1]
		j--
	}
	kids[j] = kid
	return kids
}

// beamView is what scoring needs to know of a node and its lowest niche.
type beamView struct {
	sg          skySeg
	hl, hr      int64
	least       int64 // width of the narrowest rectangle left
	lost        float64
	per, growth float64
	mean        float64
}

func (b *beam) view(n *beamNode, at int) beamView {
	v := beamView{sg: n.segs[at], least: math.MaxInt64}
	v.hl, v.hr = b.walls(n.segs, at)
	for f := range b.forms {
		if fm := &b.forms[f]; n.left[fm.kind] > 0 {
			v.least = fm.w
			break
		}
	}
	v.mean = float64(b.c.area) / float64(b.c.n)
	area := float64(n.area) + v.mean
	v.lost = float64(n.lost) + b.base*float64(b.W)
	v.per = math.Pow(area, -b.growth)
	v.growth = b.growth / area
	return v
}

// score weighs a child: what is lost for good, for a power of the area placed
// (drawn out to first order from the mean), and a reward for a level outline.
// Less is better.
func (b *beam) score(v *beamView, fm *skyForm) float64 {
	low, high := min(v.hl, v.hr), max(v.hl, v.hr)
	lost := v.lost
	level := 0
	rest := v.sg.w - fm.w
	switch {
	case rest == 0:
		level = 1
		if fm.h == v.hl {
			level++
		}
		if fm.h == v.hr {
			level++
		}
	case rest < v.least:
		lost += float64(rest * min(fm.h, low))
	case fm.h == high:
		level = 1
	}
	lost -= b.level * float64(b.W) * float64(level)
	s := lost * v.per / (1 + v.growth*(float64(fm.w*fm.h)-v.mean))
	return s * (1 + b.spread*float64(b.rng.next()>>11)/(1<<53))
}

func (b *beam) walls(segs []skySeg, at int) (hl, hr int64) {
	hl, hr = b.H-segs[at].y, b.H-segs[at].y
	if at > 0 {
		hl = segs[at-1].y - segs[at].y
	}
	if at+1 < len(segs) {
		hr = segs[at+1].y - segs[at].y
	}
	return hl, hr
}

func lowestSeg(segs []skySeg) int {
	at := 0
	for i := range segs {
		if segs[i].y < segs[at].y {
			at = i
		}
	}
	return at
}

// rank leaves about the best 2 width of b.kids, sorted, the best first.
func (b *beam) rank() {
	b.thin(2 * b.width)
	slices.SortFunc(b.kids, func(p, q beamKid) int {
		switch {
		case p.score < q.score:
			return -1
		case p.score > q.score:
			return 1
		}
		return cmp.Or(cmp.Compare(p.node, q.node), cmp.Compare(p.form, q.form))
	})
}

// thin drops the worse of many kids, by a score that a sample finds to leave
// about keep.
func (b *beam) thin(keep int) {
	const sample = 512
	if len(b.kids) < 2*keep || len(b.kids) < 4*sample {
		return
	}
	scores := make([]float64, 0, sample+1)
	for i := 0; i < len(b.kids); i += len(b.kids) / sample {
		scores = append(scores, b.kids[i].score)
	}
	slices.Sort(scores)
	most := scores[min(len(scores)-1, len(scores)*keep/len(b.kids)+1)]
	kept := b.kids[:0]
	for _, k := range b.kids {
		if k.score <= most {
			kept = append(kept, k)
		}
	}
	b.kids = kept
}

// advance turns the best of b.kids into the next generation; it reports
// whether there is one.
func (b *beam) advance(budget int64, last bool) bool {
	next := b.then[:0]
	seen := make(map[memoKey]struct{}, b.width)
	for i := range b.kids {
		if len(next) == b.width {
			break
		}
		if len(next) < cap(next) {
			next = next[:len(next)+1]
		} else {
			next = append(next, beamNode{})
		}
		n := &next[len(next)-1]
		b.place(n, &b.kids[i])
		if !last {
			b.settle(n)
		}
		key := n.key
		key.addSegs(n.segs)
		if _, dup := seen[key]; dup || n.lost > budget {
			next = next[:len(next)-1]
			continue
		}
		seen[key] = struct{}{}
	}
	b.now, b.then = next, b.now
	return len(next) > 0
}

// place makes n the node that kid leads to.
func (b *beam) place(n *beamNode, kid *beamKid) {
	p, fm := &b.now[kid.node], b.forms[kid.form]
	at := int(kid.at)
	sg := p.segs[at]
	rest := sg.w - fm.w
	x := sg.x
	n.segs = append(n.segs[:0], p.segs[:at]...)
	if kid.right && rest > 0 {
		x += rest
		n.segs = pushSeg(n.segs, skySeg{sg.x, rest, sg.y})
	}
	n.segs = pushSeg(n.segs, skySeg{x, fm.w, sg.y + fm.h})
	if !kid.right && rest > 0 {
		n.segs = pushSeg(n.segs, skySeg{x + fm.w, rest, sg.y})
	}
	for _, s := range p.segs[at+1:] {
		n.segs = pushSeg(n.segs, s)
	}
	n.left = append(n.left[:0], p.left...)
	n.left[fm.kind]--
	n.key, n.lost, n.area = p.key, p.lost, p.area+fm.w*fm.h
	n.key.sub(b.kinds[fm.kind].zob)
	n.step = int32(len(b.steps))
	b.steps = append(b.steps, beamStep{p.step, kid.form, x, sg.y})
}

// settle gives up niches that no rectangle left fits into.
func (b *beam) settle(n *beamNode) {
	for len(n.segs) > 1 {
		at := lowestSeg(n.segs)
		sg := n.segs[at]
		for f := range b.forms {
			fm := &b.forms[f]
			if fm.w > sg.w {
				break
			}
			if n.left[fm.kind] > 0 && sg.y+fm.h <= b.H {
				return
			}
		}
		hl, hr := b.walls(n.segs, at)
		n.lost += sg.w * min(hl, hr)
		segs := n.segs
		segs[at].y += min(hl, hr)
		n.segs = n.segs[:0]
		for _, s := range segs {
			n.segs = pushSeg(n.segs, s)
		}
	}
}

// pushSeg appends sg, joined to the last segment when level with it.
func pushSeg(segs []skySeg, sg skySeg) []skySeg {
	if k := len(segs) - 1; k >= 0 && segs[k].y == sg.y {
		segs[k].w += sg.w
		return segs
	}
	return append(segs, sg)
}

// trace reads a whole arrangement back, kind by kind.
func (b *beam) trace(n *beamNode) [][]plainPos {
	pos := make([][]plainPos, len(b.kinds))
	for i := n.step; i >= 0; i = b.steps[i].before {
		st := &b.steps[i]
		fm := &b.forms[st.form]
		pos[fm.kind] = append(pos[fm.kind], plainPos{st.x, st.y, fm.turned})
	}
	return pos
}

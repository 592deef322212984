package book

import "footplank/layout"

// patch is a place to plug the spare cable from the instrument into, and what
// that tells: numbers of hops from lo up to but not hi are suspects.
type patch struct {
	into          layout.JackRef
	heard, silent verdict
}

// verdict is what follows from a patch: the hop that is dead, or which patch
// comes next.
type verdict struct {
	found bool
	hop   int // found
	next  int // not found: index of the patch
}

// halves returns the patches that find any one dead hop of a chain, the first
// one first. At most ceil(log2 len(hops)) of them lie on any way through.
func halves(hops []hop) []patch {
	var out []patch
	var search func(lo, hi int) verdict
	search = func(lo, hi int) verdict {
		if hi-lo == 1 {
			return verdict{found: true, hop: lo}
		}
		// In at the unit that hop mid leaves: the signal passes mid and all
		// behind it.
		mid := (lo + hi) / 2
		n := len(out)
		out = append(out, patch{into: hops[mid-1].to})
		heard := search(lo, mid)
		silent := search(mid, hi)
		out[n].heard, out[n].silent = heard, silent
		return verdict{next: n}
	}
	if len(hops) > 1 {
		search(0, len(hops))
	}
	return out
}

// most returns the most patches that any way through takes.
func most(patches []patch) int {
	var deep func(v verdict) int
	deep = func(v verdict) int {
		if v.found {
			return 0
		}
		p := patches[v.next]
		return 1 + max(deep(p.heard), deep(p.silent))
	}
	if len(patches) == 0 {
		return 0
	}
	return deep(verdict{next: 0})
}

package route

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// variation draws options of a search, and how much of a scene is there: what two
// searches that look alike may differ in. Most differ in little.
func variation(t *rapid.T, s *Space) (*Space, layOptions) {
	strands := func(what string) (out []strand) {
		for range rapid.IntRange(0, 2).Draw(t, what) {
			at, lo := rapid.IntRange(0, 60).Draw(t, "at"), rapid.IntRange(0, 40).Draw(t, "from")
			out = append(out, strand{kind: rapid.SampledFrom([]Kind{Audio, Power}).Draw(t, "kind"), diameter: 4 * mm,
				alongX: rapid.Bool().Draw(t, "along"), at: layout.Length(at) * cell, lo: layout.Length(lo) * cell,
				hi: layout.Length(lo+rapid.IntRange(4, 30).Draw(t, "long")) * cell})
		}
		return out
	}
	seldom := func(what string) bool { return rapid.IntRange(0, 4).Draw(t, what) == 0 }
	q := *s
	if seldom("fewer solids") {
		q.solids = s.solids[:rapid.IntRange(0, len(s.solids)).Draw(t, "solids")]
	}
	opt := layOptions{exact: seldom("exact"), others: strands("others")}
	if seldom("has lain") {
		opt.old = strands("old")
	}
	if seldom("beside others") {
		opt.tracks = opt.others
	}
	if seldom("bounded") {
		opt.limit = int64(rapid.IntRange(100, 900).Draw(t, "limit")) * int64(mm)
	}
	return &q, opt
}

// Searches in scenes that differ in little do not answer for each other.
func TestFindsAreToldApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, r := scene(t)
		type search struct {
			s   *Space
			r   Request
			opt layOptions
		}
		var all []search
		for range 6 {
			q, opt := variation(t, s)
			v := search{q, r, opt}
			v.r.Kind = rapid.SampledFrom([]Kind{Audio, Audio, Power}).Draw(t, "of kind")
			v.r.BendRadius = rapid.SampledFrom([]layout.Length{20 * mm, 20 * mm, 25 * mm}).Draw(t, "radius")
			all = append(all, v)
		}
		w := takeWorker()
		defer w.release()
		lay := func(v search) laid {
			l, _ := v.s.attempt(w, &v.r, v.r.BendRadius, v.opt)
			return l
		}
		finds.Forget()
		var warm []laid
		for _, v := range all {
			warm = append(warm, lay(v))
		}
		for i, v := range all {
			finds.Forget()
			require.Equal(t, lay(v), warm[i])
		}
	})
}

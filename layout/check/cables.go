package check

import (
	"slices"

	"footplank/layout/wiring"
)

// WithCables returns the results with what is wrong or worth knowing about the
// cables of their line-ups put in, in order, and the verdicts that follow. The
// results given stay as they are; w may be nil, for a plan without cables yet.
//
// It is a call of its own because the runs of the cables cost many times what
// all other rules do: an editor checks at every key, and puts in the cables when
// they are laid.
func WithCables(found []Result, w *wiring.Result) []Result {
	out := slices.Clone(found)
	if w == nil {
		return out
	}
	for i := range out {
		r := &out[i]
		cables := ofCables(w, r.Lineup)
		if len(cables) == 0 {
			continue
		}
		r.Findings = append(slices.Clip(r.Findings), cables...)
		sortFindings(r.Findings)
		r.Verdict = Verdict(r.Findings, r.Verdict == Unplaced)
	}
	return out
}

// ofCables returns the findings of a line-up's cables. A plug that cannot seat is
// left out: it collides with what is in its way, which Lineup says already.
func ofCables(w *wiring.Result, lineup string) []Finding {
	var out []Finding
	for _, i := range w.Issues {
		if i.Lineup == lineup && i.Code != wiring.PlugSeat {
			out = append(out, Finding{Code: i.Code, Level: Level(i.Level), Lineup: lineup, Units: i.Units,
				Text: i.Text, Measured: i.Measured, Limit: i.Limit, Unit: i.Unit})
		}
	}
	return out
}

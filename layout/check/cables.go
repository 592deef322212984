package check

import (
	"slices"

	"footplank/layout/power"
	"footplank/layout/wiring"
)

// WithCables returns the results with what is wrong or worth knowing about the
// cables of their line-ups put in, and about the leads where m has laid them, in
// order, and the verdicts that follow. The results given stay as they are; w and
// m may be nil, for what is not laid yet.
//
// It is a call of its own because the runs of the cables cost many times what
// all other rules do: an editor checks at every key, and puts in the cables when
// they are laid.
func WithCables(found []Result, w *wiring.Result, m *power.Result) []Result {
	out := slices.Clone(found)
	for i := range out {
		r := &out[i]
		all := slices.Clone(r.Findings)
		if m != nil {
			all = slices.DeleteFunc(all, func(f Finding) bool { return power.OfLead(f.Code) })
			all = append(all, ofLeads(m, r.Lineup)...)
		}
		if w != nil {
			all = append(all, ofCables(w, r.Lineup)...)
		}
		if slices.EqualFunc(all, r.Findings, func(a, b Finding) bool { return a.Code == b.Code && a.Text == b.Text }) {
			continue
		}
		sortFindings(all)
		r.Findings = all
		r.Verdict = Verdict(all, r.Verdict == Unplaced)
	}
	return out
}

// ofLeads returns the findings of a line-up's leads.
func ofLeads(m *power.Result, lineup string) []Finding {
	var out []Finding
	for _, i := range m.Issues {
		if i.Lineup == lineup && power.OfLead(i.Code) {
			out = append(out, Finding{Code: i.Code, Level: Level(i.Level), Lineup: lineup, Units: i.Units,
				Text: i.Text, Measured: i.Measured, Limit: i.Limit, Unit: i.Unit})
		}
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

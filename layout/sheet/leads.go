package sheet

import (
	"context"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// laidPower is the power map with its leads laid around the cables, nil where
// there is none to make.
func laidPower(p *layout.Plan, cables *wiring.Result) *power.Result {
	m, err := power.Map(context.Background(), p)
	if err != nil {
		return nil
	}
	m.Route(p, cables.Settled)
	return m
}

// leadsOf returns the leads of a line-up; m may be nil.
func leadsOf(m *power.Result, lineup string) []Lead {
	out := []Lead{}
	if m != nil {
		for _, d := range m.Of(lineup) {
			out = append(out, leadOf(d))
		}
	}
	return out
}

func leadOf(d *power.Lead) Lead {
	out := Lead{ID: d.ID, Supply: d.Supply, Output: d.Output, Unit: d.Unit, Volts: float64(d.Millivolts) / 1000,
		Milliamps: d.Milliamps, Limit: d.LimitMA, Path: [][3]float64{}, Run: d.Run.MM(), Cut: d.Cut.MM(), Drop: round3(d.Drop)}
	for _, p := range d.Path {
		out.Path = append(out.Path, [3]float64{p.X.MM(), p.Y.MM(), p.Z.MM()})
	}
	return out
}

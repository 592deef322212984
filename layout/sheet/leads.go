package sheet

import (
	"context"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// leadsOf returns the power leads by line-up, laid around the cables.
func leadsOf(p *layout.Plan, cables *wiring.Result) map[string][]Lead {
	m, err := power.Map(context.Background(), p)
	if err != nil {
		return nil
	}
	m.Route(p, cables.Settled)
	out := map[string][]Lead{}
	for i := range m.Leads {
		d := &m.Leads[i]
		out[d.Lineup] = append(out[d.Lineup], leadOf(d))
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

package plan

import "footplank/layout"

// Cables that make sense, generously.
var (
	reelLength   = span{100 * layout.Millimetre, layout.MaxLength}
	stageLength  = span{100 * layout.Millimetre, 50_000 * layout.Millimetre}
	patchOutside = span{layout.Millimetre, 12 * layout.Millimetre}
)

// readCable reads what the plan says of its cables. What it does not say stays
// zero: layout/wiring knows what is usual.
func (r *reader) readCable(top view) {
	v, ok := top.sub("cable", "reel", "instrument", "amp", "pf_per_metre", "diameter")
	if !ok {
		return
	}
	c := &r.plan.Cabling
	c.Reel, _ = v.length("reel", reelLength)
	c.Instrument, _ = v.length("instrument", stageLength)
	c.Amp, _ = v.length("amp", stageLength)
	c.Diameter, _ = v.length("diameter", patchOutside)
	c.Capacitance, _ = v.number("pf_per_metre", 1, 1000)
}

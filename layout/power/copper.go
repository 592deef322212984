package power

import "math"

// Resistivity of annealed copper at 20 C in ohm metres: IEC 60028, from memory.
const resistivity = 1.7241e-8

// Gauges are the wires that leads are made of, thinnest first, in American wire
// gauge: common practice, no source.
var Gauges = []int{24, 22, 20, 18}

// mostDrop is the share of an output's voltage that its lead may lose: 3 %, as
// is usual for a branch circuit; common practice for pedal leads, no source.
const mostDrop = 0.03

// Diameter returns the diameter of a wire in mm: ASTM B258.
func Diameter(gauge int) float64 { return 0.127 * math.Pow(92, float64(36-gauge)/39) }

// Area returns the cross-section of a wire in mm2.
func Area(gauge int) float64 { return math.Pi / 4 * math.Pow(Diameter(gauge), 2) }

// OhmsPerMetre returns the resistance of a copper wire at 20 C.
func OhmsPerMetre(gauge int) float64 { return resistivity / (Area(gauge) * 1e-6) }

// Drop returns the volts that a two-wire lead loses there and back: its length
// in metres, the resistance of one wire in ohm/m, the current in amperes.
func Drop(metres, ohmsPerMetre, amps float64) float64 { return 2 * metres * ohmsPerMetre * amps }

// gaugeFor returns the thinnest wire that loses little enough, and what it
// loses; ok is false when even the thickest loses more.
func gaugeFor(metres, amps, volts float64) (gauge int, drop float64, ok bool) {
	for _, gauge = range Gauges {
		if drop = Drop(metres, OhmsPerMetre(gauge), amps); drop <= mostDrop*volts {
			return gauge, drop, true
		}
	}
	return gauge, drop, false
}

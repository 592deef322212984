package layout

// LeadKind says whether a power lead swaps the two poles.
type LeadKind string

const (
	// AnyLead leaves it to the power map; LeadKind's zero value.
	AnyLead       LeadKind = ""
	PlainLead     LeadKind = "plain"
	ReversingLead LeadKind = "reversing"
)

// Draw is what a unit takes from a supply. An expander's draw is the most that
// it takes from a supply's link.
type Draw struct {
	Millivolts int
	// MaxMillivolts makes Millivolts the lower end of a range; zero for a
	// unit that takes Millivolts only.
	MaxMillivolts  int
	Milliamps      int
	CentrePositive bool // most units are centre-negative
	AC             bool
	Isolated       bool // must not share an output's ground
	// Battery is set for a unit that plays on its battery: it takes no
	// output, and no plug.
	Battery bool
	// Feed is the output that the player chose for the unit; Unit is "" to
	// leave it to the power map.
	Feed JackRef
	// Lead is the lead that the player has for the unit.
	Lead LeadKind
}

// Takes reports whether the unit can be played at that voltage.
func (d *Draw) Takes(millivolts int) bool {
	return millivolts >= d.Millivolts && millivolts <= max(d.Millivolts, d.MaxMillivolts)
}

// Setting is one position of a switched output.
type Setting struct{ Millivolts, Milliamps int }

// Output is one output of a supply or an expander, at the jack of the same ID.
type Output struct {
	Jack       string
	Millivolts int
	// MaxMillivolts makes Millivolts the lower end of a range that can be
	// set; zero for none.
	MaxMillivolts int
	Milliamps     int // the most it gives
	// Choices are the other positions of a switched output.
	Choices []Setting
	// Isolated is set when the output's ground is its own. Others of one
	// unit share a ground when their Group is the same.
	Isolated       bool
	Group          string
	CentrePositive bool
	AC             bool
	// Link is set for an output that feeds an expander and no pedal.
	Link bool
}

// MainsInput is what the label at a supply's mains inlet says.
type MainsInput struct {
	Volts, MaxVolts int // both ends of the range, equal for one voltage
	Hertz, MaxHertz int
}

// Feeds maps a line-up's name and a unit's ID to the output that feeds it.
type Feeds map[string]map[string]JackRef

// Supplies reports whether the unit is a supply or an expander.
func (u *Unit) Supplies() bool { return len(u.Outputs) > 0 }

// Expander reports whether the unit has outputs and draws what it gives from
// the link of a supply. A supply fed by the mains or by an adaptor of its own
// has no draw.
func (u *Unit) Expander() bool { return u.Supplies() && u.Draw != nil }

// Fed reports whether the unit needs an output of a supply.
func (u *Unit) Fed() bool {
	return !u.Supplies() && u.Draw != nil && u.Draw.Milliamps > 0 && !u.Draw.Battery && u.PowerIn() != nil
}

// PowerIn returns the jack that the unit draws by, or nil.
func (u *Unit) PowerIn() *Jack {
	for i := range u.Jacks {
		if j := &u.Jacks[i]; j.Signal == Power && j.Dir == In {
			return j
		}
	}
	return nil
}

// Links returns the jacks that the unit feeds expanders by: its outputs so
// marked, and power jacks that are not outputs at all, whose rating is unknown.
func (u *Unit) Links() []string {
	if !u.Supplies() {
		return nil
	}
	var out []string
	for i := range u.Jacks {
		j := &u.Jacks[i]
		if j.Signal != Power || j.Dir != Out {
			continue
		}
		if o := u.Output(j.ID); o == nil || o.Link {
			out = append(out, j.ID)
		}
	}
	return out
}

// Output returns the output at that jack, or nil.
func (u *Unit) Output(jack string) *Output {
	for i := range u.Outputs {
		if u.Outputs[i].Jack == jack {
			return &u.Outputs[i]
		}
	}
	return nil
}

package power

import (
	"fmt"
	"slices"

	"footplank/layout"
)

// Levels of issues, named as layout/check names those of its findings.
const (
	Fault   = "fault"
	Caution = "caution"
	Note    = "note"
)

// Codes of issues.
const (
	// AcIntoDc: the player put a DC unit on an AC output. Fault.
	AcIntoDc = "ac-into-dc"
	// DcIntoAc: the player put an AC unit on a DC output. Fault.
	DcIntoAc = "dc-into-ac"
	// OverVoltage: the output gives more than the unit takes. Fault. Volts.
	OverVoltage = "over-voltage"
	// UnderVoltage: the output gives less than the unit needs. Fault. Volts.
	UnderVoltage = "under-voltage"
	// ReversedPolarity: the lead brings the poles the wrong way round. Fault.
	ReversedPolarity = "reversed-polarity"
	// Overload: the unit draws more than the output gives. Fault. Milliamps.
	Overload = "overload"
	// LittleHeadroom: less than the plan's headroom is left. Caution. Milliamps or,
	// of a whole supply, watts. The default of 20 % follows NEC 210.20 by analogy.
	LittleHeadroom = "little-headroom"
	// NoOutput: no output is left for a unit. Fault.
	NoOutput = "no-output"
	// NoSupply: units of a line-up draw current, and no unit of the whole plan
	// gives any. Caution, one a line-up: a plan still being made is often so, and
	// the fix is the same for all of them. Milliamps in all; Limit is 0.
	NoSupply = "no-supply"
	// NoLink: no link is left for an expander. Fault.
	NoLink = "no-link"
	// ReversingLeadNeeded: the map needs a lead that swaps the poles. Caution.
	ReversingLeadNeeded = "reversing-lead"
	// LongLead: even the thickest wire loses more than 3 % of the voltage.
	// Caution. Volts.
	LongLead = "long-lead"
	// LeadNoWay: no way through for a lead. Caution; only where leads are laid.
	LeadNoWay = "lead-no-way"
	// TourMains: a supply does not suit the mains of a country. Fault when it
	// cannot work there, else caution.
	TourMains = "tour-mains"
	// NotDecided: the search ran out of steps. Caution.
	NotDecided = "power-undecided"
)

// Issue is one thing wrong with the power of a plan.
type Issue struct {
	Code, Level     string
	Lineup          string // "" for every line-up
	Units           []string
	Text            string
	Measured, Limit float64
	Unit            string // of both: "V", "mA", "W", or ""
}

// issues returns what is wrong with a map.
func issues(pr *problem, at []int, r *Result, c chosen) []Issue {
	var out []Issue
	for _, f := range pr.forced {
		is, level, _ := pr.misfit(f)
		is.Level = level
		for _, l := range pr.spread(f.lineups, f.unit) {
			is.Lineup = l
			out = append(out, is)
		}
	}
	for n := range pr.nodes {
		if u := pr.nodes[n].unit; pr.nodes[n].dead {
			out = append(out, Issue{Code: NoLink, Level: Fault, Units: []string{u.ID}, Text: fmt.Sprintf(
				"No link of a supply is left for the expander %s, so its outputs give nothing. Use a supply with a link of %s, or leave the expander at home.", u.Label, volts(u.Draw.Millivolts))})
		}
	}
	for _, u := range r.Unfed {
		out = append(out, pr.unfed(u, c))
	}
	if c.verdict == Undecided {
		out = append(out, Issue{Code: NotDecided, Level: Caution, Text: c.why})
	}
	out = append(out, pr.tightOutputs(r)...)
	out = append(out, pr.tightSupplies(r)...)
	for _, a := range r.Assignments {
		if a.Reversing && !a.Chosen {
			u := pr.p.Unit(a.Unit)
			out = append(out, Issue{Code: ReversingLeadNeeded, Level: Caution, Lineup: a.Lineup, Units: []string{a.Unit, a.Supply}, Text: fmt.Sprintf(
				"%s is %s and %s is %s: use a reversing lead there, marked as one. A plain lead can destroy %s.",
				u.Label, polarity(u.Draw.CentrePositive), pr.outletName(a.Supply, a.Output), polarity(!u.Draw.CentrePositive), u.Label)})
		}
	}
	return append(out, ofLeads(pr.p, r)...)
}

// ofLeads returns what is wrong with the leads as they are laid.
func ofLeads(p *layout.Plan, r *Result) []Issue {
	var out []Issue
	for i := range r.Leads {
		d := &r.Leads[i]
		switch {
		case d.Blocked != "":
			out = append(out, d.noWay(p))
		case d.Path != nil && !d.EnoughCopper:
			out = append(out, Issue{Code: LongLead, Level: Caution, Lineup: d.Lineup, Units: []string{d.Unit, d.Supply}, Text: fmt.Sprintf(
				"The lead to %s loses %.2f V of %s on its way, even in %d AWG wire. Move the unit nearer to its supply.",
				p.Unit(d.Unit).Label, d.Drop, volts(d.Millivolts), d.Gauge), Measured: d.Drop, Limit: mostDrop * float64(d.Millivolts) / 1000, Unit: "V"})
		}
	}
	return out
}

// OfLead reports whether a code is of a lead as it is laid, and may come or go
// when Route lays it.
func OfLead(code string) bool { return code == LongLead || code == LeadNoWay }

// spread names the line-ups of a demand: "" for all.
func (pr *problem) spread(lineups []int, u *layout.Unit) []string {
	if !pr.p.InSlots(u.ID) {
		return []string{""}
	}
	var out []string
	for _, l := range lineups {
		out = append(out, pr.p.Lineups[l].Name)
	}
	return out
}

// misfit says what is wrong with an output that the player chose.
func (pr *problem) misfit(f forced) (is Issue, level, text string) {
	d, o, u := f.unit.Draw, &pr.outlets[f.outlet], f.unit
	name := pr.outletName(o.ref.Unit, o.ref.Jack)
	low, high := o.settings[0].Millivolts, o.settings[len(o.settings)-1].Millivolts
	top := max(d.Millivolts, d.MaxMillivolts)
	is = Issue{Units: []string{u.ID, o.ref.Unit}}
	level = Fault
	measure := func(measured, limit int, unit string) {
		is.Measured, is.Limit, is.Unit = float64(measured), float64(limit), unit
		if unit == "V" {
			is.Measured, is.Limit = is.Measured/1000, is.Limit/1000
		}
	}
	swapped, right := reversal(d, o.out)
	need := int64(d.Milliamps)
	most := 0
	for _, s := range o.settings {
		if d.Takes(s.Millivolts) {
			most = max(most, s.Milliamps)
		}
	}
	switch {
	case o.out.AC && !d.AC:
		is.Code = AcIntoDc
		text = fmt.Sprintf("DO NOT PLUG IN: %s gives AC and %s takes DC. AC can destroy %s the moment it is connected. Use a DC output of %s.", name, u.Label, u.Label, volts(d.Millivolts))
	case !o.out.AC && d.AC:
		is.Code = DcIntoAc
		text = fmt.Sprintf("DO NOT PLUG IN: %s gives DC and %s takes AC. It will not work and can be damaged. Use an AC output of %s.", name, u.Label, volts(d.Millivolts))
	case most == 0 && high > top:
		is.Code = OverVoltage
		measure(high, top, "V")
		if low > top {
			measure(low, top, "V")
		}
		text = fmt.Sprintf("DO NOT PLUG IN: %s gives %g V and %s takes no more than %s. It can be destroyed the moment it is connected.", name, is.Measured, u.Label, volts(top))
	case !right && !d.AC && swapped:
		is.Code = ReversedPolarity
		text = fmt.Sprintf("DO NOT PLUG IN with a plain lead: %s is %s and %s is %s. The wrong way round can destroy %s. Use a reversing lead, marked as one (lead = \"reversing\" in the plan), or another output.",
			name, polarity(o.out.CentrePositive), u.Label, polarity(d.CentrePositive), u.Label)
	case !right:
		is.Code = ReversedPolarity
		text = fmt.Sprintf("DO NOT PLUG IN with a reversing lead: %s and %s are both %s. The wrong way round can destroy %s. Use a plain lead (lead = \"plain\" in the plan).",
			name, u.Label, polarity(d.CentrePositive), u.Label)
	case most == 0:
		is.Code = UnderVoltage
		measure(high, d.Millivolts, "V")
		text = fmt.Sprintf("%s gives %s and %s needs %s: it will not work, or not as it should. Use another output.", name, volts(high), u.Label, volts(d.Millivolts))
	case d.Milliamps > most:
		is.Code = Overload
		measure(d.Milliamps, most, "mA")
		text = fmt.Sprintf("%s draws %d mA and %s gives %d mA at most: it will cut out, or the supply gets hot. Use a stronger output.", u.Label, need, name, most)
	default:
		is.Code, level = LittleHeadroom, Caution
		measure(d.Milliamps, most*(100-pr.spare)/100, "mA")
		text = fmt.Sprintf("%s draws %d mA of the %d mA that %s gives: less than %d %% is spare.", u.Label, need, most, name, pr.spare)
	}
	is.Text = text
	return is, level, text
}

func (pr *problem) unfed(u Unfed, c chosen) Issue {
	unit := pr.p.Unit(u.Unit)
	is := Issue{Code: NoOutput, Level: Fault, Lineup: u.Lineup, Units: []string{u.Unit},
		Text: fmt.Sprintf("No output is left for %s (%s).", unit.Label, pr.needs(unit))}
	for _, v := range c.rivals {
		if slices.Contains(v.units, u.Unit) {
			is.Text += " " + v.text
			for _, id := range v.units {
				if id != u.Unit {
					is.Units = append(is.Units, id)
				}
			}
			break
		}
	}
	is.Text += " Take a supply with more outputs, or play it on a battery and say so in the plan."
	return is
}

// noSupply says of each line-up what its units draw that nothing gives, in a plan
// without a supply.
func noSupply(p *layout.Plan) []Issue {
	var out []Issue
	for i := range p.Lineups {
		l := &p.Lineups[i]
		is := Issue{Code: NoSupply, Level: Caution, Lineup: l.Name, Unit: "mA"}
		var names []string
		for _, u := range p.UnitsIn(l) {
			if u.Fed() {
				is.Units, names = append(is.Units, u.ID), append(names, u.Label)
				is.Measured += float64(u.Draw.Milliamps)
			}
		}
		who, draw, their := fmt.Sprintf("%d units", len(names)), "draw", "their batteries"
		switch len(names) {
		case 0:
			continue
		case 1:
			who, draw, their = names[0], "draws", "its battery"
		case 2:
			who = names[0] + " and " + names[1]
		}
		is.Text = fmt.Sprintf("%s %s %g mA, and nothing in the plan gives power. Add a supply, or play on %s and say so in the plan.", who, draw, is.Measured, their)
		out = append(out, is)
	}
	return out
}

// tightOutputs notes outputs that give more than the plan's headroom leaves.
func (pr *problem) tightOutputs(r *Result) []Issue {
	var out []Issue
	spare := pr.p.Power.Headroom
	for _, a := range r.Assignments {
		if a.Chosen || a.Link || a.LimitMA == 0 {
			continue
		}
		if a.Milliamps*100 > a.LimitMA*(100-spare) {
			out = append(out, Issue{Code: LittleHeadroom, Level: Caution, Lineup: a.Lineup, Units: []string{a.Unit, a.Supply},
				Text: fmt.Sprintf("%s draws %d mA of the %d mA that %s gives: less than %d %% is spare, and no map keeps more everywhere.",
					pr.p.Unit(a.Unit).Label, a.Milliamps, a.LimitMA, pr.outletName(a.Supply, a.Output), spare),
				Measured: float64(a.Milliamps), Limit: float64(a.LimitMA*(100-spare)) / 100, Unit: "mA"})
		}
	}
	return out
}

// tightSupplies notes supplies that give more watts than the headroom leaves:
// a fault where they give more than they can.
func (pr *problem) tightSupplies(r *Result) []Issue {
	var out []Issue
	spare := float64(pr.p.Power.Headroom)
	for _, w := range r.Loads {
		label := pr.p.Unit(w.Supply).Label
		is := Issue{Lineup: w.Lineup, Units: []string{w.Supply}, Measured: w.Watts, Limit: w.Limit * (100 - spare) / 100, Unit: "W"}
		switch {
		case w.Limit == 0 || w.Watts <= is.Limit:
			continue
		case w.Watts > w.Limit:
			is.Code, is.Level, is.Limit = Overload, Fault, w.Limit
			is.Text = fmt.Sprintf("%s is to give %.1f W and gives %.1f W at most: it will cut out, or get hot. Feed something from elsewhere.", label, w.Watts, w.Limit)
		default:
			is.Code, is.Level = LittleHeadroom, Caution
			is.Text = fmt.Sprintf("%s gives %.1f W of the %.1f W that it can: less than %g %% is spare.", label, w.Watts, w.Limit, spare)
		}
		out = append(out, is)
	}
	return out
}

// tourIssues notes supplies that cannot be plugged in somewhere.
func tourIssues(stops []Stop) []Issue {
	var out []Issue
	for _, s := range stops {
		level := Fault
		switch s.Answer {
		case MainsSome, MainsHertz:
			level = Caution
		case MainsFits, MainsUnknown:
			continue
		}
		out = append(out, Issue{Code: TourMains, Level: level, Units: []string{s.Supply}, Text: s.Text})
	}
	return out
}

// outletName names an output as the player finds it: "out3" of Engine Shed.
func (pr *problem) outletName(unit, jack string) string {
	return fmt.Sprintf("%q of %s", jack, pr.p.Unit(unit).Label)
}

func volts(millivolts int) string { return fmt.Sprintf("%g V", float64(millivolts)/1000) }

func polarity(positive bool) string {
	if positive {
		return "centre-positive"
	}
	return "centre-negative"
}

// cautions are for every player, whatever the plan.
func cautions(p *layout.Plan) []string {
	out := []string{
		"Before a unit is plugged in, read its label: volts, AC or DC, polarity, milliamps. The label beats the plan and every table.",
	}
	if slices.ContainsFunc(p.Units, func(u layout.Unit) bool { return u.Supplies() && hasMains(&u) }) {
		out = append(out,
			"Never open a supply: it holds mains voltage, for a while even unplugged.",
			"Anything on the mains side, from plug to fuse to earth, is work for a licensed person, by the code of the country.")
	}
	if len(p.Power.Tour) > 0 {
		out = append(out, TableDate)
	}
	return out
}

package shopping

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// Lead is one power lead to have: it belongs to its output in every line-up.
type Lead struct {
	Supply, Output string
	Label          string        // what to write on it: the supply and its output
	Reversing      bool          // swaps the poles
	Adaptor        string        // "" or from which connector to which
	Cut            layout.Length // the longest of all line-ups; 0 while no end has a place
	Gauge          int           // the thickest wire of all line-ups
	Stock          layout.Length // the next ready-made length, 0 for none
	Short          bool          // longer than any ready-made one
	Uses           []LeadUse
}

// LeadUse is the unit that a lead feeds in a line-up.
type LeadUse struct{ Lineup, Unit string }

// Leads returns the leads to have for a power map, in the order in which the map
// first names them.
func Leads(p *layout.Plan, m *power.Result) []Lead {
	var out []Lead
	for i := range m.Leads {
		d := &m.Leads[i]
		n := slices.IndexFunc(out, func(l Lead) bool {
			return l.Supply == d.Supply && l.Output == d.Output && l.Reversing == d.Reversing && l.Adaptor == d.Adaptor
		})
		if n < 0 {
			label := d.Supply
			if u := p.Unit(d.Supply); u != nil {
				label = u.Label
			}
			n = len(out)
			out = append(out, Lead{Supply: d.Supply, Output: d.Output, Label: label + " " + d.Output, Reversing: d.Reversing, Adaptor: d.Adaptor, Gauge: d.Gauge})
		}
		l := &out[n]
		l.Cut = max(l.Cut, d.Cut.UpTo(p.Measure()))
		l.Gauge = min(l.Gauge, d.Gauge)
		l.Uses = append(l.Uses, LeadUse{d.Lineup, d.Unit})
	}
	for i := range out {
		// Leads come in the lengths of patch cables: common practice, no source.
		out[i].Stock = wiring.NextStock(out[i].Cut, p.Measure())
		out[i].Short = out[i].Cut > 0 && out[i].Stock == 0
	}
	return out
}

// Sort names what kind of lead it is: "lead", "reversed lead", "lead dc to xlr".
func (l *Lead) Sort() string {
	s := "lead"
	if l.Reversing {
		s = "reversed lead"
	}
	if l.Adaptor != "" {
		s += " " + l.Adaptor
	}
	return s
}

// leadItems lists leads by sort and length, the plain ones first.
func leadItems(p *layout.Plan, leads []Lead) []Item {
	sorted := slices.DeleteFunc(slices.Clone(leads), func(d Lead) bool { return d.Cut == 0 })
	slices.SortStableFunc(sorted, func(a, b Lead) int {
		return cmp.Or(strings.Compare(a.Sort(), b.Sort()), cmp.Compare(a.Stock, b.Stock))
	})
	owned := ownedLeads(p, sorted)
	var out []Item
	for i := 0; i < len(sorted); {
		d := &sorted[i]
		n, own, gauge := 0, 0, d.Gauge
		for ; i < len(sorted) && sorted[i].Sort() == d.Sort() && sorted[i].Stock == d.Stock; i++ {
			n++
			gauge = min(gauge, sorted[i].Gauge)
			if owned[i] {
				own++
			}
		}
		name := d.Sort()
		what := fmt.Sprintf("power lead, AWG %d or thicker", gauge)
		if d.Stock > 0 {
			name += " " + short(d.Stock)
		} else if d.Short {
			what += ", to be made to length"
		}
		if d.Reversing {
			what += "; swaps the poles"
		}
		out = append(out, count(Power, name, what, n, own))
	}
	return out
}

// ownedLeads tells which of the leads are owned: the longest needs first, as far
// as all of them find one that is long enough.
func ownedLeads(p *layout.Plan, leads []Lead) []bool {
	met := make([]bool, len(leads))
	for _, reversed := range []bool{false, true} {
		var have []layout.Length
		for _, o := range p.Owned.Leads {
			for range o.Count {
				if o.Reversed == reversed {
					have = append(have, o.Length)
				}
			}
		}
		slices.SortFunc(have, func(a, b layout.Length) int { return cmp.Compare(b, a) })
		var order []int
		for i, d := range leads {
			if d.Reversing == reversed && d.Adaptor == "" {
				order = append(order, i)
			}
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(leads[b].Cut, leads[a].Cut) })
		// Longest first, the n needs met so far take the n longest: one more can
		// be met if it is no longer than the next.
		n := 0
		for _, i := range order {
			if n < len(have) && leads[i].Cut <= have[n] {
				met[i] = true
				n++
			}
		}
	}
	return met
}

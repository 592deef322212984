package sheet

import (
	"fmt"

	"footplank/layout"
	"footplank/layout/wiring"
)

// ChosenPlug is a plug in use that is not the usual one, because that one does
// not seat where its unit stands. Legs point to sides named as at turn 0, "" for
// a plug without one.
type ChosenPlug struct {
	Unit      string `json:"unit"`
	Jack      string `json:"jack"`
	Plug      string `json:"plug"`
	Leg       string `json:"leg"`
	Usual     string `json:"usual_plug"`
	UsualLeg  string `json:"usual_leg"`
	unitLabel string
}

// SpareCable is what the kit does not take of the player's cables of one kind.
type SpareCable struct {
	Name   string    `json:"name"`
	Length float64   `json:"length_mm"`
	Plugs  [2]string `json:"plugs"` // "" for one that is not known
	Count  int       `json:"count"`
}

// chosenPlugs returns the plugs that the program chose, in the plan's order.
func chosenPlugs(p *layout.Plan) []ChosenPlug {
	out := []ChosenPlug{}
	leg := func(s layout.Seat) string {
		switch {
		case s.Plug.Leg == 0:
			return ""
		case s.Leg == "":
			return string(layout.LegUp)
		}
		return string(s.Leg)
	}
	for i := range p.Units {
		u := &p.Units[i]
		for k := range u.Jacks {
			j := &u.Jacks[k]
			now, usual := layout.Seat{Plug: j.Plug, Leg: j.Leg}, j.UsualSeat()
			if now != usual {
				out = append(out, ChosenPlug{u.ID, j.ID, now.Plug.Name, leg(now), usual.Plug.Name, leg(usual), u.Label})
			}
		}
	}
	return out
}

func spareCables(r *wiring.Result) []SpareCable {
	out := []SpareCable{}
	for _, c := range r.Spare {
		out = append(out, SpareCable{c.Name, c.Length.MM(), c.Plugs, c.Count})
	}
	return out
}

// chosenPlugs says where other plugs than the usual ones go, and why.
func (t *writer) chosenPlugs(plugs []ChosenPlug) {
	if len(plugs) == 0 {
		return
	}
	t.title("Plugs chosen", "-")
	t.lines("")
	t.lines(t.para("  ", "The usual plug does not seat in these jacks where the units stand now; the one named does.")...)
	for i := range plugs {
		c := &plugs[i]
		what := c.Plug
		if c.Plug != c.Usual {
			what += ", not " + c.Usual
		}
		if c.Leg != "" && (c.Plug != c.Usual || c.Leg != c.UsualLeg) {
			what += ", its leg " + legWords[c.Leg]
		}
		t.lines(t.para("    ", fmt.Sprintf("%s/%s: %s", c.Unit, c.Jack, what))...)
	}
	t.lines("")
}

var legWords = map[string]string{"up": "up", "down": "down", "left": "to the unit's left", "right": "to the unit's right",
	"front": "to the unit's front", "back": "to the unit's back"}

// origin says where a cable of the kit comes from.
func (t *writer) origin(k *WiringKit) string {
	switch {
	case k.Owned && k.Name != "":
		return fmt.Sprintf("yours, %q", k.Name)
	case k.Owned:
		return "yours"
	case k.Stock > 0:
		return "ready-made " + t.length(micrometres(k.Stock))
	}
	return "no ready-made length"
}

// kitSum adds up the kit: what there is and what to make.
func (t *writer) kitSum(kit []WiringKit) string {
	var sum layout.Length
	made := 0
	for i := range kit {
		if !kit[i].Owned {
			made++
			sum += micrometres(kit[i].Cut)
		}
	}
	n := len(kit)
	what := fmt.Sprintf("In all %d %s", n, plural(n, "cable"))
	switch {
	case made == 0:
		return what + ", all of them yours."
	case made < n:
		what += fmt.Sprintf(", %d of them yours. To make or buy: %d %s", n-made, made, plural(made, "cable"))
	}
	return what + fmt.Sprintf(", %d plugs, %s of cable. Cut lengths are before the plugs go on.", 2*made, t.length(sum))
}

// spare says which of the player's cables the kit does not take.
func (t *writer) spare(spare []SpareCable) {
	if len(spare) == 0 {
		return
	}
	t.lines("")
	for i, c := range spare {
		what := fmt.Sprintf("%d of %s", c.Count, t.length(micrometres(c.Length)))
		if c.Name != "" {
			what += fmt.Sprintf(", %q", c.Name)
		}
		for n, p := range c.Plugs {
			if p == "" {
				c.Plugs[n] = "any plug"
			}
		}
		what += "; " + wiring.BothPlugs(c.Plugs)
		head := "                "
		if i == 0 {
			head = "  Not needed:   "
		}
		t.lines(t.para(head, what)...)
	}
}

// reelWords says how many reels the cutting list takes.
func (t *writer) reelWords(r *Reels) []string {
	n := len(r.List)
	var out []string
	if r.List[0].Owned {
		n--
		out = append(out, fmt.Sprintf("First from the reel of %s that you have.", t.length(micrometres(r.List[0].Length))))
	}
	if n == 0 {
		return append(out, "No new reel is needed.")
	}
	least := ", the fewest there can be"
	if !r.Proved {
		least = ", perhaps not the fewest there can be"
	}
	return append(out, fmt.Sprintf("From reels of %s: %d %s%s.", t.length(micrometres(r.Length)), n, plural(n, "reel"), least))
}

// reelName heads a reel's line.
func reelName(list []Reel, i int) string {
	switch {
	case list[i].Owned:
		return "  Your reel: "
	case list[0].Owned:
		return fmt.Sprintf("  Reel %d: ", i)
	}
	return fmt.Sprintf("  Reel %d: ", i+1)
}

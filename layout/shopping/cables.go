package shopping

import (
	"cmp"
	"fmt"
	"slices"

	"footplank/layout"
	"footplank/layout/wiring"
)

// kit is the cables that a plan needs.
type kit struct {
	p          *layout.Plan
	r          *wiring.Result
	make, have []wiring.KitCable // those to be made or bought, and the player's own
}

func newKit(p *layout.Plan, r *wiring.Result) *kit {
	k := &kit{p: p, r: r}
	for _, c := range r.Kit {
		if c.Owned {
			k.have = append(k.have, c)
		} else {
			k.make = append(k.make, c)
		}
	}
	return k
}

// isPlug reports whether a name is the form of a plug in the plan.
func isPlug(p *layout.Plan, name string) bool {
	for i := range p.Units {
		for j := range p.Units[i].Jacks {
			if p.Units[i].Jacks[j].Plug.Name == name {
				return true
			}
		}
	}
	return false
}

// way returns how the cables come, and why.
func (k *kit) way(asked string) (way, why string) {
	o := &k.p.Owned
	switch {
	case asked != ByRule:
		return asked, "as asked for"
	case o.Reel > 0:
		return Reel, "the plan says that a reel is owned"
	case len(o.Plugs) > 0:
		return Reel, "the plan says that plugs are owned"
	}
	if _, ok := k.p.Prices["patch cable"]; ok {
		return Reel, "the plan has a price for patch cable"
	}
	for _, c := range k.make {
		for _, f := range c.Plugs {
			if _, ok := k.p.Prices[f]; ok {
				return Reel, "the plan has a price for plugs"
			}
		}
	}
	return Made, "the plan has neither a reel nor plugs, nor a price for them"
}

// items lists what the kit takes one way or the other, and what of it is there.
func (k *kit) items(way string) []Item {
	var out []Item
	for _, c := range k.have {
		what := "your own, " + wiring.BothPlugs(c.Plugs)
		if c.Name != "" {
			what = c.Name + ": " + what
		}
		out = append(out, count(Cables, "cable "+short(c.Cut), what, 1, 1))
	}
	cut := k.make
	if way == Made {
		cut = slices.DeleteFunc(slices.Clone(k.make), func(c wiring.KitCable) bool { return c.Stock > 0 })
		out = append(out, k.made()...)
	}
	return append(out, k.fromReel(cut)...)
}

// made lists ready-made cables by length and plugs, the shortest first, with
// those that are owned.
func (k *kit) made() []Item {
	type sort struct {
		stock layout.Length
		plugs [2]string
	}
	n := map[sort]int{}
	var sorts []sort
	for _, c := range k.make {
		if s := (sort{c.Stock, c.Plugs}); c.Stock > 0 {
			if n[s]++; n[s] == 1 {
				sorts = append(sorts, s)
			}
		}
	}
	slices.SortFunc(sorts, func(a, b sort) int {
		return cmp.Or(cmp.Compare(a.stock, b.stock), slices.Compare(a.plugs[:], b.plugs[:]))
	})
	var out []Item
	for _, s := range sorts {
		out = append(out, count(Cables, "cable "+short(s.stock), "ready-made patch cable, "+wiring.BothPlugs(s.plugs), n[s], 0))
	}
	return out
}

// short writes a ready-made length as shops do: "30cm", "6in".
func short(l layout.Length) string {
	switch {
	case l%layout.Centimetre == 0:
		return fmt.Sprintf("%dcm", l/layout.Centimetre)
	case l%layout.Inch == 0:
		return fmt.Sprintf("%din", l/layout.Inch)
	}
	return l.String()
}

// fromReel lists patch cable and plugs for cables that are cut, as the list of
// reels cuts them: the player's own reel first.
func (k *kit) fromReel(cs []wiring.KitCable) []Item {
	if len(cs) == 0 {
		return nil
	}
	var sum, used layout.Length
	plugs := map[string]int{}
	reels := map[int]bool{} // new ones that they come from
	for _, c := range cs {
		sum += c.Cut
		plugs[c.Plugs[0]]++
		plugs[c.Plugs[1]]++
		for i, r := range k.r.List {
			switch {
			case !slices.Contains(r.Kit, c.ID):
			case r.Owned:
				used += c.Cut
			default:
				reels[i] = true
			}
		}
	}
	what := fmt.Sprintf("for %s, by the whole metre", layout.Plural(len(cs), "cable"))
	if n := len(reels); n > 0 {
		what += fmt.Sprintf("; or %s of %s", layout.Plural(n, "reel"), wiring.Metres(k.r.Reel, layout.Millimetres))
	}
	out := []Item{{Group: Cables, Name: "patch cable", What: what, Measure: Metres,
		Need: metres(sum), Owned: metres(used), Buy: wholeMetres(sum - used)}}
	names := make([]string, 0, len(plugs))
	for f := range plugs {
		names = append(names, f)
	}
	slices.Sort(names)
	for _, f := range names {
		own := 0
		for _, o := range k.p.Owned.Plugs {
			if o.Form == f {
				own += o.Count
			}
		}
		out = append(out, count(Cables, f, "plug for patch cable", plugs[f], own))
	}
	return out
}

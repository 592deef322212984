package arrange

import (
	"context"
	"fmt"
	"strings"

	"footplank/layout"
	"footplank/pack"
)

// blame narrows a reason down to a smallest set of units that already cannot
// stand together, as far as the time goes.
func (pr *problem) blame(ctx context.Context, r *pack.Reason, opt Options) (*pack.Reason, error) {
	if len(r.Items) <= 1 {
		return r, nil
	}
	set, err := pack.Conflict(ctx, &pr.pack, pack.Options{Seed: opt.Seed, Workers: opt.Workers, Steps: trySteps})
	if err != nil || set.Verdict != pack.Impossible || len(set.Items) == 0 {
		return r, err
	}
	narrow := *set.Reason
	narrow.Items = set.Items
	return &narrow, nil
}

// why puts the engine's reason into words.
func (pr *problem) why(r *pack.Reason) (text string, units []string) {
	var names []string
	seen := map[string]bool{}
	for _, i := range r.Items {
		u := pr.items[i].unit
		if !seen[u.ID] {
			seen[u.ID] = true
			units = append(units, u.ID)
			names = append(names, u.Label)
		}
	}
	switch r.Rule {
	case "no-region":
		if pr.items[r.Items[0]].held {
			text = fmt.Sprintf("%s is pinned where the board itself is in the way.", list(names))
		} else {
			text = fmt.Sprintf("%s has no place at all: with its plugs seated it is too large, or too tall, for every surface it may stand on%s.", list(names), pr.inSlot(r.Items[0]))
		}
	case "pair":
		text = fmt.Sprintf("%s cannot stand on the board together, wherever they go.", list(names))
	case "area", "dual-feasible":
		text = fmt.Sprintf("%s need more room than there is: at least %s cm2 with their plugs, and the places open to them have %s cm2.", list(names), cm2(r.Need), cm2(r.Have))
	case "load-x", "load-y":
		text = fmt.Sprintf("%s need more room in one row than the board has.", list(names))
	default:
		text = fmt.Sprintf("every arrangement of %s was tried (%d steps of search) and none fits.", list(names), r.Nodes)
		if r.Nodes == 0 { // seen without a search
			text = fmt.Sprintf("no arrangement of %s fits: wherever one of them stands, no place is left for another.", list(names))
		}
	}
	return text, units
}

func (pr *problem) inSlot(i int) string {
	it := pr.items[i]
	if s := pr.plan.SlotOf(pr.lineups[it.lineups[0]], it.unit.ID); s != nil {
		return fmt.Sprintf(" in slot %q", s.Name)
	}
	return ""
}

func cm2(v int64) string { return fmt.Sprintf("%.1f", float64(v)/1e8) }

// list joins names as a sentence does, shortened when there are many.
func list(names []string) string {
	// One more name is no longer than "1 more".
	const most = 6
	if n := len(names); n > most+1 {
		return fmt.Sprintf("%s and %d more units", strings.Join(names[:most], ", "), n-most)
	}
	return layout.And(names)
}

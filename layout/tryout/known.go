package tryout

import (
	"sync"

	"footplank/layout/check"
	"footplank/layout/power"
	"footplank/layout/wiring"
)

// known is what a bench's plan has of itself, each part worked out when a
// question first asks for it, and then for all: cables and findings take longer
// than most verdicts, and a refusal needs neither.
type known struct {
	fed struct {
		sync.Once
		unfed map[feed]bool
		power string
	}
	wired struct {
		sync.Once
		kit     []wiring.KitCable
		blocked map[string]bool
	}
	checked struct {
		sync.Once
		findings map[string]bool
	}
}

// feed is a unit in a line-up.
type feed struct{ lineup, unit string }

// unfed returns the units that have no output as it is, and the verdict of the
// power map.
func (b *Bench) unfed() (map[feed]bool, string) {
	k := &b.known.fed
	k.Do(func() {
		q := b.plan.Clone()
		k.power, k.unfed = power.Apply(q), map[feed]bool{}
		for i := range q.Lineups {
			for _, id := range unfed(q, &q.Lineups[i]) {
				k.unfed[feed{q.Lineups[i].Name, id}] = true
			}
		}
	})
	return k.unfed, k.power
}

// kit returns the cables that there are, and those without a way as it is.
func (b *Bench) kit() ([]wiring.KitCable, map[string]bool) {
	k := &b.known.wired
	k.Do(func() {
		w := wiring.Wire(b.plan)
		k.kit, k.blocked = w.Kit, map[string]bool{}
		for _, l := range w.Wirings {
			for _, c := range l.Cables {
				if c.Blocked != "" {
					k.blocked[cableName(&c)] = true
				}
			}
		}
	})
	return k.kit, k.blocked
}

// findings returns what the check finds as it is.
func (b *Bench) findings() map[string]bool {
	k := &b.known.checked
	k.Do(func() {
		k.findings = map[string]bool{}
		for i, r := range check.All(b.plan) {
			for _, f := range r.Findings {
				k.findings[findingKey(b.plan.Lineups[i].Name, &f)] = true
			}
		}
	})
	return k.findings
}

// alone is the bench for one of several questions at a time.
func (b *Bench) alone() *Bench {
	c := *b
	c.opt.Workers = 1
	return &c
}

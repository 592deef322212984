package power

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// edited changes one thing of a plan that the map may depend on, or not.
func edited(t *rapid.T, p *layout.Plan) *layout.Plan {
	q := p.Clone()
	u := &q.Units[rapid.IntRange(0, len(q.Units)-1).Draw(t, "unit")]
	l := &q.Lineups[rapid.IntRange(0, len(q.Lineups)-1).Draw(t, "line-up")]
	switch rapid.IntRange(0, 6).Draw(t, "edit") {
	case 0, 1:
		at := layout.Point{X: layout.Length(rapid.IntRange(0, 400).Draw(t, "x")) * layout.Millimetre}
		u.Place = &layout.Placement{On: layout.DeckName, At: at}
	case 2:
		q.Power.Sharing = !q.Power.Sharing
	case 3:
		q.Power.Headroom = 30 - q.Power.Headroom
	case 4:
		if u.Draw != nil {
			d := *u.Draw
			d.Milliamps, d.Isolated, d.CentrePositive = 200-d.Milliamps, !d.Isolated, rapid.Bool().Draw(t, "positive")
			u.Draw = &d
		}
	case 5:
		if u.Supplies() {
			u.Milliwatts = 5000 - u.Milliwatts
			u.Outputs[0].Isolated = !u.Outputs[0].Isolated
		}
	default:
		if n := len(l.Fill["s"]); n > 0 {
			l.Fill["s"] = l.Fill["s"][:n-1]
		}
	}
	return q
}

// However a plan is edited, what was remembered is what is found anew.
func TestMapFromMemoryIsMapAnew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		for range rapid.IntRange(2, 6).Draw(t, "edits") {
			from, applied := mapped(t, p), p.Clone()
			said := Apply(applied)
			answers.Forget()
			require.Equal(t, from, mapped(t, p))
			fresh := p.Clone()
			require.Equal(t, said, Apply(fresh))
			require.Equal(t, fresh.Feeds, applied.Feeds)
			p = edited(t, p)
			mapped(t, p)
			Apply(p)
		}
	})
}

// What a search looks at is all in its question: of many plans, no two whose
// searches differ are asked the same. The answers are remembered across them.
func TestMemoryAcrossPlans(t *testing.T) {
	var plans []*layout.Plan
	rapid.Check(t, func(t *rapid.T) { plans = append(plans, small(t)) })
	answers.Forget()
	var kept []string
	for _, p := range plans {
		kept = append(kept, fmt.Sprintf("%+v", mapped(t, p)))
	}
	for i, p := range plans {
		answers.Forget()
		require.Equal(t, fmt.Sprintf("%+v", mapped(t, p)), kept[i])
	}
}

// One unit of a large board goes to and fro by a millimetre, or nothing changes.
func BenchmarkMapAfterAMove(b *testing.B) {
	for i, p := 0, tourBoard(1); b.Loop(); i++ {
		p.Units[20].Place.At.X = layout.Length(i%600) * layout.Millimetre
		mapped(b, p)
	}
}

func BenchmarkMapAgain(b *testing.B) {
	for p := tourBoard(1); b.Loop(); {
		mapped(b, p)
	}
}

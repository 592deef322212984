package tryout

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/plan"
	"footplank/pack"
)

// arrangedExample is the built-in example with everything at its place.
func arrangedExample(b *testing.B) *layout.Plan {
	b.Helper()
	for _, e := range plan.Examples() {
		if e.Name != plan.BuiltinExample {
			continue
		}
		d, err := plan.Parse(e.Name, e.Source, nil)
		require.NoError(b, err)
		res, err := arrange.Arrange(context.Background(), d.Plan, arrange.Options{Seed: 1, Steps: 80_000, DecideSteps: 80_000})
		require.NoError(b, err)
		require.Equal(b, pack.Fits, res.Verdict)
		return res.Plan
	}
	b.Fatal("no built-in example")
	return nil
}

// BenchmarkOne asks about each form of the catalog by itself, from a plan that
// nothing is known of yet; it reports the median.
func BenchmarkOne(b *testing.B) {
	p := arrangedExample(b)
	forms := FromCatalog(catalog.Builtin())
	for _, c := range []struct{ name, instead string }{{"instead", "grit"}, {"added", ""}} {
		b.Run(c.name, func(b *testing.B) {
			var took []time.Duration
			for i := 0; b.Loop(); i++ {
				began := time.Now()
				_, err := Try(context.Background(), p, Question{Candidate: forms[i%len(forms)], Slot: "colour", InsteadOf: c.instead, Lineups: []string{"barn"}},
					Options{Seed: 1, Steps: 20_000})
				if err != nil {
					b.Fatal(err)
				}
				took = append(took, time.Since(began))
			}
			slices.Sort(took)
			b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "median-ms")
			b.ReportMetric(float64(took[len(took)*9/10].Microseconds())/1000, "p90-ms")
		})
	}
}

// BenchmarkCatalog asks about all forms at once, both ways round.
func BenchmarkCatalog(b *testing.B) {
	p := arrangedExample(b)
	for _, c := range []struct{ name, instead string }{{"instead", "grit"}, {"added", ""}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				bench, err := Prepare(context.Background(), p, Options{Seed: 1, Steps: 20_000, Brief: true})
				if err != nil {
					b.Fatal(err)
				}
				var qs []Question
				for _, f := range FromCatalog(catalog.Builtin()) {
					qs = append(qs, Question{Candidate: f.Turned([]int{0, 90}), Slot: "colour", InsteadOf: c.instead, Lineups: []string{"barn"}})
				}
				if _, err := bench.TryAll(context.Background(), qs, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

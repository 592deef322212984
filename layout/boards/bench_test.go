package boards

import (
	"context"
	"testing"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"

	"github.com/stretchr/testify/require"
)

const mm = layout.Millimetre

func example(t testing.TB, name string) *layout.Plan {
	for _, e := range plan.Examples() {
		if e.Name == name {
			doc, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
			require.NoError(t, err)
			return doc.Plan
		}
	}
	t.Fatalf("no example %s", name)
	return nil
}

// twenty are sizes about that of the example's board.
func twenty() []Candidate {
	var sizes []layout.Size
	for _, w := range []layout.Length{480, 520, 560, 600, 640} {
		for _, d := range []layout.Length{270, 300, 330, 360} {
			sizes = append(sizes, layout.Size{W: w * mm, D: d * mm})
		}
	}
	return Sizes(sizes...)
}

// BenchmarkTwentySizes is the figure that players wait for: 20 sizes with the
// three line-ups of the example.
func BenchmarkTwentySizes(b *testing.B) {
	p := example(b, "ceilidh")
	for b.Loop() {
		r, err := Compare(context.Background(), p, twenty(), Options{Seed: 1})
		require.NoError(b, err)
		fit, no := 0, 0
		for _, x := range r.Boards {
			if x.fits() {
				fit++
			} else if x.Why != "" {
				no++
			}
		}
		b.ReportMetric(float64(fit), "fit")
		b.ReportMetric(float64(no), "impossible")
	}
}

func BenchmarkStaircase(b *testing.B) {
	p := example(b, "pocket")
	for b.Loop() {
		r, err := Staircase(context.Background(), p, 20*mm, layout.Size{}, Options{Seed: 1})
		require.NoError(b, err)
		b.ReportMetric(float64(len(r.Boards)), "boards")
		b.ReportMetric(float64(len(r.Corners)), "corners")
	}
}

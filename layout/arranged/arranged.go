// Package arranged is for tests: it has plans in which every unit has a place.
//
// It knows plan files and the arranger, and nothing of what is tested on its
// plans.
package arranged

import (
	"context"
	"testing"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/plan"
	"footplank/pack"
)

// Example returns the first of the built-in examples with every unit in a place
// that the arranger calls a fit.
func Example(tb testing.TB) *layout.Plan {
	tb.Helper()
	e := plan.Examples()[0]
	d, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
	if err != nil {
		tb.Fatal(err)
	}
	r, err := arrange.Arrange(context.Background(), d.Plan, arrange.Options{FirstFit: true})
	if err != nil || r.Verdict != pack.Fits {
		tb.Fatalf("%s: %v %v", e.Name, r.Verdict, err)
	}
	return r.Plan
}

package mount_test

import (
	"context"
	"testing"

	"footplank/catalog"
	"footplank/layout/arrange"
	"footplank/layout/mount"
	"footplank/layout/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The examples, arranged: nothing comes off, whatever the arranger answers.
func TestExamplesHold(t *testing.T) {
	for _, e := range plan.Examples() {
		d, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
		require.NoError(t, err)
		r, err := arrange.Arrange(context.Background(), d.Plan, arrange.Options{FirstFit: true})
		require.NoError(t, err)
		if r.Plan == nil {
			continue
		}
		laid := mount.Lay(r.Plan)
		assert.NotEmpty(t, laid.Board, e.Name)
		for _, i := range laid.Issues {
			assert.False(t, i.Fault, "%s: %s", e.Name, i.Text)
		}
		assert.Equal(t, laid, mount.Lay(r.Plan.Clone()), "the same plan, the same pieces")
	}
}

// BenchmarkLay lays the fastener of the built-in example's three line-ups; the
// editor does it at every key press.
func BenchmarkLay(b *testing.B) {
	e := plan.Examples()[0]
	d, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
	require.NoError(b, err)
	r, err := arrange.Arrange(context.Background(), d.Plan, arrange.Options{FirstFit: true})
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		mount.Lay(r.Plan)
	}
}

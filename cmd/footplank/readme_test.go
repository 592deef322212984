package main

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout/plan"
)

// The plan with every key, and the catalog of one's own, must be readable as
// README.md gives them.
func TestReadmePlanAndCatalog(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root(t), "README.md"))
	require.NoError(t, err)
	plans, catalogs := 0, 0
	for _, m := range regexp.MustCompile("(?ms)^```toml( catalog)?\n(.*?)^```$").FindAllSubmatch(text, -1) {
		if len(m[1]) == 0 {
			plans++
			_, err := plan.Parse("README.md", m[2], catalog.Builtin())
			assert.NoError(t, err)
			continue
		}
		catalogs++
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "own.toml"), m[2], 0o666))
		c, err := catalog.Load(dir)
		if assert.NoError(t, err) {
			_, ok := c.Unit("tall-box")
			assert.True(t, ok)
		}
	}
	assert.Equal(t, []int{1, 1}, []int{plans, catalogs}, "plans and catalogs found")
}

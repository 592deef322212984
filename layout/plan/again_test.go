package plan_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/plan"
)

func TestFileThatChanges(t *testing.T) {
	path := filepath.Join(t.TempDir(), "board.toml")
	text := plan.Examples()[0].Source
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	d, err := plan.Open(path, nil)
	require.NoError(t, err)
	changed, err := d.Changed()
	require.NoError(t, err)
	assert.False(t, changed)

	d.Plan.Title = "mine"
	changed, err = d.Changed()
	require.NoError(t, err)
	assert.False(t, changed, "what is in memory is not the file")

	require.NoError(t, os.WriteFile(path, []byte(string(text)+"\n# from elsewhere\n"), 0o644))
	changed, err = d.Changed()
	require.NoError(t, err)
	assert.True(t, changed)
	require.NoError(t, d.Reopen())
	changed, err = d.Changed()
	require.NoError(t, err)
	assert.False(t, changed)
	assert.NotEqual(t, "mine", d.Plan.Title)

	require.NoError(t, os.WriteFile(path, []byte("[["), 0o644))
	title := d.Plan.Title
	assert.Error(t, d.Reopen())
	assert.Equal(t, title, d.Plan.Title, "a file that cannot be read changes nothing")

	require.NoError(t, os.Remove(path))
	changed, err = d.Changed()
	require.NoError(t, err)
	assert.True(t, changed)
}

func TestReadAnotherText(t *testing.T) {
	d, err := plan.Parse("one", []byte(plan.Examples()[0].Source), nil)
	require.NoError(t, err)
	q, err := d.Read([]byte(plan.Examples()[1].Source))
	require.NoError(t, err)
	assert.NotEqual(t, d.Plan.Title, q.Plan.Title)
	_, err = d.Read([]byte("[board]\nsize = 7\n"))
	assert.ErrorContains(t, err, "one:")
}

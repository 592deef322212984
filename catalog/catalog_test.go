package catalog

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBuiltinLoads(t *testing.T) {
	_, err := assemble(embedded())
	require.NoError(t, err)
	c := Builtin()
	require.NotEmpty(t, c.Units())
	require.NotEmpty(t, c.Plugs())
	require.NotEmpty(t, c.Materials())
	require.NotEmpty(t, c.Boards())
	require.NotEmpty(t, c.Fasteners())
}

package route

import (
	"flag"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var long = flag.Bool("long", false, "check slow properties on as many random cases as quick ones")

// fewer checks a slow property on n random cases, with -long on as many as any
// other.
func fewer(t *testing.T, n int, property func(*rapid.T)) {
	t.Helper()
	if checks := flag.Lookup("rapid.checks").Value; !*long {
		usual := checks.String()
		require.NoError(t, checks.Set(strconv.Itoa(n)))
		defer func() { require.NoError(t, checks.Set(usual)) }()
	}
	rapid.Check(t, property)
}

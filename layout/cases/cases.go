// Package cases is for tests: it says on how many random cases a property is
// checked that takes long.
//
// It knows nothing of the program.
package cases

import (
	"flag"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

var long = flag.Bool("long", false, "check slow properties on as many random cases as quick ones")

// Fewer checks a slow property on n random cases, with -long on as many as any
// other.
func Fewer(t *testing.T, n int, property func(*rapid.T)) {
	t.Helper()
	if checks := flag.Lookup("rapid.checks").Value; !*long {
		usual := checks.String()
		set(t, checks, strconv.Itoa(n))
		defer set(t, checks, usual)
	}
	rapid.Check(t, property)
}

func set(t *testing.T, v flag.Value, to string) {
	t.Helper()
	if err := v.Set(to); err != nil {
		t.Fatalf("-rapid.checks %s: %v", to, err)
	}
}

package catalog

import "testing"

// The catalog is read at every start of the program.
func BenchmarkBuiltin(b *testing.B) {
	for b.Loop() {
		if _, err := assemble(embedded()); err != nil {
			b.Fatal(err)
		}
	}
}

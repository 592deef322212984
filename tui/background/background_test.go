package background

import (
	"go/parser"
	"go/token"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type here struct{}

// What the package is for rests on its import path and on its imports: see its
// documentation.
func TestInitComesBeforeTheTerminalLibrary(t *testing.T) {
	assert.Less(t, reflect.TypeFor[here]().PkgPath(), "github.com/charmbracelet/bubbletea")
	f, err := parser.ParseFile(token.NewFileSet(), "background.go", nil, parser.ImportsOnly)
	require.NoError(t, err)
	var imports []string
	for _, i := range f.Imports {
		imports = append(imports, i.Path.Value)
	}
	assert.Equal(t, []string{`"github.com/charmbracelet/lipgloss"`}, imports)
}

package plan

import (
	"embed"
	"path"
	"slices"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"
)

//go:embed examples/*.toml
var exampleFiles embed.FS

// BuiltinExample is the name of the example that the program opens on.
const BuiltinExample = "ceilidh"

// Example is a plan that comes with the program.
type Example struct {
	Name   string // "ceilidh"
	Title  string
	Source []byte
}

// Examples returns the plans that come with the program: the built-in example
// first, the others by name.
func Examples() []Example {
	list := slices.Clone(examples())
	for i := range list {
		list[i].Source = slices.Clone(list[i].Source)
	}
	return list
}

var examples = sync.OnceValue(func() []Example {
	files, err := exampleFiles.ReadDir("examples")
	if err != nil {
		panic("plan: the examples are not embedded: " + err.Error())
	}
	var list []Example
	for _, f := range files {
		src, err := exampleFiles.ReadFile("examples/" + f.Name())
		if err != nil {
			panic("plan: an example is not embedded: " + err.Error())
		}
		var head struct{ Title string }
		if _, err := toml.Decode(string(src), &head); err != nil {
			panic("plan: a broken example: " + err.Error())
		}
		list = append(list, Example{strings.TrimSuffix(f.Name(), path.Ext(f.Name())), head.Title, src})
	}
	slices.SortFunc(list, func(a, b Example) int {
		if first := (b.Name == BuiltinExample); first != (a.Name == BuiltinExample) {
			if first {
				return 1
			}
			return -1
		}
		return strings.Compare(a.Name, b.Name)
	})
	return list
})

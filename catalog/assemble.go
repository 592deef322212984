package catalog

import (
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"footplank/layout"
)

//go:embed units.toml supplies.toml plugs.toml boards.toml materials.toml fasteners.toml
var files embed.FS

// source is one catalog file. Files of one layer may not name the same form
// twice; a later layer replaces forms of an earlier one.
type source struct {
	file  string
	layer int
	src   []byte
}

func embedded() []source {
	list, _ := fs.Glob(files, "*.toml")
	var out []source
	for _, name := range list {
		src, err := files.ReadFile(name)
		if err != nil {
			panic(err)
		}
		out = append(out, source{"built-in " + name, 0, src})
	}
	return out
}

// UserDir returns the folder of the player's own catalog: footplank in
// $XDG_CONFIG_HOME, or in ~/.config where that is not set or not absolute. It
// is "" when there is no home folder either.
func UserDir() string {
	if x := os.Getenv("XDG_CONFIG_HOME"); filepath.IsAbs(x) {
		return filepath.Join(x, "footplank")
	}
	home, err := os.UserHomeDir()
	if err != nil || home == "" {
		return ""
	}
	return filepath.Join(home, ".config", "footplank")
}

// Load returns the built-in catalog with what the *.toml files of a folder add
// and replace. A folder that is not there, or "", adds nothing. Whatever is
// wrong in the files is in the error, of type Errors.
func Load(dir string) (*Catalog, error) {
	if dir == "" {
		return Builtin(), nil
	}
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return Builtin(), nil
	}
	if err != nil {
		return nil, Errors{{File: dir, Msg: "cannot read the folder of your own catalog: " + reason(err) + ": mend that, or move it away"}}
	}
	var own []source
	var errs Errors
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") || filepath.Ext(e.Name()) != ".toml" {
			continue
		}
		name := filepath.Join(dir, e.Name())
		src, err := readFile(name)
		if err != nil {
			errs = append(errs, Error{File: name, Msg: "cannot read it: " + reason(err) + ": every .toml file here is read as a catalog, so mend it or take it away"})
			continue
		}
		own = append(own, source{name, 1, src})
	}
	if len(own)+len(errs) == 0 {
		return Builtin(), nil
	}
	c, err := assemble(append(embedded(), own...))
	if err != nil {
		errs = append(errs, err.(Errors)...)
	}
	if len(errs) > 0 {
		errs.sort()
		return nil, errs
	}
	return c, nil
}

// readFile reads a plain file, and of a long one just enough to see that it is
// too long.
func readFile(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("not a plain file")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, maxFile+1))
}

// reason is an error without the path, which the message names already.
func reason(err error) string {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err.Error()
	}
	return err.Error()
}

// assembly is a catalog in the making.
type assembly struct {
	c     *Catalog
	texts []*text
	layer int
	first map[string]first // kind and name -> where it was named
	// late are look-ups that wait until all files are read.
	late []func(*Catalog)
}

type first struct {
	layer int
	where string
}

// assemble reads the files, those of lower layers first.
func assemble(list []source) (*Catalog, error) {
	a := &assembly{first: map[string]first{}, c: &Catalog{
		units: map[string]*UnitForm{}, plugs: map[string]*PlugForm{}, materials: map[string]*Material{},
		boards: map[string]*BoardForm{}, fasteners: map[string]*Fastener{}, defaults: map[layout.JackKind]string{},
	}}
	for _, s := range list {
		t := readText(s.file, s.src)
		a.texts, a.layer = append(a.texts, t), s.layer
		if t.root != nil {
			a.file(t)
		}
	}
	a.defaults()
	for _, look := range a.late {
		look(a.c)
	}
	var errs Errors
	for _, t := range a.texts {
		errs = append(errs, t.errs...)
	}
	if len(errs) > 0 {
		errs.sort()
		return nil, errs
	}
	return a.c, nil
}

func (a *assembly) file(t *text) {
	top := &table{t: t, what: "catalog", m: t.root}
	a.each(top, "form", func(tb *table, name string) {
		a.c.units[name] = a.unitForm(tb, name)
	})
	a.each(top, "plug", func(tb *table, name string) {
		f := plugForm(tb)
		f.Name = name
		if old, ok := a.c.plugs[name]; ok && old.Kind != f.Kind {
			tb.errKey("kind", "kind: it replaces a plug of kind %q, and jacks use it: want the same kind or another name", old.Kind)
			return
		}
		a.c.plugs[name] = f
	})
	a.each(top, "material", func(tb *table, name string) {
		f := material(tb)
		f.Name = name
		a.c.materials[name] = f
	})
	a.each(top, "board", func(tb *table, name string) {
		f := a.boardForm(tb)
		f.Name = name
		a.c.boards[name] = f
	})
	a.each(top, "fastener", func(tb *table, name string) {
		f := fastener(tb)
		f.Name = name
		a.c.fasteners[name] = f
	})
	top.end()
}

// each calls take for every table of a kind that has a name of its own.
func (a *assembly) each(top *table, kind string, take func(tb *table, name string)) {
	v, ok := top.get(kind)
	if !ok {
		return
	}
	for _, tb := range top.t.tables(kind, kind, v) {
		name := tb.str("name")
		if name == "" || strings.ContainsFunc(name, func(r rune) bool { return r <= ' ' || r == 0x7f }) || len(name) > 64 {
			tb.errKey("name", "name: found %s, want a name of at most 64 letters without spaces", found(name))
			name = ""
		} else {
			tb.what += fmt.Sprintf(" %q", name)
		}
		key := kind + " " + name
		if f, ok := a.first[key]; ok && f.layer == a.layer && name != "" {
			tb.errKey("name", "this name is taken at %s", f.where)
		}
		a.first[key] = first{a.layer, tb.t.where(join(tb.path, "name"))}
		take(tb, name)
	}
}

func (t *text) where(path string) string {
	at := t.offset(path)
	return fmt.Sprintf("%s:%d", t.file, strings.Count(string(t.src[:at]), "\n")+1)
}

// defaults finds each kind's default plug: the player's own before a built-in.
func (a *assembly) defaults() {
	best := map[layout.JackKind]int{}
	for _, p := range a.c.Plugs() {
		layer := a.first["plug "+p.Name].layer + 1
		if p.Default && layer > best[p.Kind] {
			best[p.Kind] = layer
			a.c.defaults[p.Kind] = p.Name
		}
	}
}

func names[F any](m map[string]F) []string { return slices.Sorted(maps.Keys(m)) }

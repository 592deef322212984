package catalog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// form is a sound form, with a line put in at its end or, as "key = ", instead
// of its own line of that key.
func form(line string) string {
	lines := []string{"[[form]]", `name = "a"`, "body = [70, 120, 50]", "mass = 400"}
	key, _, _ := strings.Cut(line, "=")
	for i, l := range lines {
		if strings.HasPrefix(l, strings.TrimSpace(key)+" =") {
			lines[i] = line
			return strings.Join(lines, "\n")
		}
	}
	return strings.Join(append(lines, line), "\n")
}

func TestErrors(t *testing.T) {
	jack := func(s string) string { return form("jack = [{ " + s + " }]") }
	for _, c := range []struct{ name, src, want string }{
		{"not TOML", "[[form]]\nname = ", "2:7: "},
		{"binary", "\x00\x01\xff\xfe", "1:1: "},
		{"key twice", "[[form]]\nname = \"a\"\nname = \"b\"", "3:1: "},
		{"unknown table", "[[forms]]\n", `1:3: catalog: unknown key "forms", did you mean "form"?`},
		{"one table for many", "form = 3", `1:8: form: found 3, want tables, each headed [[...]]`},
		{"single brackets", "[form]\nname = \"a\"", `1:2: form: found a table, want tables, each headed [[...]]`},
		{"table wanted", form("draw = 12"), `5:8: form "a": draw: found 12, want a table`},
		{"no name", "[[plug]]\nkind = \"phone\"\nout = 10\nwidth = 9", `1:3: plug: name: found ""`},
		{"name with spaces", form(`name = "my own"`), `2:8: form: name: found "my own", want a name of at most 64 letters without spaces`},
		{"name twice", form("") + "\n" + form(""), `7:8: form "a": this name is taken at x.toml:2`},
		{"unknown key", form("wieght = 3"), `5:1: form "a": unknown key "wieght", `},
		{"near key", form("swich = 3"), `5:1: form "a": unknown key "swich", did you mean "switch"?`},
		{"no body", "[[form]]\nname = \"a\"\nmass = 3", `1:3: form "a": no "body" given`},
		{"two of three", form("body = [70, 120]"), `3:1: form "a": body: found 2 of them, want a list of 3 lengths`},
		{"bad unit", form(`body = [70, "12 stone", 50]`), `3:13: form "a": body: length "12 stone": unknown unit "stone", want`},
		{"negative size", form("body = [70, -120, 50]"), `3:13: form "a": body: found -120mm, want 1mm to 2000mm`},
		{"absurd size", form("body = [70, 120, 1e300]"), `3:18: form "a": body: length`},
		{"NaN", form("body = [nan, 120, 50]"), `3:9: form "a": body: length`},
		{"text for a list", form(`body = "70x120x50"`), `3:8: form "a": body: found "70x120x50", want a list of 3 lengths`},
		{"smaller overall", form("overall = [70, 100, 50]"), `5:1: form "a": overall: smaller than the body`},
		{"bad mass", form(`mass = "2 stone"`), `4:8: form "a": mass "2 stone": unknown unit "stone", want a number and g, kg, oz or lb`},
		{"negative mass", form(`mass = -3`), `4:8: form "a": mass: found "-3", want no less than 0`},
		{"mass of truth", form(`mass = true`), `4:8: form "a": mass: found true, want a mass`},
		{"flag", form(`treadle = "yes"`), `5:11: form "a": treadle: found "yes", want true or false`},
		{"column in characters", form(`switch = [{ name = "Öl", at = [3, "x"], height = 5 }]`), `5:35: form "a": switch`},
		{"wall", jack(`id = "in", dir = "in", wall = "lefft", along = 3`), `5:41: form "a": jack "in": wall: found "lefft", did you mean "left"?`},
		{"no id", jack(`dir = "in", wall = "left", along = 3`), `id: want a name like "in", "out" or "dc"`},
		{"jack outside", jack(`id = "in", dir = "in", wall = "back", along = 71`), `jack "in": along: found 71mm, want 0mm to 70mm`},
		{"a long word, cut between letters", form(`treadle = "` + strings.Repeat("é", 50) + `"`), `treadle: found "` + strings.Repeat("é", 40) + `...", want true or false`},
		{"no direction", jack(`id = "in", wall = "back", along = 7`), `jack "in": no "dir" given`},
		{"kind", jack(`id = "in", kind = "phono", dir = "in", wall = "back", along = 7`), `kind: found "phono", did you mean "phone"?`},
		{"plug", jack(`id = "in", dir = "in", wall = "back", along = 7, plug = "phone-flatt"`), `jack "in": no plug "phone-flatt", did you mean "phone-flat"?`},
		{"plug of another kind", jack(`id = "in", dir = "in", wall = "back", along = 7, plug = "dc-straight"`), `plug "dc-straight" is of kind "dc", the jack is "phone": want "phone-flat", "phone-right-angle" or "phone-straight"`},
		{"leg", jack(`id = "in", dir = "in", wall = "back", along = 7, leg = "front"`), `leg: found "front", want "up", "down", "left" or "right"`},
		{"range upside down", form("draw = { volts = 12, max_volts = 9, milliamps = 3 }"), `draw: max_volts: found 9, want more than its volts, 12`},
		{"mains without volts", form("mains = { hertz = 50 }"), `mains: no "volts" given`},
		{"mains upside down", form("mains = { volts = 230, max_volts = 120 }"), `mains: max_volts: found 120, want no less than its volts, 230`},
		{"draw without jack", form("draw = { milliamps = 3 }"), `5:8: form "a": draw: it has no jack of signal "power" and dir "in" to draw by`},
		{"milliamps", form("draw = { milliamps = 2.5 }"), `5:22: form "a": draw: milliamps: found 2.5, want a whole number`},
		{"volts", form("draw = { volts = 230, milliamps = 3 }"), `draw: volts: found 230, want 0.1 to 60`},
		{"current", form(`draw = { milliamps = 3, current = "AC" }`), `current: found "AC", did you mean "ac"?`},
		{"output", form(`output = [{ jack = "out1", milliamps = 3 }]`), `jack: found "out1", want one that gives power: there is none`},
		{"switch", form(`switch = [{ at = [80, 3] }]`), `switch: at: 80mm, 3mm is outside the body of 70mm x 120mm`},
		{"sweep", form(`sweep = { from = 50, top = 50 }`), `sweep: top: found 50mm, want more than its start at 50mm`},
		{"status", form(`status = { body = "guessed" }`), `status: body: found "guessed", want "read", "computed", "from memory" or "common practice"`},
		{"status of nothing", form(`status = { draw = "read" }`), `status: "draw" is not given here, so it has no status`},
		{"source alone", form(`source = { body = "my rule" }`), `source: "body" has a source but no status`},
		{"date", form(`summary = 2024-01-01`), `summary: found a date, want text in quotes`},
		{"material", "[[board]]\nname = \"b\"\nsize = [300, 200]\nmaterial = \"stel\"", `4:12: board "b": no material "stel", did you mean "steel"?`},
		{"weightless", "[[board]]\nname = \"b\"\nsize = [300, 200]", `want a material or a mass`},
		{"rails missing", "[[board]]\nname = \"b\"\nsize = [300, 200]\nsurface = \"rails\"\nmass = 3", `surface: "rails" wants at least one [[board.rail]]`},
		{"rail outside", "[[board]]\nname = \"b\"\nsize = [300, 200]\nsurface = \"rails\"\nmass = 3\nrail = [{ at = [0, 180], size = [300, 30] }]", `reaches to 300mm, 210mm, beyond the board's 300mm x 200mm`},
		{"small case", "[[board]]\nname = \"b\"\nsize = [300, 200]\nmass = 3\ncase = { inside = [290, 210, 90] }", `inside: 290mm x 210mm does not hold the board of 300mm x 200mm`},
		{"density", "[[material]]\nname = \"m\"\ndensity = inf", `density: found +Inf, want 1 to 25000`},
		{"kind of a built-in plug", "[[plug]]\nname = \"phone-flat\"\nkind = \"dc\"\nout = 10\nwidth = 9", `3:8: plug "phone-flat": kind: it replaces a plug of kind "phone"`},
		{"deep nesting", "a = " + strings.Repeat("[", 500) + strings.Repeat("]", 500), `nested more than 8 deep`},
		{"very deep nesting", "a = " + strings.Repeat("[", 1<<19), "1:"},
		{"long key", strings.Repeat("a.", 5000) + "b = 1", `1:17: key of more than 8 parts`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := assemble(append(embedded(), source{"x.toml", 1, []byte(c.src)}))
			var errs Errors
			require.ErrorAs(t, err, &errs)
			assert.Contains(t, err.Error(), c.want)
			for i, e := range errs {
				assert.NotContains(t, errs[:i], e, "said twice")
				assert.Equal(t, "x.toml", e.File, "%s", e)
				assert.Positive(t, e.Line)
				assert.Positive(t, e.Col)
			}
		})
	}
}

func TestAllErrorsAtOnceInOrder(t *testing.T) {
	src := "[[form]]\nname = \"a\"\nbody = [0, 1, 2]\nmass = \"x\"\nshape = 1\n[[board]]\nname = \"b\"\n"
	_, err := assemble(append(embedded(), source{"x.toml", 1, []byte(src)}))
	var errs Errors
	require.ErrorAs(t, err, &errs)
	var at []int
	for _, e := range errs {
		at = append(at, e.Line)
	}
	assert.Equal(t, []int{3, 4, 5, 6, 6}, at)
}

func TestNearest(t *testing.T) {
	for found, want := range map[string]string{
		"swtich": "switch", "SWITCH": "switch", "jak": "jack", "x": "", "": "", "bodyy": "body", "trombone": "",
	} {
		assert.Equal(t, want, Nearest(found, []string{"jack", "switch", "body"}), found)
	}
	words := []string{"width", "depth", "height"}
	for found, want := range map[string]string{"widht": "width", "dept": "depth", "heigth": "height", "WIDTH": "width", "mass": "", strings.Repeat("w", 1000): ""} {
		assert.Equal(t, want, Nearest(found, words), found)
	}
	assert.Equal(t, "low", Nearest("lw", []string{"low", "law"}), "of several the first")
	assert.Equal(t, 3, distance("kitten", "sitting", 9))
	assert.Equal(t, 1, distance("ab", "ba", 9), "neighbours swapped are one slip")
	assert.Equal(t, 2, distance("kitten", "sitting", 2), "no more than the limit")
}

// FuzzOverlay feeds the reader anything: it never panics, and says where.
func FuzzOverlay(f *testing.F) {
	// Short seeds: the fuzzer spends its time on making long ones shorter.
	f.Add([]byte(squeeze))
	f.Add([]byte("[[board]]\nname = \"b\"\nsize = [300, 200]\nmass = 3\nriser = [{ name = \"s\", at = [0, 0], size = [9, 9], height = 9 }]"))
	f.Add([]byte("[[fastener]]\nname = \"f\"\nkind = \"interlock\"\nwidths = [20]\nstrength_kpa = 9"))
	f.Add([]byte("[[plug]]\nname = \"p\"\nkind = \"dc\"\nout = 9\nwidth = 9\n[[material]]\nname = \"m\"\ndensity = 9"))
	f.Add([]byte(form(`jack = [{ id = "in", "" = 3 }]`)))
	f.Add([]byte("\"\" = 1\n[\"\"]\n[[a.\"\"]]"))
	// Only the plugs and materials, so that a round is quick.
	var base []source
	for _, s := range embedded() {
		if s.file == "built-in plugs.toml" || s.file == "built-in materials.toml" {
			base = append(base, s)
		}
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		c, err := assemble(append(base[:len(base):len(base)], source{"x.toml", 1, src}))
		if err == nil {
			for _, u := range c.Units() {
				u.Unit.Boxes(1, func(string) bool { return true })
			}
			return
		}
		for _, e := range err.(Errors) {
			if e.File != "x.toml" || e.Line < 1 && !strings.Contains(e.Msg, "longer than") || e.Msg == "" {
				t.Errorf("error without a place: %v", e)
			}
		}
	})
}

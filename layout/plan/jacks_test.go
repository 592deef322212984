package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// aboutJacks is a plan with one unit of a form, which says a line of its own.
func aboutJacks(form, line string) []byte {
	return []byte("[board]\nsize = [560, 330]\nmass = 1000\n[[unit]]\nid = \"u\"\nform = \"" + form + "\"\n" + line)
}

// A unit need not have all jacks of its form, nor in the form's order.
func TestWhichJacks(t *testing.T) {
	for line, want := range map[string][]string{
		"":                      {"in", "out", "dc"},
		`jacks = ["out", "in"]`: {"out", "in"},
		`jacks = []`:            nil,
		"jacks = [\"di\", \"in\", \"out\"]\n[[unit.jack]]\nid = \"di\"\nkind = \"xlr\"\ndir = \"out\"\nwall = \"front\"\nalong = 9\nheight = 9": {"di", "in", "out"},
	} {
		d, err := Parse("p", aboutJacks("compact", line), nil)
		require.NoError(t, err, line)
		var ids []string
		for _, j := range d.Plan.Units[0].Jacks {
			ids = append(ids, j.ID)
		}
		assert.Equal(t, want, ids, line)
	}
}

// Outputs of the form at jacks that the unit does not have are not there either.
func TestOutputsGoWithTheirJacks(t *testing.T) {
	d, err := Parse("p", aboutJacks("supply-slim", `jacks = ["dc", "out1", "out3"]`), nil)
	require.NoError(t, err)
	var at []string
	for _, o := range d.Plan.Units[0].Outputs {
		at = append(at, o.Jack)
	}
	assert.Equal(t, []string{"out1", "out3"}, at)
}

func TestWrongJacks(t *testing.T) {
	for line, want := range map[string]string{
		`jacks = "in"`:                `jacks: found "in", want a list of the jacks that it has`,
		`jacks = ["in", "ot"]`:        `p:7:16: unit "u": jacks: found "ot", which is no jack of the unit or its form: did you mean "out"?`,
		`jacks = ["in", "in"]`:        `jacks: "in" is given twice`,
		`jacks = [3]`:                 `jacks: found 3`,
		"[[unit.jacks]]\nid = \"in\"": `want a list of the jacks that it has, like ["in", "out"]; what there is to say of one stands under [[unit.jack]]`,
		"jacks = [\"in\"]\n[[unit.jack]]\nid = \"out\"\nalong = 9": `p:8:1: unit "u": jack "out": told of here, but not among the jacks that the unit has (line 7)`,
		"jacks = [\"in\"]\nuses = [\"out\"]":                       `uses: found "out", which is no jack of the unit`,
		"jacks = [\"in\"]\ndraw = { milliamps = 9 }":               `the unit has no jack to draw by`,
	} {
		_, err := Parse("p", aboutJacks("compact", line), nil)
		assert.ErrorContains(t, err, want, line)
	}
	// The chain, links and outputs refer to jacks that are there only.
	for rest, want := range map[string]string{
		"[chain]\norder = [\"instrument\", \"u\", \"amp\"]":                     `out`,
		"[[chain.link]]\nfrom = \"u/out\"\nto = \"amp\"":                        `"out"`,
		"[[unit]]\nid = \"v\"\nform = \"compact\"\ndraw = { feed = \"u/out\" }": `has no output "out"`,
	} {
		_, err := Parse("p", aboutJacks("compact", "jacks = [\"in\"]\n"+rest), nil)
		assert.ErrorContains(t, err, want, rest)
	}
}

// What a form has and the unit has not is said in the text, and no more than that.
func TestWithoutPartsOfTheForm(t *testing.T) {
	for _, c := range []struct {
		form   string
		change func(u *layout.Unit)
		want   string
	}{
		{"compact", func(u *layout.Unit) { u.Jacks, u.Draw = u.Jacks[:2], nil }, "jacks = [\"in\", \"out\"]\n"},
		{"treadle-wah", func(u *layout.Unit) { u.Sweep = nil }, "sweep = false\n"},
		{"supply-eight", func(u *layout.Unit) { u.Mains = nil }, "mains = false\n"},
	} {
		d, err := Parse("p", aboutJacks(c.form, ""), nil)
		require.NoError(t, err)
		c.change(&d.Plan.Units[0])
		text, err := d.Render()
		require.NoError(t, err)
		assert.Contains(t, string(text), c.want)
		again, err := Parse("p", text, nil)
		require.NoError(t, err)
		assert.Empty(t, difference(again.Plan, d.Plan))
		// And back to all that the form has, which needs no word.
		fresh, err := Parse("p", aboutJacks(c.form, ""), nil)
		require.NoError(t, err)
		again.Plan = fresh.Plan
		text, err = again.Render()
		require.NoError(t, err)
		back, err := Parse("p", text, nil)
		require.NoError(t, err)
		assert.Empty(t, difference(back.Plan, fresh.Plan))
	}
}

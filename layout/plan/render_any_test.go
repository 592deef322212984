package plan

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/layout"
)

// sources are plans in many manners of writing.
func sources(t require.TestingT) [][]byte {
	var out [][]byte
	for _, e := range Examples() {
		out = append(out, e.Source)
	}
	for i, m := range manners {
		out = append(out, []byte(written([]string{"mm", "in"}[i%2], m.octave, m.barn)))
	}
	for _, name := range []string{"everything.toml", filepath.Join("seeds", "inline.toml"), filepath.Join("seeds", "keys.toml")} {
		src, err := os.ReadFile(filepath.Join("testdata", name))
		require.NoError(t, err)
		out = append(out, src)
	}
	starter, err := Starter(Answers{BoardW: 500 * mm, BoardD: 300 * mm, Surface: layout.Rails, Units: []StarterUnit{{Form: "compact"}, {Form: "supply-slim"}}})
	require.NoError(t, err)
	return append(out, []byte(small), starter, []byte(strings.ReplaceAll(small, "\n", "\r\n")), []byte(`board = { size = [300, 200], mass = "1kg" }`))
}

// What was not changed is not touched: a text says what was read from it.
func TestTextsSayWhatTheyAreReadAs(t *testing.T) {
	for i, src := range sources(t) {
		d, err := Parse("p", src, nil)
		require.NoError(t, err)
		text, err := d.edited()
		require.NoError(t, err)
		require.Equal(t, string(d.text.text), string(text), "source %d", i)
	}
}

// anyChange is one edit as an editor makes them. takes is what of the text goes
// with it, for tables that are taken out; moves is set when others move.
type anyChange struct {
	name  string
	do    func(t *rapid.T, p *layout.Plan)
	takes func(root *node, was, is *layout.Plan) []*node
	moves bool
}

// pick draws one of a list; of an empty list it is one that is in no plan.
func pick[T any](t *rapid.T, name string, list []T) *T {
	if len(list) == 0 {
		return new(T)
	}
	return &list[rapid.IntRange(0, len(list)-1).Draw(t, name)]
}

// millimetres draws a whole number of them, or now and then a part of an inch.
func millimetres(t *rapid.T, name string, lo, hi int) layout.Length {
	if rapid.IntRange(0, 9).Draw(t, name+" in inches") == 0 {
		return layout.Inch * layout.Length(rapid.IntRange(lo, hi).Draw(t, name)) / 32
	}
	return mm * layout.Length(rapid.IntRange(lo, hi).Draw(t, name))
}

func fresh(t *rapid.T, name string) string {
	return rapid.StringMatching(`[a-zé]{1,4}-[0-9]`).Draw(t, name)
}

func aPrice(t *rapid.T) layout.Price {
	return layout.Price{Milli: int64(rapid.IntRange(0, 300).Draw(t, "price")) * 10, Currency: rapid.SampledFrom([]string{"€", "kr"}).Draw(t, "currency"), Before: rapid.Bool().Draw(t, "before")}
}

// itemsBut returns the tables of a list whose names the plan does not have any more.
func itemsBut(root *node, key, id string, still func(name string) bool) []*node {
	var out []*node
	if x := root.get(key); x != nil {
		for _, n := range x.value.items {
			if k := n.get(id); k != nil && !still(k.value.text) {
				out = append(out, n)
			}
		}
	}
	return out
}

var anyChanges = slices.Concat(boardChanges, unitChanges, planChanges)

// Any changes, one after the other, from any text: the new text is read as the
// plan; comments stay, in order, but for those of what is taken out; and there
// is nothing more to change in it.
func TestRenderAnything(t *testing.T) {
	all := sources(t)
	rapid.Check(t, func(t *rapid.T) {
		d, err := Parse("p", all[rapid.IntRange(0, len(all)-1).Draw(t, "source")], nil)
		require.NoError(t, err)
		for range rapid.IntRange(1, 3).Draw(t, "rounds") {
			before, was := string(d.text.text), d.Plan
			c := anyChanges[rapid.IntRange(0, len(anyChanges)-1).Draw(t, "change")]
			d.Plan = deepCopy(was)
			c.do(t, d.Plan)
			text, err := d.render()
			if unreadable(t, err) {
				d.Plan = was // a plan that nobody may have
				continue
			}
			again, err := Parse("p", text, nil)
			require.NoError(t, err)
			require.Empty(t, difference(again.Plan, d.Plan), c.name)
			settled, err := again.edited()
			require.NoError(t, err)
			require.Equal(t, string(text), string(settled), c.name)
			commentsStay(t, c, before, string(text), was, d.Plan)
			d.saved(text)
		}
	})
}

// Each of the changes is one that can be written, so the test above tests it.
func TestEveryChangeIsWritten(t *testing.T) {
	all := sources(t)
	for _, c := range anyChanges {
		written := func(i int) bool {
			d, err := Parse("p", all[i%len(all)], nil)
			require.NoError(t, err)
			rapid.Custom(func(t *rapid.T) bool { c.do(t, d.Plan); return rapid.Bool().Draw(t, "some") }).Example(i)
			_, err = d.render()
			return d.Dirty() && !unreadable(t, err)
		}
		i := 0
		for i < 20*len(all) && !written(i) {
			i++
		}
		require.Less(t, i, 20*len(all), "%q was never written", c.name)
	}
}

// unreadable reports whether a plan was refused for what it is; any other error
// of writing is a fault.
func unreadable(t require.TestingT, err error) bool {
	if err == nil {
		return false
	}
	var es Errors
	require.True(t, errors.As(err, &es), "%v", err)
	require.NotContains(t, err.Error(), "TOML")
	require.NotContains(t, err.Error(), "unknown key")
	require.NotContains(t, err.Error(), "given twice: ")
	return true
}

func comments(s string) []string {
	var out []string
	for _, line := range strings.Split(s, "\n") {
		if _, comment, ok := strings.Cut(line, "#"); ok {
			out = append(out, strings.TrimSpace(comment))
		}
	}
	return out
}

func commentsStay(t *rapid.T, c anyChange, before, after string, was, is *layout.Plan) {
	old, now := comments(before), comments(after)
	if c.takes != nil {
		p := newProblems("p", []byte(before))
		root := grow(p, []byte(before))
		e := newEditor([]byte(before), root, speller{}, false)
		for _, n := range c.takes(root, was, is) {
			for _, s := range e.blocks(n) {
				for _, gone := range comments(before[s.from:s.to]) {
					// It may be there still: a table may be found again under another name.
					if count(old, gone) > count(now, gone) {
						i := slices.Index(old, gone)
						old = slices.Delete(old, i, i+1)
					}
				}
			}
		}
	}
	if c.moves {
		slices.Sort(old)
		slices.Sort(now)
	}
	require.Equal(t, strings.Join(old, "\n"), strings.Join(now, "\n"), c.name)
}

func count(list []string, s string) int {
	n := 0
	for _, x := range list {
		if x == s {
			n++
		}
	}
	return n
}

// FuzzEdit changes any plan in ways that the input chooses: what is written is
// read back, or the plan could not be read at all.
func FuzzEdit(f *testing.F) {
	for i, src := range sources(f) {
		f.Add(src, []byte{byte(i), byte(7 * i), byte(31 * i), byte(3 * i)})
	}
	f.Fuzz(func(t *testing.T, src, choices []byte) {
		d, err := Parse("p", src, nil)
		if err != nil || len(choices) > 20 {
			return
		}
		for k, c := range choices {
			before := deepCopy(d.Plan)
			plainChange(d, int(c), k)
			text, err := d.render()
			if unreadable(t, err) {
				d.Plan = before
				continue
			}
			d.saved(text)
		}
	})
}

// plainChange is one of a few changes that any plan can take.
func plainChange(d *Doc, c, k int) {
	p := d.Plan
	name := fmt.Sprint("n", k)
	var u *layout.Unit
	if len(p.Units) > 0 {
		u = &p.Units[c%len(p.Units)]
	}
	l := &p.Lineups[c%len(p.Lineups)]
	switch c % 11 {
	case 0:
		p.Title, p.Board.Thickness = name, p.Board.Thickness+1500
	case 1:
		if fresh, err := d.NewUnit("three-switch", name); err == nil {
			_ = p.AddUnit(fresh)
		}
	case 2:
		_ = p.AddLineup(name, l.Name)
	case 3:
		_ = p.RenameLineup(l.Name, name)
	case 4:
		_ = p.AddSlot(layout.Slot{Name: name, On: layout.DeckName, At: layout.Rect{X1: p.Board.W / 2, Y1: p.Board.D / 2}})
	case 5:
		p.LengthUnit = map[layout.LengthUnit]layout.LengthUnit{layout.Inches: layout.Millimetres, layout.Millimetres: layout.Inches}[p.LengthUnit]
	case 6:
		if u != nil {
			_ = p.RemoveUnit(u.ID)
		}
	case 7:
		if u != nil {
			_ = p.RenameUnit(u.ID, name)
		}
	case 8:
		if u != nil {
			_ = p.MoveUnit(u.ID, k)
		}
	case 9:
		if u != nil && len(p.Slots) > 0 {
			_ = p.SetFill(l.Name, p.Slots[c%len(p.Slots)].Name, []string{u.ID})
		}
	default:
		if len(p.Slots) > 0 {
			_ = p.RemoveSlot(p.Slots[c%len(p.Slots)].Name)
		}
	}
}

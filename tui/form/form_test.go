package form

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"footplank/layout"
)

const mm = layout.Millimetre

// trial is a form about a board of 400 x 300 mm, which may be at most 900 wide.
func trial() (*Form, *layout.Plan) {
	p := &layout.Plan{Title: "Trial", Board: layout.Board{W: 400 * mm, D: 300 * mm}}
	f := &Form{Fields: []*Field{
		Heading("The board"),
		Words("Title", p.Title, "", func(p *layout.Plan, s string) error { p.Title = s; return nil }),
		Length("Width", p.Board.W, layout.Millimetres, func(p *layout.Plan, l layout.Length) error { p.Board.W = l; return nil }),
		OneOf("Surface", "solid", "", []Option{{"solid", "solid"}, {"rails", "rails"}, {"mesh", "mesh"}}, func(p *layout.Plan, s string) error {
			p.Board.Kind = layout.SurfaceKind(s)
			return nil
		}),
		Whole("Headroom", 20, 0, 90, "", func(p *layout.Plan, n int) error { p.Power.Headroom = n; return nil }),
	}}
	return f.Start(func(change func(p *layout.Plan) error) (*layout.Plan, error) {
		q := p.Clone()
		if err := change(q); err != nil {
			return nil, err
		}
		if q.Board.W > 900*mm {
			return nil, errors.New("too wide")
		}
		return q, nil
	}), p
}

func TestTypingReplacesThenAdds(t *testing.T) {
	f, p := trial()
	assert.Equal(t, "Title", f.Now().Label, "a heading is not filled in")
	assert.Nil(t, f.Draft(), "nothing is changed yet")
	f.Next(1)
	f.Type("5")
	f.Type("60")
	assert.Equal(t, "560", f.Now().Value())
	assert.Equal(t, 560*mm, f.Draft().Board.W)
	assert.Equal(t, 400*mm, p.Board.W)
	f.Move(-1)
	f.Erase(1)
	assert.Equal(t, "50", f.Now().Value())
	f.Step(1)
	assert.Equal(t, "55", f.Now().Value())
	f.Clear()
	assert.Contains(t, f.ErrorOf(f.At()), "want a length")
	assert.Equal(t, 55*mm, f.Draft().Board.W, "the last that was right stays on screen")
}

func TestErrorsStandBesideTheirField(t *testing.T) {
	f, _ := trial()
	f.Next(1)
	f.Type("1000")
	at, why := f.Wrong()
	assert.Equal(t, f.At(), at, "wrong with the whole: told where it was typed")
	assert.Equal(t, "too wide", why)
	assert.Equal(t, "too wide", f.ErrorOf(at))
	f.Next(1)
	f.Next(1)
	f.Type("91")
	at, why = f.Wrong()
	assert.Equal(t, "Headroom", f.Fields[at].Label)
	assert.Contains(t, why, "0 to 90")
	f.Clear()
	f.Type("50")
	f.Refresh()
	_, why = f.Wrong()
	assert.Equal(t, "too wide", why, "and that is still so")
}

func TestChoices(t *testing.T) {
	f, _ := trial()
	f.Next(1)
	f.Next(1)
	f.Move(1)
	assert.Equal(t, layout.Rails, f.Draft().Board.Kind)
	f.Type("m")
	assert.Equal(t, "mesh", f.Now().Value())
	f.Move(1)
	assert.Equal(t, "solid", f.Now().Value(), "round the end")
	assert.False(t, f.Changed())
	f.Choose(1)
	assert.True(t, f.Changed())
}

// A value that the options do not have stays possible.
func TestOtherValueOfAChoice(t *testing.T) {
	x := OneOf("Plug", "own", "", []Option{{"flat", "flat"}}, nil)
	assert.Equal(t, "own", x.Shown())
	assert.Len(t, x.Options, 2)
}

func TestFieldsSayWhatTheyWant(t *testing.T) {
	p := &layout.Plan{}
	for _, c := range []struct {
		field *Field
		value string
		wrong string
	}{
		{Length("l", 0, layout.Inches, func(*layout.Plan, layout.Length) error { return nil }), "two", "inches"},
		{Length("l", 0, layout.Millimetres, func(*layout.Plan, layout.Length) error { return nil }), "72,5", ""},
		{LengthOrNone("l", 0, layout.Millimetres, "none", func(*layout.Plan, layout.Length) error { return nil }), "", ""},
		{MassOrNone("m", 0, "none", layout.Millimetres, func(*layout.Plan, layout.Mass) error { return nil }), "2 stone", "350g"},
		{MassOrNone("m", 0, "none", layout.Millimetres, func(*layout.Plan, layout.Mass) error { return nil }), "1,2kg", ""},
		{MassOrNone("m", layout.Pound, "none", layout.Inches, func(*layout.Plan, layout.Mass) error { return nil }), "2lb 10oz", ""},
		{Number("n", 0, "volts", "", func(*layout.Plan, float64) error { return nil }), "1e9", "volts"},
		{Number("n", 0, "volts", "", func(*layout.Plan, float64) error { return nil }), "-3", "volts"},
		{Some("s", nil, []string{"deck", "shelf"}, "any", func(*layout.Plan, []string) error { return nil }), "moon", "deck, shelf"},
		{Some("s", nil, []string{"deck", "shelf"}, "any", func(*layout.Plan, []string) error { return nil }), "shelf deck", ""},
		{Money("p", layout.Price{}, false, func(*layout.Plan, layout.Price, bool) error { return nil }), "cheap", "currency"},
	} {
		err := c.field.Set(p, c.value)
		if c.wrong == "" {
			assert.NoError(t, err, c.value)
		} else {
			assert.ErrorContains(t, err, c.wrong)
		}
	}
}

// Whatever is typed, the cursor stays in its field, and what is right is in the
// draft.
func TestWildTyping(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, _ := trial()
		for range rapid.IntRange(0, 40).Draw(t, "steps") {
			switch rapid.IntRange(0, 8).Draw(t, "kind") {
			case 0:
				f.Next(rapid.SampledFrom([]int{1, -1}).Draw(t, "by"))
			case 1:
				f.Move(rapid.IntRange(-3, 3).Draw(t, "move"))
			case 2:
				f.Erase(rapid.IntRange(-3, 3).Draw(t, "erase"))
			case 3:
				f.Step(rapid.IntRange(-3, 3).Draw(t, "step"))
			case 4:
				f.Clear()
			default:
				f.Type(rapid.SampledFrom([]string{"1", "9", ".", "/", " ", "弓", "mm", "r", "\u0301"}).Draw(t, "text"))
			}
			if n := len([]rune(f.Now().Value())); f.Cursor() < 0 || f.Now().Kind == Text && f.Cursor() > n {
				t.Fatalf("cursor at %d in %q", f.Cursor(), f.Now().Value())
			}
			if _, why := f.Wrong(); why == "" && f.Changed() && f.Draft().Title != strings.TrimSpace(f.Value("Title")) && f.Value("Title") != "Trial" {
				t.Fatalf("draft says %q, the field %q", f.Draft().Title, f.Value("Title"))
			}
		}
	})
}

// A long form is gone through by its parts.
func TestParts(t *testing.T) {
	word := func(label string) *Field {
		return Words(label, "", "", func(*layout.Plan, string) error { return nil })
	}
	f := &Form{Fields: []*Field{word("a"), word("b"), Heading("second"), word("c"), word("d"), Heading("third"), word("e"), word("f")}}
	f.Start(func(func(p *layout.Plan) error) (*layout.Plan, error) { return nil, nil })
	var way []string
	for _, by := range []int{1, 1, 1, 1, -1, -1, -1, -1} {
		f.Part(by)
		way = append(way, f.Now().Label)
	}
	assert.Equal(t, []string{"c", "e", "f", "f", "e", "c", "a", "a"}, way)
	(&Form{}).Part(1) // nowhere to go
}

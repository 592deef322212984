package sheet_test

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/layout/boards"
	"footplank/layout/changeover"
	"footplank/layout/plan"
	"footplank/layout/sheet"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func pocket(t *testing.T) *layout.Plan {
	for _, e := range plan.Examples() {
		if e.Name == "pocket" {
			doc, err := plan.Parse(e.Name, e.Source, catalog.Builtin())
			require.NoError(t, err)
			return doc.Plan
		}
	}
	t.Fatal("no example pocket")
	return nil
}

// nulls gathers the keys of a value of JSON that are null.
func nulls(v any, key string, found map[string]bool) {
	switch v := v.(type) {
	case nil:
		found[key] = true
	case map[string]any:
		for k, x := range v {
			nulls(x, k, found)
		}
	case []any:
		for _, x := range v {
			nulls(x, key, found)
		}
	}
}

func TestBoardsJSON(t *testing.T) {
	p := pocket(t)
	const mm = layout.Millimetre
	r, err := boards.Compare(context.Background(), p, boards.Sizes(layout.Size{W: 200 * mm, D: 100 * mm}, layout.Size{W: 380 * mm, D: 278 * mm}),
		boards.Options{Seed: 1, ImproveSteps: 200})
	require.NoError(t, err)
	var b bytes.Buffer
	s := sheet.NewBoards(p, r, nil)
	require.NoError(t, s.JSON(&b))
	var v any
	require.NoError(t, json.Unmarshal(b.Bytes(), &v))
	found := map[string]bool{}
	nulls(v, "", found)
	assert.Equal(t, map[string]bool{"outside_mm": true, "price": true}, found, "lists are never null")
	assert.Equal(t, []string{"loud", "strange"}, s.Lineups)
	assert.Equal(t, "any slots", s.Boards[0].Proof)
	assert.True(t, s.Boards[1].Smallest)

	// What the sheet says to write is a plan that reads, on which all fits.
	b.Reset()
	require.NoError(t, s.Text(&b, 0, false, false))
	_, lines, ok := strings.Cut(b.String(), "    [board]\n")
	require.True(t, ok)
	src := "title = \"t\"\n[board]\nmass = \"1kg\"\nsurface = \"rails\"\n" + strings.Replace(lines, "[[slot]]", "[[slot]]\nname = \"wild\"\non = \"deck\"", 1)
	doc, err := plan.Parse("taken", []byte(src), catalog.Builtin())
	require.NoError(t, err, src)
	assert.Equal(t, r.Smallest().Plan.Board.Rails, doc.Plan.Board.Rails)
	assert.Equal(t, r.Smallest().Plan.Slots, doc.Plan.Slots)
}

func TestChangeoverJSON(t *testing.T) {
	res, err := arrange.Arrange(context.Background(), pocket(t), arrange.Options{Seed: 1, FirstFit: true, Workers: 1})
	require.NoError(t, err)
	cards, err := changeover.All(res.Plan)
	require.NoError(t, err)
	same, err := changeover.Make(res.Plan, "loud", "loud")
	require.NoError(t, err)
	s := sheet.NewChangeover(res.Plan, append(cards, same))
	var b bytes.Buffer
	require.NoError(t, s.JSON(&b))
	var v any
	require.NoError(t, json.Unmarshal(b.Bytes(), &v))
	found := map[string]bool{}
	nulls(v, "", found)
	assert.Equal(t, map[string]bool{"from": true, "to": true}, found, "lists are never null")
	for _, c := range s.Cards {
		sum := 0
		for _, n := range c.Counts {
			sum += n
		}
		assert.Equal(t, c.Total, sum)
		assert.Len(t, c.Steps, c.Total)
	}
	b.Reset()
	require.NoError(t, s.Text(&b, 0))
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 80, line)
	}
}

// A staircase that is stopped at the first board that fits shows that board, and
// claims no corner.
func TestStaircaseStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	p := pocket(t)
	r, err := boards.Staircase(ctx, p, 60*layout.Millimetre, layout.Size{}, boards.Options{Seed: 1, ImproveSteps: 1, Workers: 1,
		Progress: func(_, _ int, b *boards.Board) {
			if b.Works {
				cancel()
			}
		}})
	require.NoError(t, err)
	require.NotNil(t, r.Smallest())
	assert.True(t, r.Stopped)
	assert.Empty(t, r.Corners)
	var b bytes.Buffer
	s := sheet.NewBoards(p, r, nil)
	require.NoError(t, s.Text(&b, 0, false, false))
	assert.Contains(t, b.String(), "The time was up before it was known how small a board can be.")
	assert.NotContains(t, b.String(), "None of the boards tried fits.")
	assert.Contains(t, b.String(), "\n  * ")
}

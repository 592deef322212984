package plate

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout/plan"
)

// The small drawings of a book count from the board's corner as its tables do,
// also on a shelf; the true-scale sheets from the surface that is measured on.
func TestOverviewCountsFromTheBoard(t *testing.T) {
	doc, err := plan.Parse("shelf.toml", []byte(`
[board]
size = [500, 320]
material = "birch-plywood"
thickness = 15
[[board.riser]]
name = "shelf"
at = [10, 180]
size = [480, 140]
height = 55
thickness = 9
[[unit]]
id = "echo"
form = "large-two-switch"
place = { on = "shelf", at = [200, 190] }
[chain]
order = ["instrument", "echo", "amp"]
`), catalog.Builtin())
	require.NoError(t, err)
	small, _, _ := Overview(doc.Plan, &doc.Plan.Lineups[0], 174*mm, 102*mm)
	var svg bytes.Buffer
	require.NoError(t, small.SVG(&svg, "small"))
	assert.Contains(t, svg.String(), "at 200, 190")

	svg.Reset()
	require.NoError(t, SVG(&svg, doc.Plan, Options{}))
	assert.Contains(t, svg.String(), "at 190, 10")
}

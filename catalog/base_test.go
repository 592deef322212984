package catalog

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"footplank/layout"
)

const baseForm = `[[form]]
name = "box"
body = [100, 60, 30]
mass = 200
base = [{ kind = "battery door", at = [10, 5], size = [30, 20] }, { kind = "foot", at = [85, 45], size = [10, 10] }]
[[board]]
name  = "plank"
size  = [600, 200]
mass  = 900
price = "€24.50"
`

func loadText(t *testing.T, text string) (*Catalog, error) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "own.toml"), []byte(text), 0o600))
	return Load(dir)
}

// A form's base is measured turned over, as a plan's is.
func TestBaseOfAForm(t *testing.T) {
	c, err := loadText(t, baseForm)
	require.NoError(t, err)
	f, _ := c.Unit("box")
	mm := layout.Millimetre
	door := layout.BaseSpot{Kind: layout.BatteryDoor, At: layout.Rect{X0: 60 * mm, Y0: 5 * mm, X1: 90 * mm, Y1: 25 * mm}}
	foot := layout.BaseSpot{Kind: layout.Foot, At: layout.Rect{X0: 5 * mm, Y0: 45 * mm, X1: 15 * mm, Y1: 55 * mm}}
	require.Equal(t, []layout.BaseSpot{door, foot}, f.Unit.OnBase)
	u := f.Template()
	u.OnBase[0].At = layout.Rect{}
	require.Equal(t, door, f.Unit.OnBase[0], "a template shares nothing")

	b, _ := c.Board("plank")
	require.Equal(t, &layout.Price{Milli: 24_500, Currency: "€", Before: true}, b.Price)
}

// On another body the parts keep their distance from the edges they are near,
// and what is off it is cut.
func TestFitBase(t *testing.T) {
	c, err := loadText(t, baseForm)
	require.NoError(t, err)
	f, _ := c.Unit("box")
	mm := layout.Millimetre
	body := f.Unit.Body
	require.Equal(t, f.Unit.OnBase, FitBase(f.Unit.OnBase, body, body))
	wide := FitBase(f.Unit.OnBase, body, layout.Size{W: 120 * mm, D: 50 * mm, H: 30 * mm})
	require.Equal(t, layout.Rect{X0: 80 * mm, Y0: 5 * mm, X1: 110 * mm, Y1: 25 * mm}, wide[0].At, "near the right and the front")
	require.Equal(t, layout.Rect{X0: 5 * mm, Y0: 35 * mm, X1: 15 * mm, Y1: 45 * mm}, wide[1].At, "near the left and the back")
	tiny := FitBase(f.Unit.OnBase, body, layout.Size{W: 10 * mm, D: 4 * mm, H: 30 * mm})
	require.Empty(t, tiny, "nothing of either is left on it")
}

func TestBaseAndPriceAreWrong(t *testing.T) {
	_, err := loadText(t, `[[form]]
name = "box"
body = [100, 60, 30]
mass = 200
base = [{ kind = "foott", at = [90, 5], size = [30, 20] }]
[[board]]
name  = "plank"
size  = [600, 200]
mass  = 900
price = "24,50 €"
`)
	require.ErrorContains(t, err, `base: kind: found "foott", did you mean "foot"?`)
	require.ErrorContains(t, err, "beyond the base's 100mm x 60mm")
	require.ErrorContains(t, err, `own.toml:10:9: board "plank": price "24,50 €"`)
}

package boards

import (
	"fmt"
	"strings"

	"footplank/layout"
)

// ParseSize reads "560x330" or "24inx12in"; in "24x12in" the unit behind the depth
// is the width's too. Bare numbers are in the unit given.
func ParseSize(s string, bare layout.LengthUnit) (layout.Size, error) {
	wide, deep, ok := strings.Cut(strings.ToLower(strings.TrimSpace(s)), "x")
	if !ok || strings.Contains(deep, "x") {
		return layout.Size{}, fmt.Errorf("%q: want width x depth, like 560x330 or 24x12in", s)
	}
	const number = "+-0123456789./ "
	if strings.Trim(wide, number) == "" {
		wide += strings.TrimLeft(deep, number)
	}
	w, err := layout.ParseLength(strings.TrimSpace(wide), unit(bare))
	if err != nil {
		return layout.Size{}, fmt.Errorf("%q: %w", s, err)
	}
	d, err := layout.ParseLength(strings.TrimSpace(deep), unit(bare))
	if err != nil {
		return layout.Size{}, fmt.Errorf("%q: %w", s, err)
	}
	return layout.Size{W: w, D: d}, nil
}

package check

import (
	"fmt"
	"math"
	"strings"

	"footplank/layout"
)

// side is one of the board's four sides as the player sees them.
type side int

const (
	left side = iota
	right
	front
	back
)

var sideNames = [...]string{"left", "right", "front", "back"}

func (s side) String() string { return sideNames[s] }

// opposite returns the side across.
func (s side) opposite() side { return s ^ 1 }

// towards says which way to move: "to the left", "to the front".
func (s side) towards() string { return "to the " + s.String() }

// atLeast and atMost write lengths as layout.Length.AtLeast and AtMost round them.
func (c *checker) atLeast(l layout.Length) string { return c.spaced(l.AtLeast(c.p.Measure())) }
func (c *checker) atMost(l layout.Length) string  { return c.spaced(l.AtMost(c.p.Measure())) }

func (c *checker) spaced(l layout.Length) string {
	u := c.p.Measure()
	return l.Number(u) + " " + string(u)
}

// heavier writes a mass that is too large in the player's measure, rounded up to
// a tenth of it; lighter one that is allowed, rounded down.
func (c *checker) heavier(m layout.Mass) string { return c.weighed(m, math.Ceil) }
func (c *checker) lighter(m layout.Mass) string { return c.weighed(m, math.Floor) }

func (c *checker) weighed(m layout.Mass, to func(float64) float64) string {
	tenth := float64(layout.Kilogram) / 10
	if c.p.LengthUnit == layout.Inches {
		tenth = 45359.237 // a plan that says "10lb" is rounded on reading
	}
	n := math.Round(float64(m) / tenth)
	if layout.Mass(math.Round(n*tenth)) != m {
		n = to(float64(m) / tenth)
	}
	return layout.Mass(math.Round(n * tenth)).Carried(c.p.LengthUnit)
}

// part names one of a unit's boxes: `Delay`, `the plug in "out" of Delay`.
func part(u *layout.Unit, b *layout.PartBox) string {
	switch b.Part {
	case layout.PlugPart:
		return fmt.Sprintf("the plug in %q of %s", b.Jack, u.Label)
	case layout.SweepPart:
		return "the moving plate of " + u.Label
	}
	return u.Label
}

// sentence starts a text with a large letter if it starts with an article of
// ours; labels stay as the player wrote them.
func sentence(s string) string {
	for _, article := range []string{"the ", "a "} {
		if strings.HasPrefix(s, article) {
			return strings.ToUpper(s[:1]) + s[1:]
		}
	}
	return s
}

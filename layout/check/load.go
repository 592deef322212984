package check

import (
	"fmt"
	"math"

	"footplank/layout"
)

// mass checks the loaded board with its case against the limit. Units count
// whether they have a place or not, for they are carried either way; cables do
// not.
func (c *checker) mass() {
	total := c.p.Board.TotalMass()
	for _, u := range c.units {
		total += u.Mass
	}
	loaded := "The loaded board"
	if c.p.Board.Case != nil {
		total += c.p.Board.Case.Mass
		loaded += " with its case"
	}
	limit := c.p.Limits.Mass
	if limit <= 0 || total <= limit {
		return
	}
	level, text := Caution, fmt.Sprintf("%s weighs %s. %s is the most that one person should lift in the best of postures: share the carrying, or put it on wheels.",
		loaded, c.heavier(total), c.lighter(limit))
	if c.p.Limits.MassGiven {
		level, text = Fault, fmt.Sprintf("%s weighs %s, and the plan allows %s. Leave something at home, or take a lighter board.",
			loaded, c.heavier(total), c.lighter(limit))
	}
	c.addMeasured(TooHeavy, level, text, total.Grams(), limit.Grams(), "g")
}

// balance checks that the loaded board stands, and stays down when a foot
// presses what is past its feet.
//
//	   F                     about the edge of the feet:
//	   |      centre         the foot lifts the far side when
//	   v   W  of mass        F * d > W * s
//	---+---+------+-----
//	   <-d->A<-s->      A
//	        feet        feet
func (c *checker) balance() {
	m, x, y := c.p.Balance(c.l)
	if m <= 0 {
		return
	}
	newtons := float64(m) / float64(layout.Kilogram) * layout.Gravity
	b := &c.p.Board
	x0, x1 := float64(b.Feet), float64(b.W-b.Feet)
	y0, y1 := float64(b.Feet), float64(b.D-b.Feet)
	inside := [...]float64{left: x - x0, right: x1 - x, front: y - y0, back: y1 - y}
	standsAlone := true
	for where, s := range inside {
		if s < 0 {
			standsAlone = false
			past := layout.Length(math.Ceil(-s))
			c.addLength(FallsOver, Fault, fmt.Sprintf("The loaded board falls over to the %s by itself: its centre of mass is %s past its feet. Move heavy units %s, or set the feet further out.",
				side(where), c.atLeast(past), side(where).opposite().towards()), past, 0)
		}
	}
	if !standsAlone {
		return
	}
	for i := range c.stand {
		c.tips(&c.stand[i], newtons, inside, [...]float64{left: x0, right: -x1, front: y0, back: -y1})
	}
}

// tips checks one unit. inside are the distances of the centre of mass from
// the edges of the feet; edges are those edges, measured outwards.
func (c *checker) tips(u *standing, newtons float64, inside, edges [4]float64) {
	least, at := math.Inf(1), side(0)
	for _, p := range u.pressed() {
		x, y := float64(p.X), float64(p.Y)
		past := [...]float64{left: edges[left] - x, right: edges[right] + x, front: edges[front] - y, back: edges[back] + y}
		for where, d := range past {
			if d <= 0 {
				continue
			}
			if f := newtons * inside[where] / d; f < least {
				least, at = f, side(where)
			}
		}
	}
	if limit := c.p.Limits.FootForce; least < limit {
		c.addMeasured(Tips, Caution, fmt.Sprintf("Pressing %s with more than %.0f N (the weight of %.0f kg) tips the board over its %s edge; a hard step is about %.0f N. Move %s %s, or set the feet further out.",
			u.Unit.Label, math.Floor(least), math.Floor(least/layout.Gravity), at, limit, u.Unit.Label, at.opposite().towards()),
			round3(least), limit, "N", u.Unit.ID)
	}
}

// pressed returns where a foot presses the unit: its switches, and both ends
// of a treadle on its middle line.
func (s *standing) pressed() []layout.Point {
	var out []layout.Point
	for i := range s.Unit.Switches {
		p, _ := s.SwitchAt(i)
		out = append(out, p)
	}
	if s.Unit.Treadle {
		w, d := s.Unit.Body.W, s.Unit.Body.D
		for _, p := range []layout.Point{{X: w / 2}, {X: w / 2, Y: d}} {
			out = append(out, s.Place.Turn.Point(p, w, d).Add(s.Place.At))
		}
	}
	return out
}

func round3(f float64) float64 { return math.Round(f*1000) / 1000 }

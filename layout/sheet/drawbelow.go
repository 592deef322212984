package sheet

import (
	"footplank/layout"
	"footplank/layout/mount"
)

// feet marks where the board's four feet stand, on its underside.
func (a *artist) feet() {
	b := &a.p.Board
	for _, x := range [2]layout.Length{b.Feet, b.W - b.Feet} {
		for _, y := range [2]layout.Length{b.Feet, b.D - b.Feet} {
			if c, r, ok := a.g.Cell(layout.Point{X: x, Y: y}); ok {
				a.g.put(c, r, a.gl.foot, FootMark, "")
			}
		}
	}
}

// fastener fills the pieces of fastener beneath the units that are drawn,
// wherever their insides are empty: labels and switches stay readable.
func (a *artist) fastener() {
	pieces := a.v.Pieces
	if pieces == nil {
		pieces = mount.Lay(a.p).Pieces
	}
	for _, p := range pieces {
		if p.Lineup != "" && p.Lineup != a.l.Name {
			continue
		}
		text, m := a.gl.interlock, InterlockMark
		if p.Kind != mount.Interlock {
			text, m = a.gl.hook, HookMark
		}
		in := a.f.area(p.OnBoard).clip(a.f.shown())
		for r := in.r0; r < in.r1; r++ {
			for c := in.c0; c < in.c1; c++ {
				if cell := a.g.At(c, r); cell.Unit == p.Unit && cell.Mark == Blank && cell.Text == " " {
					a.g.put(c, r, text, m, p.Unit)
				}
			}
		}
	}
}

// was draws where a unit stood before, as far as nothing stands there now.
func (a *artist) was(u *layout.Unit, pl layout.Placement) {
	if a.v.Below && pl.On != layout.DeckName {
		return
	}
	at := a.f.area(u.Base(pl))
	in := at.clip(a.f.shown())
	for r := in.r0; r < in.r1; r++ {
		for c := in.c0; c < in.c1; c++ {
			edge := c == at.c0 || c == at.c1-1 || r == at.r0 || r == at.r1-1
			if edge && a.own[r*a.g.W+c] == 0 && a.g.At(c, r).Mark <= SlotEdge {
				a.g.put(c, r, a.gl.was.at(at, c, r), WasEdge, "")
			}
		}
	}
}

// before is was for a unit that is not the selected one: with its label, as it
// may be one of several.
func (a *artist) before(s *layout.Standing) {
	if a.v.Surface != "" && a.v.Surface != s.Place.On {
		return
	}
	at := a.f.area(s.Unit.Base(s.Place))
	if !a.v.Below || s.Place.On == layout.DeckName {
		a.name(at, cut(s.Unit.Label, max(at.w()-2, 0)), false)
	}
	a.was(s.Unit, s.Place)
}

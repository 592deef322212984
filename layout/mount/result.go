package mount

import (
	"slices"

	"footplank/layout"
)

// result lists what has been laid.
func (b *bed) result() *Result {
	r := &Result{Board: b.board}
	for k := range b.bases {
		u := &b.p.Units[k]
		_, side := Sides(b.p, KindOf(u.Mount))
		for _, piece := range b.bases[k] {
			r.Bases = append(r.Bases, BasePiece{Unit: u.ID, Kind: KindOf(u.Mount), Side: side,
				At: mirror(u, piece.at), Width: piece.width, Cut: piece.cut})
		}
	}
	at := b.byLineup()
	for l := range b.p.Lineups {
		for _, i := range at[l] {
			s := b.all[i]
			name := b.p.Lineups[l].Name
			h := s.statics.worst(&b.grips[i])
			h.Unit, h.Lineup, h.Kind = s.unit.ID, name, s.kind
			r.Holds = append(r.Holds, h)
			if everywhere(b.p, s.unit) {
				if l > 0 {
					continue
				}
				name = ""
			}
			r.Pieces = append(r.Pieces, b.touching(i, name)...)
		}
	}
	r.Issues = b.issues(at)
	return r
}

// byLineup returns the stands of each line-up in the plan's order of units.
func (b *bed) byLineup() [][]int {
	out := make([][]int, len(b.p.Lineups))
	for i, s := range b.all {
		for _, l := range s.lineups {
			out[l] = append(out[l], i)
		}
	}
	for l := range out {
		slices.SortFunc(out[l], func(i, j int) int { return b.index[b.all[i].unit.ID] - b.index[b.all[j].unit.ID] })
	}
	return out
}

// touching returns the pieces of a stand.
func (b *bed) touching(i int, lineup string) []Piece {
	s := b.all[i]
	board, unit := Sides(b.p, s.kind)
	var out []Piece
	for _, c := range b.meets[i] {
		base := &b.bases[b.index[s.unit.ID]][c.base]
		own := ownFrame(s.unit, s.place, c.at)
		cut := own.W()
		if !base.along {
			cut = own.D()
		}
		out = append(out, Piece{Unit: s.unit.ID, Lineup: lineup, Kind: s.kind, Surface: s.place.On, OnBoard: c.at,
			UnderUnit: mirror(s.unit, own), Width: base.width, Cut: cut, BoardSide: board, UnitSide: unit})
	}
	return out
}

// everywhere reports whether the unit stands at one place in all line-ups.
func everywhere(p *layout.Plan, u *layout.Unit) bool {
	if p.InSlots(u.ID) {
		return false
	}
	for i := range p.Lineups {
		if _, own := p.Lineups[i].Place[u.ID]; own {
			return false
		}
	}
	return true
}

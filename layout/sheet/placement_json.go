package sheet

import (
	"context"

	"footplank/layout"
	"footplank/layout/mount"
)

// Fastener is where one piece of a unit grips a strip of the board, as in
// mount.Piece. Lineup is "" for a piece that is there in every line-up.
// Rectangles are x0, y0, x1, y1 in mm. Strip is the number of the board's strip
// in Report.Strips, from 1.
type Fastener struct {
	Unit      string     `json:"unit"`
	Lineup    string     `json:"lineup"`
	Kind      string     `json:"kind"`
	OnBoard   [4]float64 `json:"on_board"`
	UnderUnit [4]float64 `json:"under_unit"`
	BoardSide string     `json:"board_side"` // hook, loop or interlock
	UnitSide  string     `json:"unit_side"`
	Strip     int        `json:"strip"`
}

// Strip is one strip of fastener on the board, there in every line-up.
type Strip struct {
	Kind    string     `json:"kind"`
	Side    string     `json:"side"`
	Surface string     `json:"surface"`
	At      [4]float64 `json:"at"` // in the board's frame
	Roll    float64    `json:"roll_mm"`
	Cut     float64    `json:"cut_mm"`
	Units   []string   `json:"units"`
}

// BasePiece is one piece of fastener on a unit's base, seen as UnderUnit is.
type BasePiece struct {
	Unit string     `json:"unit"`
	Kind string     `json:"kind"`
	Side string     `json:"side"`
	At   [4]float64 `json:"at"`
	Roll float64    `json:"roll_mm"`
	Cut  float64    `json:"cut_mm"`
}

// Roll is what is cut of one side of one kind of fastener in one width.
type Roll struct {
	Kind  string    `json:"kind"`
	Side  string    `json:"side"`
	Width float64   `json:"width_mm"`
	Board float64   `json:"board_mm"` // length for the board
	Units float64   `json:"units_mm"` // length for the units
	Buy   int       `json:"buy"`      // new rolls
	Cuts  []RollCut `json:"cuts"`
}

// RollCut is one roll with the lengths cut from it.
type RollCut struct {
	Length float64   `json:"length_mm"`
	Owned  bool      `json:"owned"`
	Cuts   []float64 `json:"cuts_mm"`
}

// fasteners gathers the fastener of a report.
func (r *Report) fasteners(p *layout.Plan, laid *mount.Result) {
	r.Fasteners, r.Strips, r.BasePieces, r.Rolls = []Fastener{}, []Strip{}, []BasePiece{}, []Roll{}
	for _, m := range laid.Pieces {
		r.Fasteners = append(r.Fasteners, Fastener{m.Unit, m.Lineup, string(m.Kind), rect4(m.OnBoard), rect4(m.UnderUnit),
			string(m.BoardSide), string(m.UnitSide), stripOf(laid, &m)})
	}
	for _, b := range laid.Board {
		r.Strips = append(r.Strips, Strip{string(b.Kind), string(b.Side), b.Surface, rect4(b.At), b.Width.MM(), b.Cut.MM(), append([]string{}, b.Units...)})
	}
	for _, b := range laid.Bases {
		r.BasePieces = append(r.BasePieces, BasePiece{b.Unit, string(b.Kind), string(b.Side), rect4(b.At), b.Width.MM(), b.Cut.MM()})
	}
	for _, n := range laid.Needs(context.Background(), p) {
		roll := Roll{string(n.Kind), string(n.Side), n.Width.MM(), n.BoardLength.MM(), n.UnitLength.MM(), n.Buy, []RollCut{}}
		for _, c := range n.Rolls {
			cuts := []float64{}
			for _, l := range c.Cuts {
				cuts = append(cuts, l.MM())
			}
			roll.Cuts = append(roll.Cuts, RollCut{c.Length.MM(), c.Owned, cuts})
		}
		r.Rolls = append(r.Rolls, roll)
	}
}

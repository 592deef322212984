package mount

import "footplank/layout"

// Piece is where one strip on a unit's base and one on the board grip each
// other in a line-up. Where a unit has one place, both are cut just so; where
// several share a strip, the strip on the board is longer.
type Piece struct {
	Unit   string
	Lineup string // name of the line-up, "" when the piece is there in every one
	Kind   Kind
	// Surface is the name of the surface; OnBoard is where on it, in the
	// board's frame.
	Surface string
	OnBoard layout.Rect
	// UnderUnit is where on the unit's base, with the unit turned over left
	// to right, its front wall towards the reader: origin at the front-left
	// corner as it is then seen.
	UnderUnit layout.Rect
	Width     layout.Length // of the roll
	// Cut is the length to cut from the roll; the other side of OnBoard is
	// the roll's width, or less where it is trimmed.
	Cut layout.Length
	// BoardSide and UnitSide say which side of the fastener is on the board
	// and which on the unit.
	BoardSide, UnitSide Side
}

// Length returns the length to cut from the roll.
func (p *Piece) Length() layout.Length { return p.Cut }

// BoardPiece is one strip on the board. It stays there in every line-up.
type BoardPiece struct {
	Kind    Kind
	Side    Side
	Surface string
	At      layout.Rect   // in the board's frame
	Width   layout.Length // of the roll
	Cut     layout.Length // length to cut
	Units   []string      // that it holds in some line-up, in the plan's order
}

// BasePiece is one strip on a unit's base. It stays there in every line-up.
type BasePiece struct {
	Unit string
	Kind Kind
	Side Side
	// At is on the base turned over left to right, front wall towards the
	// reader.
	At    layout.Rect
	Width layout.Length // of the roll
	Cut   layout.Length // length to cut
}

// Hold is how a unit is held in a line-up: the worst of its loads.
type Hold struct {
	Unit, Lineup string
	Kind         Kind
	Load         Load
	// Newtons is that load's force, Limit the force that the fastener may
	// take in the same way; Use is the one by the other. Without a piece
	// Limit is 0 and Use is infinite.
	Newtons, Limit, Use float64
	Area                float64 // of all pieces, in mm2
}

// Result is all fastener of a plan.
type Result struct {
	// Pieces are by line-up, those that are in every one once; in each by the
	// plan's order of units, for each unit from the front-left on. A unit that
	// bears on nothing has none.
	Pieces []Piece
	// Board is by surface, in the board's order, on each from the front-left
	// on: its strips are numbered so on every sheet, from 1.
	Board []BoardPiece
	// Bases are in the plan's order of units, on each from the front-left of
	// the base on as it is turned over.
	Bases  []BasePiece
	Holds  []Hold // for each line-up its placed units, in the plan's order
	Issues []Issue
}

// Under returns a rectangle of the board as it lies on the base of the unit at
// that place, the unit turned over left to right.
//
//	seen from above    turned over
//	+-----+            +-----+
//	|##   |            |   ##|
//	|     |            |     |
//	+--v--+            +--v--+
func Under(u *layout.Unit, pl layout.Placement, onBoard layout.Rect) layout.Rect {
	return mirror(u, ownFrame(u, pl, onBoard))
}

// ownFrame returns a rectangle of the board in the frame of the unit at turn 0,
// seen from above.
func ownFrame(u *layout.Unit, pl layout.Placement, onBoard layout.Rect) layout.Rect {
	w, d := pl.Turn.Footprint(u.Body.W, u.Body.D)
	back := layout.Turn(0).Add(-pl.Turn)
	return back.Rect(onBoard.Move(layout.Point{X: -pl.At.X, Y: -pl.At.Y}), w, d)
}

// onBoard is the way back from ownFrame.
func onBoard(u *layout.Unit, pl layout.Placement, own layout.Rect) layout.Rect {
	return pl.Turn.Rect(own, u.Body.W, u.Body.D).Move(pl.At)
}

// mirror changes between seen from above and turned over left to right.
func mirror(u *layout.Unit, own layout.Rect) layout.Rect {
	return layout.Rect{X0: u.Body.W - own.X1, Y0: own.Y0, X1: u.Body.W - own.X0, Y1: own.Y1}
}

func flip(r layout.Rect) layout.Rect {
	return layout.Rect{X0: r.Y0, Y0: r.X0, X1: r.Y1, Y1: r.X1}
}

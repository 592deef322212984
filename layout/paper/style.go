package paper

import "footplank/layout"

// Ink is how light a line, a text or a ground is, from Black to White.
type Ink uint8

const (
	Black Ink = 0
	Grey  Ink = 120
	Pale  Ink = 215
	White Ink = 255
)

// Fill is what a closed shape is filled with.
type Fill uint8

const (
	NoFill Fill = iota
	Solid       // in the style's Ground
	Hatch       // lines one way, close together
	Dots        // in rows
	Grain       // thin grey lines the other way, far apart
)

// Style is how a shape is drawn.
type Style struct {
	Line  layout.Length // width; 0 draws no line
	Ink   Ink           // of the line
	Dash  []layout.Length
	Round bool // ends of lines and of dashes
	// Corner is the radius that the corners of a Poly are rounded with,
	// where its sides are long enough.
	Corner layout.Length
	Fill   Fill
	Ground Ink // of Solid; the other fills are on White
}

// Anchor is which part of a text is at its place.
type Anchor uint8

const (
	Start Anchor = iota
	Middle
	End
)

// Face is one of the fonts.
type Face uint8

const (
	Regular Face = iota
	Bold
	Italic
	Mono
	faces = iota
)

// Type is how a text is set.
type Type struct {
	Size   layout.Length // of the type, from line to line without lead
	Face   Face
	Anchor Anchor
	// Turn turns the text about its place, clockwise.
	Turn layout.Turn
	Ink  Ink
	// Boxed lays a white ground beneath it, so that it can be read over a pattern.
	Boxed bool
}

// Lead is the distance between the baselines of two lines of text.
func (t Type) Lead() layout.Length { return t.Size * 125 / 100 }

// Cap is the height of a capital letter.
func (t Type) Cap() layout.Length { return t.Size * 72 / 100 }

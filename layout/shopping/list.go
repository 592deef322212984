package shopping

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"footplank/layout"
)

// Schema names the form of the list as JSON; a change that breaks readers
// changes it.
const Schema = "footplank/shopping/1"

// Ways to come by the kit's cables.
const (
	ByRule = ""        // as the package's description tells
	Reel   = "reel"    // cut from a reel
	Made   = "made-up" // ready-made
)

// Groups of items, in the order of the list.
const (
	Units    = "units"
	Board    = "board"
	Cables   = "cables"
	Power    = "power"
	Fastener = "fastener"
	Labels   = "labels"
)

// Measures of items.
const (
	Pieces = "piece"
	Metres = "m"
)

// List is what to buy for a plan. Lists are in a fixed order and never null.
type List struct {
	Schema string  `json:"schema"`
	Title  string  `json:"title"`
	Way    string  `json:"cables"` // Reel or Made
	Why    string  `json:"why"`    // this way
	Items  []Item  `json:"items"`
	Totals []Money `json:"totals"` // one for each currency
	// Unpriced names what is to be bought and has no price.
	Unpriced []string `json:"unpriced"`
	// Other is what the cables would come to the other way; nil without
	// cables.
	Other *Other `json:"other_way"`
	// Unplaced names units without a place, whose cables, leads and fastener
	// are not in the list.
	Unplaced []string `json:"unplaced"`
	Notes    []string `json:"notes"`
}

// Item is one line of the list. Need, Owned and Buy are pieces or metres; what
// is owned beyond the need is not counted.
type Item struct {
	Group   string  `json:"group"`
	Name    string  `json:"name"` // as in the plan's prices
	What    string  `json:"what"`
	Measure string  `json:"measure"`
	Need    float64 `json:"need"`
	Owned   float64 `json:"owned"`
	Buy     float64 `json:"buy"`
	Price   *Money  `json:"price"` // of a piece or a metre; null where none is given
	Sum     *Money  `json:"sum"`
}

// Other is the kit's cables come by in the other way.
type Other struct {
	Way      string   `json:"cables"`
	Totals   []Money  `json:"totals"`
	Unpriced []string `json:"unpriced"`
}

// Money is an amount as the list writes it.
type Money layout.Price

// String writes the amount with two decimals, or three where it has them, its
// currency as a layout.Price does.
func (m Money) String() string {
	return layout.Price(m).With(m.Number())
}

// Number is the amount without its currency.
func (m Money) Number() string {
	sign, n := "", m.Milli
	if n < 0 {
		sign, n = "-", -n
	}
	if n%10 == 0 {
		return fmt.Sprintf("%s%d.%02d", sign, n/1000, n%1000/10)
	}
	return fmt.Sprintf("%s%d.%03d", sign, n/1000, n%1000)
}

// MarshalJSON writes {"amount": 4.10, "currency": "€"}.
func (m Money) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Amount   json.Number `json:"amount"`
		Currency string      `json:"currency"`
	}{json.Number(m.Number()), m.Currency})
}

// JSON writes the list as JSON, two spaces to a level, with a newline behind.
func (l *List) JSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(l)
}

// amount writes pieces or metres: "3", "2.5 m".
func (it *Item) amount(n float64) string {
	s := strconv.FormatFloat(n, 'f', -1, 64)
	if it.Measure == Metres && n != 0 {
		return s + " m"
	}
	return s
}

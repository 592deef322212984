package layout

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParsePrice(t *testing.T) {
	for s, want := range map[string]Price{
		"€4.10":         {4100, "€", true},
		"€ 4.1":         {4100, "€", true},
		"4.10 EUR":      {4100, "EUR", false},
		"EUR 4.10":      {4100, "EUR", true},
		"12 kr":         {12_000, "kr", false},
		"12kr":          {12_000, "kr", false},
		"£1,250.00":     {1_250_000, "£", true},
		"1,250,000 ¥":   {1_250_000_000, "¥", false},
		" A$0.005 ":     {5, "A$", true},
		"0 €":           {0, "€", false},
		"zł 10000000":   {MaxPrice, "zł", true},
		"007.5 Gulden":  {7500, "Gulden", false},
		"₹ 12,345.678":  {12_345_678, "₹", true},
		"10000000.000€": {MaxPrice, "€", false},
	} {
		got, err := ParsePrice(s)
		require.NoError(t, err)
		require.Equal(t, want, got, s)
	}
	for s, want := range map[string]string{
		"": "no number", "kr": "no number", "12": "no currency", "4,10 €": "decimals stand behind a point",
		"12,34,567 kr": "decimals stand behind a point", "1,0000 kr": "decimals stand behind a point", ",100 kr": "decimals stand behind a point",
		"€4 EUR": "both sides", "-3 €": "both sides", "€-3": "is no currency", "€1.2345": "not a number", "€1.": "not a number", "€.5": "not a number",
		"€1.2.3": "not a number", "1e5 €": "not a number", "€10000000.001": "beyond all measure", "Doubloons 3": "is no currency", "%5": "is no currency",
		"€99999999999999999999999": "beyond all measure", "kr. 5": "not a number",
	} {
		_, err := ParsePrice(s)
		require.ErrorContains(t, err, want, s)
		require.ErrorContains(t, err, "like \"€4.10\"")
	}
}

func TestPriceString(t *testing.T) {
	for want, p := range map[string]Price{
		"€4.10": {4100, "€", true}, "4.10 EUR": {4100, "EUR", false}, "EUR 60": {60_000, "EUR", true},
		"12 kr": {12_000, "kr", false}, "€0.005": {5, "€", true}, "A$1250": {1_250_000, "A$", true}, "3 €": {3000, "€", false},
	} {
		require.Equal(t, want, p.String())
	}
}

// What is written reads back to the same price.
func TestPriceRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Price{
			Milli:    rapid.Int64Range(0, MaxPrice).Draw(t, "milli"),
			Currency: rapid.StringMatching(`[A-Za-zåłč€$£¥₹]{1,8}`).Draw(t, "currency"),
			Before:   rapid.Bool().Draw(t, "before"),
		}
		back, err := ParsePrice(p.String())
		require.NoError(t, err)
		require.Equal(t, p, back)
	})
}

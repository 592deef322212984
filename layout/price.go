package layout

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxPrice is the largest price that a plan may state, in thousandths: ten
// million of any currency.
const MaxPrice = 10_000_000 * 1000

const maxCurrency = 8 // characters

// ParsePrice reads "€4.10", "£1,250.00", "4.10 EUR", "EUR 4.10", "12 kr", "A$3": a
// number and a currency, before or behind it, with or without a space between.
//
// The currency is a sign or letters, at most eight, and is kept as written: no
// list of currencies is consulted, so "€" and "EUR" are two. The number has a
// point before its decimals, at most three of them, and may have commas
// between groups of three digits before it. "4,10" could be read in two ways
// and is refused, and so is what is negative.
func ParsePrice(s string) (Price, error) {
	p, err := parsePrice(s)
	if err != nil {
		return Price{}, fmt.Errorf("price %q: %w, want a currency and a number, like \"€4.10\" or \"12 kr\"", Shortened(s), err)
	}
	return p, nil
}

func parsePrice(s string) (Price, error) {
	s = strings.TrimSpace(s)
	first := strings.IndexFunc(s, isNumeral)
	if first < 0 || len(s) > 64 {
		return Price{}, fmt.Errorf("no number")
	}
	last := strings.LastIndexFunc(s, isNumeral) + 1
	before, number, behind := strings.TrimSpace(s[:first]), s[first:last], strings.TrimSpace(s[last:])
	p := Price{Currency: before + behind, Before: before != ""}
	switch {
	case before != "" && behind != "":
		return p, fmt.Errorf("something on both sides of the number")
	case p.Currency == "":
		return p, fmt.Errorf("no currency")
	case utf8.RuneCountInString(p.Currency) > maxCurrency || !isCurrency(p.Currency):
		return p, fmt.Errorf("%q is no currency", p.Currency)
	}
	milli, err := parseMilli(number)
	p.Milli = milli
	return p, err
}

func isNumeral(r rune) bool { return r >= '0' && r <= '9' || r == '.' || r == ',' }

func isCurrency(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.Is(unicode.Sc, r) }) < 0
}

// parseMilli reads a number with at most three decimals, in thousandths.
func parseMilli(s string) (int64, error) {
	whole, decimals, point := strings.Cut(s, ".")
	bad := fmt.Errorf("%q is not a number", s)
	if groups := strings.Split(whole, ","); len(groups) > 1 {
		for i, g := range groups {
			if len(g) != 3 && (i > 0 || len(g) == 0 || len(g) > 3) {
				return 0, fmt.Errorf("%q has a comma that does not part thousands (decimals stand behind a point)", s)
			}
		}
		whole = strings.Join(groups, "")
	}
	if point && decimals == "" || len(decimals) > 3 || whole == "" {
		return 0, bad
	}
	var milli int64
	for _, c := range whole + (decimals + "000")[:3] {
		if c < '0' || c > '9' {
			return 0, bad
		}
		if milli = milli*10 + int64(c-'0'); milli > MaxPrice {
			return 0, fmt.Errorf("beyond all measure")
		}
	}
	return milli, nil
}

// String writes the price as ParsePrice reads it, with the currency on its side:
// no decimals when it is whole, else two, or three where two are not exact. A
// sign before the number stands close to it; all else has a space.
func (p Price) String() string {
	number := fmt.Sprintf("%d.%03d", p.Milli/1000, p.Milli%1000)
	switch {
	case p.Milli%1000 == 0:
		number = number[:len(number)-4]
	case p.Milli%10 == 0:
		number = number[:len(number)-1]
	}
	return p.With(number)
}

// With puts the price's currency to a number, as String does.
func (p Price) With(number string) string {
	last, _ := utf8.DecodeLastRuneInString(p.Currency)
	switch {
	case p.Currency == "":
		return number
	case !p.Before:
		return number + " " + p.Currency
	case unicode.Is(unicode.Sc, last):
		return p.Currency + number
	}
	return p.Currency + " " + number
}

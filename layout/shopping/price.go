package shopping

import (
	"maps"
	"math"
	"slices"
	"strings"

	"footplank/layout"
)

// priceOf returns the price of an item by its name, which may end in a length:
// that of the same name and length, or else that of the name alone.
func priceOf(prices map[string]layout.Price, name string) *Money {
	if m, ok := prices[name]; ok {
		return (*Money)(&m)
	}
	base, length := split(name)
	if length == 0 {
		return nil
	}
	var any *Money
	for _, k := range slices.Sorted(maps.Keys(prices)) {
		b, l := split(k)
		if b != base {
			continue
		}
		m := Money(prices[k])
		if l == length {
			return &m
		}
		if l == 0 {
			any = &m
		}
	}
	if base == "cable" || strings.Contains(base, "lead") {
		return any
	}
	return nil
}

// split takes a length off the end of a name: "cable 30cm" is "cable" and 30 cm.
func split(name string) (base string, length layout.Length) {
	words := strings.Fields(name)
	for n := 1; n <= 3 && n < len(words); n++ { // "7 1/2 in" has three words
		cut := len(words) - n
		text := strings.Join(words[cut:], " ")
		if c := text[len(text)-1]; c >= '0' && c <= '9' || text[0] < '0' || text[0] > '9' {
			continue // a number alone is no length here
		}
		if l, err := layout.ParseLength(text, layout.Millimetres); err == nil {
			base, length = strings.Join(words[:cut], " "), l
		}
	}
	if base == "" {
		return strings.Join(words, " "), 0
	}
	return base, length
}

// price fills in what an item costs.
func (it *Item) price(prices map[string]layout.Price) {
	it.Price = priceOf(prices, it.Name)
	if it.Price == nil {
		return
	}
	sum := *it.Price
	sum.Milli = int64(math.Round(float64(sum.Milli) * it.Buy))
	it.Sum = &sum
}

// totals adds up what is to be bought, by currency in the order in which they
// come, and names what has no price.
func totals(items []Item) (sums []Money, unpriced []string) {
	sums, unpriced = []Money{}, []string{}
	for i := range items {
		it := &items[i]
		if it.Buy == 0 {
			continue
		}
		if it.Sum == nil {
			if !slices.Contains(unpriced, it.Name) {
				unpriced = append(unpriced, it.Name)
			}
			continue
		}
		n := slices.IndexFunc(sums, func(m Money) bool { return m.Currency == it.Sum.Currency })
		if n < 0 {
			sums = append(sums, *it.Sum)
			continue
		}
		sums[n].Milli += it.Sum.Milli
	}
	return sums, unpriced
}

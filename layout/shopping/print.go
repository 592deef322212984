package shopping

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"footplank/layout"
	"footplank/layout/document"
)

// Columns are those of the list as CSV (RFC 4180, with a line feed at the end of
// a line): the fields of Item, the currency after the sum.
var Columns = []string{"group", "name", "what", "measure", "need", "owned", "buy", "price", "sum", "currency"}

// CSV writes a head and a row for each item.
func (l *List) CSV(w io.Writer) error {
	c := csv.NewWriter(w)
	if err := c.Write(Columns); err != nil {
		return err
	}
	num := func(n float64) string { return strconv.FormatFloat(n, 'f', -1, 64) }
	for i := range l.Items {
		it := &l.Items[i]
		row := []string{it.Group, it.Name, it.What, it.Measure, num(it.Need), num(it.Owned), num(it.Buy), "", "", ""}
		if it.Price != nil {
			row[7], row[8], row[9] = it.Price.Number(), it.Sum.Number(), it.Price.Currency
		}
		if err := c.Write(row); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// titles are the headings of the groups.
var titles = map[string]string{
	Units: "Units", Board: "Board", Cables: "Patch cables", Power: "Power", Fastener: "Fastener", Labels: "Labels",
}

// Document returns the list for reading.
func (l *List) Document() *document.Document {
	d := &document.Document{Title: "Shopping: " + l.Title}
	d.Add(l.Blocks()...)
	return d
}

// Blocks are the list without its title.
func (l *List) Blocks() []document.Block {
	d := &document.Document{}
	d.Para("What the plan takes, less what it says is there.")
	if len(l.Unplaced) > 0 {
		d.Add(document.Caution{Title: "Not the whole list", Items: []string{
			"Without a place, so that their cables, leads and fastener are missing here: " + strings.Join(l.Unplaced, ", ") + "."}})
	}
	var t *document.Table
	there, measure := map[string]float64{}, map[string]*Item{} // what is alike is told once
	var words []string
	group := ""
	for i := range l.Items {
		it := &l.Items[i]
		if it.Buy == 0 {
			text := fmt.Sprintf("%s (%s)", it.Name, it.What)
			if there[text] == 0 {
				words = append(words, text)
			}
			there[text] += it.Need
			measure[text] = it
			continue
		}
		if it.Group != group {
			group = it.Group
			t = l.table(d, titles[group])
		}
		t.Add(l.row(it)...)
	}
	l.sums(d)
	l.ways(d)
	if len(words) > 0 {
		d.Heading(2, "Needed, and there already")
		for i, text := range words {
			words[i] += ": " + measure[text].amount(there[text])
		}
		d.List(document.Bullet, words...)
	}
	if len(l.Notes) > 0 {
		d.Heading(2, "Notes")
		d.List(document.Bullet, l.Notes...)
	}
	return d.Blocks
}

// table begins the table of a group: without what is there where nothing is, and
// without prices where there are none.
func (l *List) table(d *document.Document, title string) *document.Table {
	t := &document.Table{Head: []string{"Buy", "Name", "What"}, Align: []document.Align{document.Right}}
	if l.some(owned) {
		t.Head = append(t.Head, "Need", "Have")
	}
	if l.some(priced) {
		t.Head = append(t.Head, "Each", "Sum")
	}
	t.Align = append(t.Align, document.Left, document.Left)
	for range t.Head[3:] {
		t.Align = append(t.Align, document.Right)
	}
	d.Heading(2, title)
	d.Add(t)
	return t
}

func (l *List) row(it *Item) []string {
	row := []string{it.amount(it.Buy), it.Name, it.What}
	if l.some(owned) {
		row = append(row, it.amount(it.Need), it.amount(it.Owned))
	}
	if !l.some(priced) {
		return row
	}
	if it.Price == nil {
		return append(row, "-", "-")
	}
	return append(row, it.Price.String(), it.Sum.String())
}

func owned(it Item) bool  { return it.Owned > 0 }
func priced(it Item) bool { return it.Price != nil }

func (l *List) some(is func(Item) bool) bool { return slices.ContainsFunc(l.Items, is) }

// sums says what all costs, and what is not counted.
func (l *List) sums(d *document.Document) {
	d.Heading(2, "In all")
	switch {
	case len(l.Totals) > 0:
		d.Para(moneys(l.Totals) + counted(l.Unpriced) + ".")
	case len(l.Unpriced) > 0:
		d.Para("The plan has no prices for what is to be bought.")
	default:
		d.Para("Nothing is to be bought.")
	}
	if len(l.Totals) > 0 && len(l.Unpriced) > 0 {
		d.Para("Without a price in the plan, and not counted: " + strings.Join(l.Unpriced, ", ") + ".")
	}
	if len(l.Totals) > 1 {
		d.Para("Currencies are added up apart, as the plan writes them.")
	}
}

func counted(unpriced []string) string {
	if len(unpriced) == 0 {
		return ""
	}
	return ", and " + layout.Plural(len(unpriced), "thing") + " without a price"
}

func moneys(ms []Money) string {
	var s []string
	for _, m := range ms {
		s = append(s, m.String())
	}
	return strings.Join(s, " + ")
}

// ways says how the cables come and what the other way would cost.
func (l *List) ways(d *document.Document) {
	if l.Other == nil {
		return
	}
	words := map[string]string{Reel: "cut from a reel", Made: "bought ready-made"}
	d.Heading(2, "Cables, cut or ready-made")
	own := l.cables()
	if len(own.Totals)+len(l.Other.Totals) == 0 {
		d.Para(fmt.Sprintf("Here they are %s: %s. The other way they would be %s. The plan has no prices to compare.", words[l.Way], l.Why, words[l.Other.Way]))
		return
	}
	d.Para(fmt.Sprintf("Here they are %s: %s. That comes to %s; %s they would come to %s.",
		words[l.Way], l.Why, cost(own.Totals, own.Unpriced), words[l.Other.Way], cost(l.Other.Totals, l.Other.Unpriced)))
}

// cables is the part of the list that are cables.
func (l *List) cables() Other {
	var items []Item
	for _, it := range l.Items {
		if it.Group == Cables {
			items = append(items, it)
		}
	}
	sums, unpriced := totals(items)
	return Other{l.Way, sums, unpriced}
}

func cost(sums []Money, unpriced []string) string {
	none := strings.Join(unpriced, ", ")
	switch {
	case len(sums) == 0 && none == "":
		return "nothing"
	case len(sums) == 0:
		return "what the plan has no price for (" + none + ")"
	case none == "":
		return moneys(sums)
	}
	return moneys(sums) + " and what has no price (" + none + ")"
}

package book

import (
	"fmt"
	"strings"

	"footplank/layout"
	"footplank/layout/changeover"
	"footplank/layout/document"
)

// Changeovers returns a card for each change between two line-ups. With line-ups
// named, only those that come from or go to one of them.
func (b *Book) Changeovers(lineups ...string) (*document.Document, error) {
	d := &document.Document{}
	m := changeover.With(b.p, b.w, b.m)
	chosen := map[string]bool{}
	for _, l := range b.chosen(lineups) {
		chosen[l.Name] = true
	}
	for i := range b.p.Lineups {
		for k := range b.p.Lineups {
			from, to := b.p.Lineups[i].Name, b.p.Lineups[k].Name
			if i == k || !chosen[from] && !chosen[to] {
				continue
			}
			c, err := m.Card(from, to)
			if err != nil {
				return nil, err
			}
			d.Add(b.changeoverCard(c))
		}
	}
	if len(d.Blocks) == 0 {
		d.Title = b.title("Changeover")
		d.Para("The plan has one line-up, so there is nothing to change over to.")
	}
	return d, nil
}

func (b *Book) changeoverCard(c *changeover.Card) document.Card {
	d := &document.Document{}
	if b.p.Title != "" {
		d.Para(b.p.Title)
	}
	var counts []string
	for _, k := range changeover.Kinds() {
		if n := c.Count(k); n > 0 {
			counts = append(counts, fmt.Sprintf("%s %d", k, n))
		}
	}
	if len(c.Steps) == 0 {
		d.Para("Nothing changes.")
	} else {
		d.Para(fmt.Sprintf("%s: %s. Steps in this order always work.", layout.Plural(len(c.Steps), "step"), strings.Join(counts, ", ")))
	}
	var steps []string
	for i := range c.Steps {
		steps = append(steps, fmt.Sprintf("%d. %s", i+1, c.Steps[i].Text))
	}
	d.List(document.Check, steps...)
	if tight(c) {
		d.Para("Tight: the plug has no room to go straight in or out where both units stand. Take it in hand with the one that changes, while that one is loose.")
	}
	if s := c.PlacesAre(); s != "" {
		d.Para(s)
	}
	return document.Card{Title: fmt.Sprintf("Changeover: %s to %s", c.From, c.To), Blocks: d.Blocks}
}

func tight(c *changeover.Card) bool {
	for i := range c.Steps {
		for _, e := range c.Steps[i].Ends {
			if e.Tight != "" {
				return true
			}
		}
	}
	return false
}

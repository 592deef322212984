package plan

import "slices"

// table edits a table of the text into what is wanted of it.
func (e *editor) table(t *node, w *want) {
	for _, x := range t.keys {
		if w.get(x.name) == nil {
			e.remove(t, x.name)
		}
	}
	for _, k := range w.keys {
		x := t.get(k.name)
		switch {
		case k.v == nil:
		case x != nil:
			e.entry(t, x, k)
		case k.need == must && e.putting:
			e.add(t, k, w)
		}
	}
}

// entry edits what a key of a table has.
func (e *editor) entry(t *node, x *entry, k wantKey) {
	n := x.value
	switch v := k.v.(type) {
	case *want:
		if n.kind == tableKind {
			e.table(n, v)
			return
		}
	case *wantList:
		if n.kind == listKind {
			e.tables(t, x, v)
			return
		}
	case list:
		if n.kind == listKind && n.style == inlineStyle {
			e.values(n, v)
			return
		}
	case value:
		if n.kind != tableKind && n.kind != listKind {
			if !v.says(n, e.spell) {
				e.replace(n, v.spell(e.spell))
			}
			return
		}
	}
	switch { // it is another kind of thing now
	case says(n, k.v, e.spell):
	case x.stop > 0 && k.need != usual:
		e.replace(n, e.spell.inline(k.v))
	default:
		e.remove(t, x.name)
	}
}

// values edits a list of values: each in its place if there are as many, else
// those in between are put in and taken out.
func (e *editor) values(n *node, l list) {
	if e.putting || l.says(n, e.spell) {
		return
	}
	var pieces []piece
	if len(n.items) == len(l) {
		for i, v := range l {
			if !v.says(n.items[i], e.spell) {
				e.replace(n.items[i], v.spell(e.spell))
			}
		}
		return
	}
	// cost[i][j] is the least number of values to change, take out or put in
	// that makes l[j:] of n.items[i:].
	cost := make([][]int, len(n.items)+1)
	for i := len(n.items); i >= 0; i-- {
		cost[i] = make([]int, len(l)+1)
		for j := len(l); j >= 0; j-- {
			switch {
			case i == len(n.items):
				cost[i][j] = len(l) - j
			case j == len(l):
				cost[i][j] = len(n.items) - i
			case l[j].says(n.items[i], e.spell):
				cost[i][j] = cost[i+1][j+1]
			default:
				cost[i][j] = 1 + min(cost[i+1][j+1], cost[i+1][j], cost[i][j+1])
			}
		}
	}
	for i, j := 0, 0; j < len(l); {
		switch {
		case i < len(n.items) && l[j].says(n.items[i], e.spell):
			pieces = append(pieces, piece{old: i})
			i, j = i+1, j+1
		case i < len(n.items) && cost[i][j] == 1+cost[i+1][j]:
			i++
		case i < len(n.items) && cost[i][j] == 1+cost[i+1][j+1]:
			pieces = append(pieces, piece{i, l[j].spell(e.spell)})
			i, j = i+1, j+1
		default:
			pieces = append(pieces, piece{-1, l[j].spell(e.spell)})
			j++
		}
	}
	e.replace(n, e.relisted(n, pieces))
}

// tables edits a list of tables: first it takes out the ones that are gone, then
// brings the others into order, then edits them, and at last puts new ones in.
func (e *editor) tables(parent *node, x *entry, l *wantList) {
	n := x.value
	match := e.match(n.items, l)
	switch {
	case slices.Contains(match, -1):
		e.takeOut(n, match)
		return
	case !slices.IsSorted(match):
		e.reorder(n, match)
		return
	}
	if e.putting && e.putIn(parent, x, l, match) {
		return
	}
	for i, item := range n.items {
		e.table(item, l.items[match[i]])
	}
}

// match finds for each table of the text the wanted one that it is to be, or -1:
// one of the same name, else one that says the same, else one that says mostly
// the same under another name, and where there are no names the next one.
func (e *editor) match(items []*node, l *wantList) []int {
	match, taken := make([]int, len(items)), make([]bool, len(l.items))
	round := func(fits func(n *node, w *want) bool) {
		for i, n := range items {
			for j, w := range l.items {
				if match[i] < 0 && !taken[j] && fits(n, w) {
					match[i], taken[j] = j, true
				}
			}
		}
	}
	for i := range match {
		match[i] = -1
	}
	if l.id == "" {
		round(func(n *node, w *want) bool { return says(n, w, e.spell) })
		round(func(*node, *want) bool { return true })
		return match
	}
	round(func(n *node, w *want) bool {
		x, k := n.get(l.id), w.get(l.id)
		return x != nil && says(x.value, k.v, e.spell)
	})
	round(func(n *node, w *want) bool { return e.akin(n, w, l) })
	return match
}

// akin reports whether more than half of what a table says, but for its name and
// what often changes, is in the wanted one too.
func (e *editor) akin(n *node, w *want, l *wantList) bool {
	all, same := 0, 0
	var count func(n *node, w *want, soft []string)
	count = func(n *node, w *want, soft []string) {
		for _, x := range n.keys {
			k := w.get(x.name)
			if slices.Contains(soft, x.name) {
				continue
			}
			if k != nil && x.value.kind == tableKind {
				if below, ok := k.v.(*want); ok {
					count(x.value, below, nil)
					continue
				}
			}
			all++
			if k != nil && says(x.value, k.v, e.spell) {
				same++
			}
		}
	}
	count(n, w, append([]string{l.id}, l.soft...))
	return 2*same > all || l.loose && 2*same == all
}

// takeOut takes the tables without a match out of a list.
func (e *editor) takeOut(n *node, match []int) {
	if n.style == headerStyle {
		for i, item := range n.items {
			if match[i] < 0 {
				e.cutBlocks(item)
			}
		}
		return
	}
	var pieces []piece
	for i := range n.items {
		if match[i] >= 0 {
			pieces = append(pieces, piece{old: i})
		}
	}
	e.replace(n, e.relisted(n, pieces))
}

// putIn puts in the wanted tables that the text does not have, and reports
// whether there were any.
func (e *editor) putIn(parent *node, x *entry, l *wantList, match []int) bool {
	n := x.value
	var pieces []piece
	fresh, at := false, 0
	for j, w := range l.items {
		switch {
		case at < len(match) && match[at] == j:
			pieces = append(pieces, piece{old: at})
			at++
		case l.puts(w):
			fresh = true
			if n.style == headerStyle {
				e.putBlock(n, at, e.block(e.paths[n], w, true, e.indent(n.items[0].off)))
			} else {
				pieces = append(pieces, piece{-1, e.spell.inline(w)})
			}
		}
	}
	if fresh && n.style != headerStyle {
		e.edits = append(e.edits, edit{from: n.off, to: n.end, with: e.relisted(n, pieces)})
	}
	return fresh
}

// rising returns which of the numbers to keep so that they rise and the most of
// them stay.
func rising(match []int) []bool {
	best, before := make([]int, len(match)), make([]int, len(match))
	last := -1
	for i := range match {
		best[i], before[i] = 1, -1
		for k := range i {
			if match[k] < match[i] && best[k] >= best[i] {
				best[i], before[i] = best[k]+1, k
			}
		}
		if last < 0 || best[i] > best[last] {
			last = i
		}
	}
	keep := make([]bool, len(match))
	for ; last >= 0; last = before[last] {
		keep[last] = true
	}
	return keep
}

// reorder brings the tables of a list into the order of their matches, moving as
// few as can be.
func (e *editor) reorder(n *node, match []int) {
	order := make([]int, len(match)) // the items as they should be
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return match[a] - match[b] })
	if n.style != headerStyle {
		for i, from := range order {
			e.replace(n.items[i], string(e.text[n.items[from].off:n.items[from].end]))
		}
		return
	}
	keep := rising(match)
	at := 0 // behind the kept item that was met last
	for _, i := range order {
		if keep[i] {
			at = i + 1
			continue
		}
		e.moveBlocks(n, i, at, keep)
	}
}

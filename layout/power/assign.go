package power

const (
	scale int64 = 64      // costs are multiples of it, multipliers are finer
	never int64 = 1 << 60 // of an outlet that a demand may not take
)

// assignment solves one line-up by itself: the cheapest way to give each row a
// column of its own, by shortest augmenting paths with potentials. Rows are
// demands, columns places on outlets; costs has each pair's, row after row, never
// for none.
//
// When row r cannot be placed, stuck holds the rows that compete with it, r
// first: together they reach fewer columns than they are. Buffers are kept
// between calls.
type assignment struct {
	u, v     []int64 // potentials of rows and columns, from 1
	rowOf    []int   // row in each column, 0 for none
	way      []int
	least    []int64
	seen     []bool
	stuck    []int
	columnOf []int // the answer: column of each row
	total    int64
	all      int // columns
	costs    []int64
}

func (a *assignment) solve(rows, columns int, costs []int64) bool {
	a.all, a.costs = columns, costs
	a.u, a.v = zeros(a.u, rows+1), zeros(a.v, columns+1)
	a.rowOf, a.way = zeros(a.rowOf, columns+1), zeros(a.way, columns+1)
	a.least, a.seen = zeros(a.least, columns+1), zeros(a.seen, columns+1)
	a.columnOf = zeros(a.columnOf, rows)
	for r := 1; r <= rows; r++ {
		if !a.place(r) {
			return false
		}
	}
	a.total = 0
	for c := 1; c <= columns; c++ {
		if r := a.rowOf[c]; r > 0 {
			a.columnOf[r-1] = c - 1
			a.total += costs[(r-1)*columns+c-1]
		}
	}
	return true
}

// place finds the cheapest path from row r to a free column, over columns that
// other rows then give up.
func (a *assignment) place(r int) bool {
	for c := range a.least {
		a.least[c], a.seen[c] = never, false
	}
	a.rowOf[0], a.least[0] = r, 0
	at, far := 0, int64(0) // how far the path to column at is
	for {
		a.seen[at] = true
		row, next, step := a.rowOf[at], -1, never
		mine, base := a.costs[(row-1)*a.all:row*a.all], far-a.u[row]
		least, seen, v := a.least[1:len(mine)+1], a.seen[1:len(mine)+1], a.v[1:len(mine)+1]
		for i, w := range mine {
			if seen[i] {
				continue
			}
			if w < never {
				if d := base + w - v[i]; d < least[i] {
					least[i], a.way[i+1] = d, at
				}
			}
			if least[i] < step {
				step, next = least[i], i+1
			}
		}
		if next < 0 {
			a.competitors()
			return false
		}
		at, far = next, step
		if a.rowOf[at] == 0 {
			break
		}
	}
	for c, seen := range a.seen {
		if seen {
			a.u[a.rowOf[c]] += far - a.least[c]
			a.v[c] -= far - a.least[c]
		}
	}
	for at != 0 {
		a.rowOf[at] = a.rowOf[a.way[at]]
		at = a.way[at]
	}
	return true
}

func (a *assignment) competitors() {
	a.stuck = a.stuck[:0]
	for c := 0; c <= a.all; c++ {
		if a.seen[c] {
			a.stuck = append(a.stuck, a.rowOf[c]-1)
		}
	}
}

// zeros returns a slice of n zeros in the room of s.
func zeros[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	s = s[:n]
	clear(s)
	return s
}

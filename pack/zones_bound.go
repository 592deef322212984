package pack

import (
	"cmp"
	"slices"
)

// tight is a choice of one zone for each of some levels, all of one group, in
// which all items together need as much room as there is, or more.
type tight struct {
	zones []*zone
	need  int64
	room  int64
}

// areaBound compares what the items cover at least with the floor there is,
// for each choice of a zone from each set of levels of a group. It drops cells
// that alone would break a bound, and returns a reason when one is broken, else
// the choices that leave no room at all.
func (m *model) areaBound(levels []level) (*Reason, []tight) {
	var tights []tight
	for again := true; again; {
		again = false
		tights = tights[:0]
		for at := 0; at < len(levels); {
			end := at
			for end < len(levels) && levels[end].group == levels[at].group {
				end++
			}
			sets := chooseZones(levels[at:end], 4096)
			at = end
			for _, zs := range sets {
				t, dropped := m.weigh(zs)
				if t.need > t.room {
					return m.areaReason(t), nil
				}
				if t.need == t.room && t.room > 0 {
					tights = append(tights, t)
				}
				again = again || dropped
			}
		}
	}
	return nil, tights
}

// chooseZones lists the ways to take at most one zone of each level.
func chooseZones(levels []level, limit int) [][]*zone {
	sets := [][]*zone{nil}
	for _, lv := range levels {
		for _, s := range sets[:len(sets):len(sets)] {
			for _, zn := range lv.zones {
				if len(sets) < limit {
					sets = append(sets, append(s[:len(s):len(s)], zn))
				}
			}
		}
	}
	return sets[1:]
}

// weigh sums up the zones zs and marks cells that need too much as dropped.
func (m *model) weigh(zs []*zone) (tight, bool) {
	t := tight{zones: zs}
	for _, zn := range zs {
		t.room += zn.room
	}
	least := make([]int64, len(m.cells))
	take := func(i, k int) int64 {
		v := int64(0)
		for _, zn := range zs {
			v += zn.covers[i][k].area
		}
		return v
	}
	for i := range m.cells {
		first := true
		for k := range m.cells[i] {
			if m.dropped(i, k) {
				continue
			}
			if v := take(i, k); first || v < least[i] {
				least[i], first = v, false
			}
		}
		t.need += least[i]
	}
	any := false
	if t.need > t.room {
		return t, false
	}
	for i := range m.cells {
		for k := range m.cells[i] {
			if m.dropped(i, k) {
				continue
			}
			v := take(i, k)
			if t.need-least[i]+v > t.room {
				m.drop(i, k)
				any = true
			}
		}
	}
	return t, any
}

func (m *model) areaReason(t tight) *Reason {
	r := &Reason{Rule: "area", Need: t.need, Have: t.room}
	for i := range m.cells {
		for k := range m.cells[i] {
			taken := false
			for _, zn := range t.zones {
				taken = taken || zn.covers[i][k].area > 0
			}
			if taken {
				r.Items = append(r.Items, i)
				break
			}
		}
	}
	return r
}

// crowded returns for each level the zones, up to n, that would overflow the
// most if each item took of them what it can.
func (m *model) crowded(levels []level, n int) []tight {
	var out []tight
	for _, lv := range levels {
		var ts []tight
		for _, zn := range lv.zones {
			t := tight{zones: []*zone{zn}, room: zn.room}
			for _, row := range zn.covers {
				most := int64(0)
				for _, cv := range row {
					most = max(most, cv.area)
				}
				t.need += most
			}
			if t.need > t.room {
				ts = append(ts, t)
			}
		}
		slices.SortStableFunc(ts, func(a, b tight) int {
			return cmp.Compare(float64(b.need)/float64(b.room), float64(a.need)/float64(a.room))
		})
		out = append(out, ts[:min(n, len(ts))]...)
	}
	return out
}

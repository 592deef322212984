package pack

import (
	"testing"

	"pgregory.net/rapid"
)

// The zones that are made are those left of all that there could be.
func TestOutdoneSlabsAreLesser(t *testing.T) {
	spared := 0
	check := func(t failer, p *Problem) {
		m := compile(p, false)
		for _, g := range m.groups() {
			for k := range m.kinds {
				z := m.kinds[k].z
				ends, hull := m.spanOf(g, z)
				var all []*zone
				for i := 0; i+1 < len(ends); i++ {
					all = append(all, m.newZone(g, hull, ends[i], ends[i+1]))
				}
				n := len(all)
				want, got := dropLesser(all), m.levelOf(g, z).zones
				spared += n - len(got)
				if len(want) != len(got) {
					t.Fatalf("group %b, height %d: %d zones, want %d", g, z, len(got), len(want))
				}
				for i := range want {
					if want[i].z0 != got[i].z0 || want[i].z1 != got[i].z1 || want[i].room != got[i].room {
						t.Fatalf("group %b, height %d: zone %d is %d to %d, want %d to %d", g, z, i, got[i].z0, got[i].z1, want[i].z0, want[i].z1)
					}
				}
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) { check(t, drawProblem(t)) })
	// Two slabs that are alike for all that can be placed: the shape that has more in
	// the upper one stands nowhere but in the obstacle.
	check(t, &Problem{
		Items: []Item{{Groups: AllGroups,
			Shapes:  []Shape{{Boxes: []Box{{X1: 1, Y1: 1, Z0: 1, Z1: 2}}}, {Boxes: []Box{{X1: 1, Y1: 1, Z1: 2}}}},
			Regions: []Region{{Shape: 0, Y0: 1, Y1: 1}, {Shape: 1}}}},
		Obstacles: []Obstacle{{Box: Box{X1: 1, Y0: 1, Y1: 2, Z1: 2}}},
	})
	for seed := range int64(10) {
		check(t, Planted(seed, 12, false))
	}
	if spared == 0 {
		t.Error("no slab was outdone")
	}
}

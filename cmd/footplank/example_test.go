package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// jsonReport is what another program would read of a report: plain numbers and
// names, nothing shared with the packages that made it.
type jsonReport struct {
	Schema string
	Board  struct {
		Width    float64                                    `json:"width_mm"`
		Depth    float64                                    `json:"depth_mm"`
		Overhang struct{ Front, Back, Left, Right float64 } `json:"overhang_mm"`
		Obstacle []struct {
			Name string
			Box  [6]float64
		} `json:"obstacles"`
	}
	Lineups []struct {
		Name, Verdict string
		Units         []struct {
			ID    string
			Boxes []struct {
				Part, Jack string
				Box        [6]float64
			}
		}
		Findings []struct{ Code, Level string }
	}
}

// The main job, seen from outside: the example arranged, every line-up fitting,
// and in no line-up two units in the same room, by the report's own figures.
func TestExampleFitsInEveryLineup(t *testing.T) {
	out, code := command(t, "--json")
	require.Equal(t, exitFine, code)
	r := parsed(t, out)
	assert.Equal(t, "footplank/report/1", r.Schema)
	require.Len(t, r.Lineups, 3)
	placed := map[string]bool{}
	for _, l := range r.Lineups {
		assert.Equal(t, "fits", l.Verdict, l.Name)
		assert.GreaterOrEqual(t, len(l.Units), 10, l.Name)
		for _, u := range l.Units {
			placed[u.ID] = true
			assert.NotEmpty(t, u.Boxes, u.ID)
		}
	}
	assert.GreaterOrEqual(t, len(placed), 14)
	assert.LessOrEqual(t, len(placed), 18)
	assert.Empty(t, overlaps(r))
	assert.Empty(t, pastEdges(r))
	checksCanFail(t, parsed(t, out))

	again, _ := command(t, "--json")
	assert.Equal(t, string(out), string(again), "the report must be the same each time")
}

func parsed(t *testing.T, out []byte) *jsonReport {
	t.Helper()
	r := &jsonReport{}
	require.NoError(t, json.Unmarshal(out, r))
	return r
}

// checksCanFail pushes units of a sound report about and wants that to be seen.
func checksCanFail(t *testing.T, r *jsonReport) {
	t.Helper()
	units := r.Lineups[0].Units
	units[1].Boxes[0].Box = units[0].Boxes[0].Box
	assert.NotEmpty(t, overlaps(r), "two bodies in one place")
	for i := range units[0].Boxes {
		units[0].Boxes[i].Box[0] -= r.Board.Width
		units[0].Boxes[i].Box[3] -= r.Board.Width
	}
	assert.NotEmpty(t, pastEdges(r), "a body off the board")
	r.Board.Obstacle[0].Box = [6]float64{-r.Board.Width, -r.Board.Depth, 0, 2 * r.Board.Width, 2 * r.Board.Depth, 1}
	assert.Greater(t, len(overlaps(r)), len(units), "a plank through everything on the deck")
}

// overlaps lists the pairs of units, and of unit and obstacle, that want the
// same room in one line-up. Boxes are half-open: touching is allowed.
func overlaps(r *jsonReport) []string {
	meet := func(a, b [6]float64) bool {
		for axis := range 3 {
			if a[axis+3] <= b[axis] || b[axis+3] <= a[axis] {
				return false
			}
		}
		return true
	}
	var found []string
	for _, l := range r.Lineups {
		for i, u := range l.Units {
			for _, box := range u.Boxes {
				for _, o := range r.Board.Obstacle {
					if meet(box.Box, o.Box) {
						found = append(found, fmt.Sprintf("%s: %s %s %s and %s", l.Name, u.ID, box.Part, box.Jack, o.Name))
					}
				}
				for _, v := range l.Units[:i] {
					for _, other := range v.Boxes {
						if meet(box.Box, other.Box) {
							found = append(found, fmt.Sprintf("%s: %s %s %s and %s %s %s", l.Name,
								u.ID, box.Part, box.Jack, v.ID, other.Part, other.Jack))
						}
					}
				}
			}
		}
	}
	return found
}

// pastEdges lists the bodies that stand further past the board's edges than
// its overhang.
func pastEdges(r *jsonReport) []string {
	var found []string
	b := &r.Board
	for _, l := range r.Lineups {
		for _, u := range l.Units {
			for _, box := range u.Boxes {
				x := box.Box
				if box.Part == "body" && (x[0] < -b.Overhang.Left || x[1] < -b.Overhang.Front ||
					x[3] > b.Width+b.Overhang.Right || x[4] > b.Depth+b.Overhang.Back) {
					found = append(found, fmt.Sprintf("%s: %s at %v", l.Name, u.ID, x))
				}
			}
		}
	}
	return found
}

// command runs the program without a terminal and with the built-in catalog
// alone, and returns what it printed as data and its exit code.
func command(t *testing.T, args ...string) (data []byte, code int) {
	t.Helper()
	cmd := exec.Command("footplank", args...)
	cmd.Env = append(os.Environ(), "XDG_CONFIG_HOME="+t.TempDir())
	var said bytes.Buffer
	cmd.Stderr = &said
	data, err := cmd.Output()
	if said.Len() > 0 {
		t.Logf("standard error: %s", &said)
	}
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		return data, exit.ExitCode()
	}
	require.NoError(t, err)
	return data, exitFine
}

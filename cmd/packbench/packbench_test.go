package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/pack"
)

func session(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(context.Background(), args, &o, &e)
	return code, o.String(), e.String()
}

func shared(parts ...string) string {
	return filepath.Join(append([]string{"..", "..", "testdata", "pack"}, parts...)...)
}

// columns drops the seconds, which differ from run to run.
func columns(line string) string {
	return line[:strings.LastIndex(line, "\t")]
}

func TestLines(t *testing.T) {
	code, out, errs := session("-seconds", "60",
		shared("feas", "CJCM_E02F17.txt"), shared("feas", "CJCM_E03N10.txt"),
		shared("perfect", "MORON_33x32.txt"), shared("minbox", "KORF_SQ_10.txt"),
		shared("minsquare", "A005842_10.txt"), shared("strip", "HT_C1_P1.txt"))
	require.Equal(t, exitFine, code, errs)
	assert.Empty(t, errs)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	want := []string{
		"CJCM_E02F17\tcontainer\t17\tfits\tyes\tfits\t-",
		"CJCM_E03N10\tcontainer\t10\timpossible\tyes\timpossible\t-",
		"MORON_33x32\tcontainer\t9\tfits\tyes\tfits\t-",
		"KORF_SQ_10\tcontainer\t10\tfits\tyes\tfits\t-",
		"A005842_10\tmin-square\t10\t21\tyes\t21\t0.00",
		"HT_C1_P1\tstrip\t16\t20\tyes\t20\t0.00",
	}
	require.Len(t, lines, len(want))
	for i := range want {
		assert.Equal(t, want[i], columns(lines[i]))
	}
}

func TestPlacementsInInputOrder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "folder")
	file := filepath.Join(t.TempDir(), "small.txt")
	require.NoError(t, os.WriteFile(file, []byte("# ours\ncontainer 5 3\n2 3\n3 1\n2 3\n"), 0o666))
	code, out, errs := session("-turn", "-placements", dir, file)
	require.Equal(t, exitFine, code, errs)
	assert.Equal(t, "small\tcontainer\t3\tfits\tyes\t-\t-", columns(strings.TrimSpace(out)))
	got, err := os.ReadFile(filepath.Join(dir, "small.txt"))
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(got)), "\n")
	require.Len(t, lines, 3)
	assert.Regexp(t, `^\d \d 2 3$`, lines[0])
	assert.Regexp(t, `^\d \d 1 3$`, lines[1], "fits only turned")
	assert.Regexp(t, `^\d \d 2 3$`, lines[2])
}

func TestNoFileForWhatDoesNotFit(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	code, out, _ := session("-placements", dir, shared("feas", "CJCM_E00N10.txt"))
	require.Equal(t, exitFine, code)
	assert.Contains(t, out, "\timpossible\tyes\timpossible\t-\t")
	_, err := os.Stat(dir)
	assert.ErrorIs(t, err, os.ErrNotExist)
}

func TestUndecidedWhenTheTimeIsUp(t *testing.T) {
	file := filepath.Join(t.TempDir(), "hard.txt")
	text := "container 70 70\n"
	for s := 24; s > 0; s-- {
		text += strings.Repeat(string(rune('0'+s/10))+string(rune('0'+s%10))+" ", 2) + "\n"
	}
	require.NoError(t, os.WriteFile(file, []byte(text), 0o666))
	code, out, errs := session("-seconds", "0.05", file)
	require.Equal(t, exitFine, code, errs)
	assert.Equal(t, "hard\tcontainer\t24\tundecided\tno\t-\t-", columns(strings.TrimSpace(out)))
}

func TestBadFilesAndUsage(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.txt")
	require.NoError(t, os.WriteFile(bad, []byte("# ours\ncontainer 5 3\n2 three\n"), 0o666))
	twin := filepath.Join(t.TempDir(), "CJCM_E00N10.txt")
	require.NoError(t, os.WriteFile(twin, []byte("container 5 3\n2 3\n"), 0o666))
	for _, c := range []struct {
		want string
		args []string
	}{
		{bad + `:3: "three": want a whole number`, []string{shared("feas", "CJCM_E00N10.txt"), bad}},
		{"nowhere.txt", []string{"nowhere.txt"}},
		{"no files", nil},
		{"-seconds 0", []string{"-seconds", "0", bad}},
		{"-seconds", []string{"-seconds", "soon", bad}},
		{"-boards -1", []string{"-boards", "-1"}},
		{"-placements " + twin + ": is a file, want a folder", []string{"-placements", twin, shared("feas", "CJCM_E00N10.txt")}},
		{"-boards goes with", []string{"-boards", "1", bad}},
		{"would both write CJCM_E00N10.txt", []string{"-placements", t.TempDir(), twin, shared("feas", "CJCM_E00N10.txt")}},
	} {
		code, out, errs := session(c.args...)
		assert.Equal(t, exitUsage, code, c.args)
		assert.Contains(t, errs, c.want)
		assert.Empty(t, out, c.args)
	}
}

func TestHelp(t *testing.T) {
	code, _, errs := session("-h")
	assert.Equal(t, exitFine, code)
	assert.Contains(t, errs, "-placements")
}

func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var o, e bytes.Buffer
	assert.Equal(t, exitInterrupted, run(ctx, []string{shared("feas", "CJCM_E00N10.txt")}, &o, &e))
}

func TestBoards(t *testing.T) {
	code, out, errs := session("-boards", "2", "-seed", "5", "-seconds", "60")
	require.Equal(t, exitFine, code, errs)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 6)
	assert.Equal(t, "planted-5-8\tboard\t8\tfits\tyes\tfits\t-", columns(lines[0]))
	assert.Equal(t, "planted-5-8\tboard-too-large\t8\timpossible\tyes\timpossible\t-", columns(lines[1]))
	assert.Equal(t, "median\tboard\t2\t2 decided\t-\t-\t-", columns(lines[4]))
	assert.Equal(t, "median\tboard-too-large\t2\t2 decided\t-\t-\t-", columns(lines[5]))
}

func TestVerifyRects(t *testing.T) {
	rects := []pack.Rect{{W: 2, H: 3}, {W: 3, H: 1, Turn: true}}
	right := []pack.RectPlace{{X: 0, Y: 0}, {X: 2, Y: 0, Turned: true}}
	require.NoError(t, verifyRects(3, 3, rects, right))
	for want, at := range map[string][]pack.RectPlace{
		"1 places for 2":   right[:1],
		"overlap":          {{X: 0, Y: 0}, {X: 1, Y: 0, Turned: true}},
		"0 at 0,1 stands":  {{X: 0, Y: 1}, {X: 2, Y: 0, Turned: true}},
		"1 at 3,0 stands":  {{X: 0, Y: 0}, {X: 3, Y: 0, Turned: true}},
		"0 is turned":      {{X: 0, Y: 0, Turned: true}, {X: 2, Y: 0, Turned: true}},
		"0 at -1,0 stands": {{X: -1, Y: 0}, {X: 2, Y: 0, Turned: true}},
	} {
		assert.ErrorContains(t, verifyRects(3, 3, rects, at), want)
	}
}

func TestVerifyBoard(t *testing.T) {
	item := func(groups pack.Mask) pack.Item {
		return pack.Item{
			Groups:  groups,
			Shapes:  []pack.Shape{{Boxes: []pack.Box{{X1: 2, Y1: 2, Z1: 1}}}},
			Regions: []pack.Region{{X1: 3, Y1: 3}, {X1: 3, Y1: 3, Z: 1}},
		}
	}
	p := &pack.Problem{
		Items:     []pack.Item{item(1), item(3)},
		Obstacles: []pack.Obstacle{{Box: pack.Box{X0: 4, X1: 5, Y1: 5, Z1: 1, Groups: 2}}},
	}
	require.NoError(t, verifyBoard(p, []pack.Place{{X: 3}, {X: 1}}), "the obstacle is of another group")
	require.NoError(t, verifyBoard(p, []pack.Place{{X: 3}, {X: 3, Region: 1}}), "one above the other")
	for want, at := range map[string][]pack.Place{
		"1 places for 2":             {{}},
		"items or obstacles 0 and 1": {{X: 1}, {}},
		"items or obstacles 1 and 2": {{}, {X: 3}},
		"item 0 stands outside":      {{X: 4}, {}},
		"item 1 names region 2":      {{}, {Region: 2}},
	} {
		assert.ErrorContains(t, verifyBoard(p, at), want)
	}
}

func TestMedian(t *testing.T) {
	assert.Equal(t, 2.0, median([]float64{3, 1, 2}))
	assert.Equal(t, 1.5, median([]float64{2, 1}))
}

package plate

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"footplank/layout"
	"footplank/layout/mount"
	"footplank/layout/paper"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dots is how many pixels a millimetre has: 254 dots per inch.
const dots = 10

// tool returns the path of a program that other people wrote, or skips the test.
func tool(t *testing.T, name, from string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed (Debian's %s has it): the pages are not measured as pictures here", name, from)
	}
	return path
}

// picture is a page as pixels.
type picture struct{ *image.Gray }

func (p picture) dark(x, y int) bool {
	return image.Pt(x, y).In(p.Bounds()) && p.GrayAt(x, y).Y < 128
}

func readPicture(t *testing.T, file []byte) picture {
	img, err := png.Decode(bytes.NewReader(file))
	require.NoError(t, err)
	g := image.NewGray(img.Bounds())
	switch c := img.(type) { // green stands for all: there is no colour
	case *image.Gray:
		g = c
	case *image.RGBA:
		for i := range g.Pix {
			g.Pix[i] = c.Pix[4*i+1]
		}
	case *image.NRGBA:
		for i := range g.Pix {
			g.Pix[i] = c.Pix[4*i+1]
		}
	default:
		require.Fail(t, "a picture of another kind", "%T", img)
	}
	return picture{g}
}

// render turns a page into pixels.
func render(t *testing.T, file string, page int) picture {
	cmd := exec.Command(tool(t, "pdftoppm", "poppler-utils"), "-r", "254", "-gray", "-f", strconv.Itoa(page), "-l", strconv.Itoa(page), file)
	out, err := cmd.Output()
	require.NoError(t, err)
	return readPGM(t, out)
}

// readPGM reads a picture in shades of grey: "P5", width, height, the most a
// dot can be, and a byte for each dot.
func readPGM(t *testing.T, file []byte) picture {
	var w, h, most int
	_, err := fmt.Sscanf(string(file[:min(len(file), 40)]), "P5\n%d %d\n%d", &w, &h, &most)
	require.NoError(t, err)
	require.Equal(t, 255, most)
	return picture{&image.Gray{Pix: file[len(file)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}}
}

// lineNear returns where an upright line is: the middle of the columns, no
// further than 2 mm from x, that are dark for 60 % of the way from y0 to y1.
// All in mm.
func (p picture) lineNear(x, y0, y1 float64) (float64, bool) {
	return p.near(x, y0, y1, p.dark)
}

// levelNear is lineNear for a level line.
func (p picture) levelNear(y, x0, x1 float64) (float64, bool) {
	return p.near(y, x0, x1, func(y, x int) bool { return p.dark(x, y) })
}

func (p picture) near(at, from, to float64, dark func(a, b int) bool) (float64, bool) {
	best, sum, n := math.Inf(1), 0.0, 0
	var cols []int
	for c := int((at - 2) * dots); c <= int((at+2)*dots); c++ {
		hit, all := 0, 0
		for r := int(from * dots); r < int(to*dots); r++ {
			all++
			if dark(c, r) {
				hit++
			}
		}
		if all > 0 && hit*100 >= all*60 {
			cols = append(cols, c)
		}
	}
	for i := 0; i < len(cols); { // lines are runs of columns; take the nearest
		j := i
		for j+1 < len(cols) && cols[j+1] == cols[j]+1 {
			j++
		}
		mid := (float64(cols[i]) + float64(cols[j]) + 1) / 2 / dots
		if math.Abs(mid-at) < best {
			best, sum, n = math.Abs(mid-at), mid, 1
		}
		i = j + 1
	}
	return sum, n > 0
}

func writeFile(t *testing.T, name string, b []byte) string {
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, b, 0o600))
	return path
}

// The pages as another program sees them: the bar is 100 mm long, and each
// side of each piece is where the plan says, seen from the board's outline.
func TestPagesMeasuredAsPictures(t *testing.T) {
	p := example(t, "pocket")
	for _, size := range paper.Sizes() {
		b := examplePDF(t, "pocket", size)
		file := writeFile(t, "sheet.pdf", b)
		pages := readPDF(t, b)
		found := make([]sides4, len(mount.Lay(p).Board))
		board := mount.Lay(p).Board
		for i := range pages {
			if !strings.HasPrefix(pages[i].words[0], "In every line-up") {
				continue
			}
			img := render(t, file, i+1)
			assert.InDelta(t, pages[i].w*dots, float64(img.Bounds().Dx()), 1.01, "width of the page in tenths of a mm")
			measureBar(t, img, pages[i].h)
			for k, m := range board {
				measurePiece(t, p, img, &pages[i], m.At, &found[k])
			}
		}
		for k, m := range board {
			assert.Equal(t, sides4{true, true, true, true}, found[k], "sides of the piece at %v found on %s", m.At, size.Name)
		}
	}
}

func measureBar(t *testing.T, img picture, high float64) {
	in := paper.PrinterMargin.MM()
	left, ok := img.lineNear(in+0.2, high-in-9.8, high-in-6.5)
	require.True(t, ok, "left end of the bar")
	right, ok := img.lineNear(in+100.2, high-in-9.8, high-in-6.5)
	require.True(t, ok, "right end of the bar")
	assert.InDelta(t, 100, right-left, tolerance)
}

// sides4 is which sides of a piece were measured: left, right, back, front.
type sides4 [4]bool

// measurePiece finds the sides of a piece in the picture, those that the page
// shows, and measures them from the board's front edge too where the page has it.
func measurePiece(t *testing.T, p *layout.Plan, img picture, page *pdfPage, at layout.Rect, found *sides4) {
	out, ok := boardAt(p, page)
	require.True(t, ok)
	frame := paper.Body(paper.Size{W: layout.Length(math.Round(page.w * 1000)), H: layout.Length(math.Round(page.h * 1000))})
	body := mmBox{frame.X0.MM() + 1, frame.Y0.MM() + 1, frame.X1.MM() - 1, frame.Y1.MM() - 1}
	r := onPage(out, at)
	for i, side := range []struct {
		want       float64
		level      bool
		from, to   float64
		least, end float64 // of the page, for where it is
	}{
		{r.x0, false, max(r.y0+1, body.y0), min(r.y1-1, body.y1), body.x0, body.x1},
		{r.x1, false, max(r.y0+1, body.y0), min(r.y1-1, body.y1), body.x0, body.x1},
		{r.y0, true, max(r.x0+1, body.x0), min(r.x1-1, body.x1), body.y0, body.y1},
		{r.y1, true, max(r.x0+1, body.x0), min(r.x1-1, body.x1), body.y0, body.y1},
	} {
		if side.to-side.from < 4 || side.want < side.least || side.want > side.end {
			continue
		}
		find := img.lineNear
		if side.level {
			find = img.levelNear
		}
		got, ok := find(side.want, side.from, side.to)
		if assert.True(t, ok, "side %d of the piece at %v", i, at) {
			found[i] = true
			assert.InDelta(t, side.want, got, tolerance, "side %d of the piece at %v", i, at)
		}
	}
	if front := out.y1; front < body.y1 {
		got, ok := img.levelNear(front, max(out.x0, body.x0)+1, min(out.x1, body.x1)-1)
		if assert.True(t, ok, "the board's front edge") {
			assert.InDelta(t, front, got, tolerance)
		}
	}
}

// Tiles that overlap show the same there, dot for dot.
func TestOverlapsAreTheSamePicture(t *testing.T) {
	b := examplePDF(t, "pocket", paper.A4)
	file := writeFile(t, "sheet.pdf", b)
	numbers := map[string]int{}
	for i, p := range readPDF(t, b) {
		if p.words[0] == "In every line-up: "+layout.DeckName {
			numbers[p.words[1]] = i + 1
		}
	}
	require.Contains(t, numbers, "A1")
	require.Contains(t, numbers, "B1")
	left, right := render(t, file, numbers["A1"]), render(t, file, numbers["B1"])
	size := paper.A4
	if left.Bounds().Dx() > left.Bounds().Dy() {
		size = size.Across()
	}
	body := paper.Body(size)
	step := int((body.W() - paper.Overlap).MM() * dots)
	differ, ink := 0, 0
	for y := int(body.Y0.MM()*dots) + 5; y < int(body.Y1.MM()*dots)-5; y++ {
		for x := int((body.X1-paper.Overlap).MM()*dots) + 5; x < int(body.X1.MM()*dots)-5; x++ {
			a, b := left.dark(x, y), right.dark(x-step, y)
			if a {
				ink++
			}
			if a != b && left.dark(x, y) != right.dark(x-step-1, y) && left.dark(x, y) != right.dark(x-step+1, y) {
				differ++ // by more than rounding to a dot
			}
		}
	}
	assert.Greater(t, ink, 1000)
	assert.Less(t, differ*1000, ink, "of %d dark dots", ink)
}

// The SVG as another program draws it: the board and a piece are where they
// should be.
func TestSVGMeasuredAsPicture(t *testing.T) {
	rsvg := tool(t, "rsvg-convert", "librsvg2-bin")
	b := exampleSVG(t, "pocket", "stickers")
	cmd := exec.Command(rsvg, "-d", "254", "-p", "254", "-f", "png")
	cmd.Stdin = bytes.NewReader(b)
	out, err := cmd.Output()
	require.NoError(t, err)
	img := readPicture(t, out)
	rects, _ := readSVG(t, b)
	measured := 0
	for _, r := range rects {
		if r.class != "piece" && r.class != "base" {
			continue
		}
		for _, side := range []struct{ x, y0, y1 float64 }{{r.at.x0, r.at.y0 + 1, r.at.y1 - 1}, {r.at.x1, r.at.y0 + 1, r.at.y1 - 1}} {
			got, ok := img.lineNear(side.x, side.y0, side.y1)
			if assert.True(t, ok, "%s %v", r.class, r.at) {
				assert.InDelta(t, side.x, got, tolerance)
				measured++
			}
		}
	}
	assert.Greater(t, measured, 20)
	left, ok := img.lineNear(10, 10+13+0.2, 10+13+3.5)
	require.True(t, ok)
	right, ok := img.lineNear(110, 10+13+0.2, 10+13+3.5)
	require.True(t, ok)
	assert.InDelta(t, 100, right-left, tolerance)
}

var (
	bboxPage = regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)">`)
	bboxWord = regexp.MustCompile(`<word xMin="(-?[\d.]+)" yMin="(-?[\d.]+)" xMax="(-?[\d.]+)" yMax="(-?[\d.]+)">(.*?)</word>`)
)

// Each unit that the true-scale sheets are about has its name whole on a page,
// not cut by its edge, as another program finds it.
func TestLabelsAreWholeOnAPage(t *testing.T) {
	pdftotext := tool(t, "pdftotext", "poppler-utils")
	for _, name := range examples {
		for _, size := range paper.Sizes() {
			p := example(t, name)
			file := writeFile(t, "sheet.pdf", examplePDF(t, name, size))
			out, err := exec.Command(pdftotext, "-bbox", file, "-").Output()
			require.NoError(t, err)
			starts := bboxPage.FindAllSubmatchIndex(out, -1)
			whole := map[string]bool{}
			for i, page := range readPDF(t, examplePDF(t, name, size)) {
				if !strings.HasPrefix(page.words[0], "In every line-up") && (!strings.HasPrefix(page.words[0], "Line-up") || strings.HasSuffix(page.words[0], "overview")) {
					continue
				}
				end := len(out)
				if i+1 < len(starts) {
					end = starts[i+1][0]
				}
				body := paper.Body(paper.Size{W: layout.Length(math.Round(page.w * 1000)), H: layout.Length(math.Round(page.h * 1000))})
				var seen []string
				for _, w := range bboxWord.FindAllSubmatch(out[starts[i][0]:end], -1) {
					if float(t, w[1])*pt >= body.X0.MM()-0.2 && float(t, w[2])*pt >= body.Y0.MM()-2 && float(t, w[3])*pt <= body.X1.MM()+0.2 && float(t, w[4])*pt <= body.Y1.MM()+2 {
						seen = append(seen, string(w[5]))
					}
				}
				for _, u := range p.Units {
					whole[u.ID] = whole[u.ID] || !slices.ContainsFunc(strings.Fields(u.Label), func(w string) bool { return !slices.Contains(seen, w) })
				}
			}
			_, missing := p.Standings(&p.Lineups[0])
			for _, u := range p.Units {
				assert.True(t, whole[u.ID] || len(missing) > 0, "%s on %s: %s", name, size.Name, u.Label)
			}
		}
	}
}

// Another program finds every label in the text of the PDF, and no fault in it.
func TestLabelsFoundByAnotherProgram(t *testing.T) {
	pdftotext := tool(t, "pdftotext", "poppler-utils")
	for _, name := range examples {
		p := example(t, name)
		file := writeFile(t, "sheet.pdf", examplePDF(t, name, paper.A4))
		cmd := exec.Command(pdftotext, "-layout", file, "-")
		var complaints bytes.Buffer
		cmd.Stderr = &complaints
		out, err := cmd.Output()
		require.NoError(t, err)
		assert.Empty(t, complaints.String())
		for i := range p.Units {
			assert.Contains(t, string(out), p.Units[i].Label, name)
		}
	}
}

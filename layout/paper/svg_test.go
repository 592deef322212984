package paper

import (
	"bytes"
	"encoding/xml"
	"io"
	"os/exec"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSVG(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sample().Pages()[0].SVG(&b, "A <title> & more"))
	golden.RequireEqual(t, b.Bytes())
}

// It is well-formed, and its millimetres are user units.
func TestSVGIsWellFormed(t *testing.T) {
	d := NewDrawing(250*mm, 120500)
	d.Layer("line-up \"x\" <&>/units")
	d.Text(at(10, 10), "a\x00b\ufffe<&>\"", Type{Size: 3 * mm})
	d.Layer("line-up \"x\" <&>")
	d.Layer("line-up _x_ <&>/units") // another name, the same letters
	d.Rect(rect(0, 0, 1, 1), Style{})
	var b bytes.Buffer
	require.NoError(t, d.SVG(&b, "t"))
	dec := xml.NewDecoder(bytes.NewReader(b.Bytes()))
	ids := map[string]int{}
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		for _, a := range e.Attr {
			if a.Name.Local == "id" {
				ids[a.Value]++
			}
			if e.Name.Local == "svg" && a.Name.Local == "viewBox" {
				assert.Equal(t, "0 0 250 120.5", a.Value)
			}
			if e.Name.Local == "svg" && a.Name.Local == "width" {
				assert.Equal(t, "250mm", a.Value)
			}
		}
	}
	for id, n := range ids {
		assert.Equal(t, 1, n, "ID %q", id)
	}
}

// Programs that other people wrote open the files without a complaint, and see
// pages of the right size; skipped where they are not installed.
func TestOtherProgramsOpenThem(t *testing.T) {
	pdfinfo, err := exec.LookPath("pdfinfo")
	if err != nil {
		t.Skip("pdfinfo is not installed (Debian's poppler-utils has it)")
	}
	cmd := exec.Command(pdfinfo, "-f", "1", "-l", "2", "-")
	cmd.Stdin = bytes.NewReader(pdfOf(t, sample()))
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	require.NoError(t, err)
	assert.Empty(t, complaints.String())
	assert.Regexp(t, `Page +1 size: +841\.89 x 595\.28 pts \(A4\)`, string(out))
	assert.Regexp(t, `Page +2 size: +612 x 792 pts \(letter\)`, string(out))
	assert.Regexp(t, `PDF version: +1\.7`, string(out))
}

package book

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/charmbracelet/x/exp/golden"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/document"
	"footplank/layout/paper"
	"footplank/layout/plan"
	"footplank/layout/shopping"
)

// plans are the examples as they were arranged once, the third on a board that
// holds it: what the arranger answers may get better, these stay.
var plans = []string{"ceilidh", "pocket", "door"}

func read(t *testing.T, name string) *layout.Plan {
	src, err := os.ReadFile("testdata/" + name + ".toml")
	require.NoError(t, err)
	d, err := plan.Parse(name+".toml", src, catalog.Builtin())
	require.NoError(t, err)
	return d.Plan
}

var books = map[string]*Book{}

// book returns the book of a plan, made once.
func book(t *testing.T, name string) *Book {
	if books[name] == nil {
		b, err := New(read(t, name))
		require.NoError(t, err)
		books[name] = b
	}
	return books[name]
}

var made = map[*Book]map[string]*document.Document{}

// documents returns all that is printed of a book, made once.
func documents(t *testing.T, b *Book) map[string]*document.Document {
	if made[b] == nil {
		made[b] = printed(t, b)
	}
	return made[b]
}

func printed(t *testing.T, b *Book) map[string]*document.Document {
	change, err := b.Changeovers()
	require.NoError(t, err)
	return map[string]*document.Document{"book": b.Build(), "gig": b.Gig(), "changeover": change, "labels": b.Labels(),
		"shopping": b.Shopping(shopping.Options{}).Document()}
}

func TestMarkdown(t *testing.T) {
	for _, name := range plans {
		for kind, d := range documents(t, book(t, name)) {
			if kind == "labels" || kind == "changeover" {
				continue // as in the text
			}
			t.Run(name+"_"+kind, func(t *testing.T) {
				var out bytes.Buffer
				require.NoError(t, d.Markdown(&out))
				golden.RequireEqual(t, out.String())
			})
		}
	}
}

func TestText(t *testing.T) {
	for _, name := range plans {
		for kind, d := range documents(t, book(t, name)) {
			t.Run(name+"_"+kind, func(t *testing.T) {
				var out bytes.Buffer
				require.NoError(t, d.Text(&out, document.TextWidth))
				golden.RequireEqual(t, out.String())
			})
		}
	}
}

func TestCSV(t *testing.T) {
	for _, name := range plans {
		b := book(t, name)
		for kind, write := range map[string]func(io.Writer) error{"cables": b.CablesCSV, "leads": b.LeadsCSV} {
			t.Run(name+"_"+kind, func(t *testing.T) {
				var out bytes.Buffer
				require.NoError(t, write(&out))
				rows, err := csv.NewReader(strings.NewReader(out.String())).ReadAll()
				require.NoError(t, err)
				uses := 0
				if kind == "cables" {
					for _, k := range b.w.Kit {
						uses += len(k.Uses)
					}
				} else {
					uses = len(b.m.Leads)
				}
				assert.Len(t, rows, 1+uses)
				golden.RequireEqual(t, out.String())
			})
		}
	}
}

func pdf(t *testing.T, d *document.Document, s paper.Size) []byte {
	var out bytes.Buffer
	_, err := d.PDF(&out, s)
	require.NoError(t, err)
	return out.Bytes()
}

// pages returns the texts of a PDF's pages as a reader of PDFs finds them.
func pages(t *testing.T, file []byte) []string {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed: the text of PDFs is not looked at")
	}
	c := exec.Command(tool, "-layout", "-", "-")
	c.Stdin = bytes.NewReader(file)
	out, err := c.Output()
	require.NoError(t, err)
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

// A gig card is one page, on either paper, and names every unit of its line-up
// and every cable in it.
func TestGigCardsTakeAPageEach(t *testing.T) {
	for _, name := range plans {
		b := book(t, name)
		for _, size := range paper.Sizes() {
			got := pages(t, pdf(t, documents(t, b)["gig"], size))
			require.Len(t, got, len(b.p.Lineups), "%s on %s", name, size.Name)
			for i := range b.p.Lineups {
				l := &b.p.Lineups[i]
				for _, u := range b.p.UnitsIn(l) {
					assert.Contains(t, got[i], u.Label)
				}
				for _, c := range b.w.Of(l.Name).Cables {
					if c.Kit != "" {
						assert.Contains(t, got[i], "dead: "+c.Kit)
					}
				}
			}
		}
	}
}

// The printed book says what the plan has: all units, cables and leads.
func TestBookIsWhole(t *testing.T) {
	for _, name := range plans {
		b := book(t, name)
		text := strings.Join(pages(t, pdf(t, documents(t, b)["book"], paper.A4)), "")
		for i := range b.p.Units {
			assert.Contains(t, text, b.p.Units[i].Label)
		}
		for _, k := range b.w.Kit {
			assert.Contains(t, text, k.Label)
		}
		for _, l := range b.leads {
			assert.Contains(t, text, l.Label)
		}
		for i := range b.f.Board {
			assert.Contains(t, text, b.num(b.f.Board[i].Cut))
		}
		for _, s := range []string{"licensed person", "Never open a supply", "72 hours", "half and half", layout.Warmth(49, b.unit()), (23 * layout.Kilogram).Carried(b.unit())} {
			assert.Contains(t, strings.Join(strings.Fields(text), " "), s)
		}
	}
}

// Every cable and lead has a label for each end.
func TestLabelsAreTwoEach(t *testing.T) {
	for _, name := range plans {
		b := book(t, name)
		text := strings.Join(pages(t, pdf(t, b.Labels(), paper.Letter)), "")
		for _, k := range b.w.Kit {
			// Each label has its words on both halves.
			assert.Equal(t, 4, strings.Count(text, k.Label), k.Label)
		}
		for _, l := range b.leads {
			assert.Equal(t, 4, strings.Count(text, l.Label), l.Label)
		}
	}
}

func TestPDFIsTheSameEachTime(t *testing.T) {
	again, err := New(read(t, "pocket"))
	require.NoError(t, err)
	for kind, d := range documents(t, again) {
		assert.Equal(t, pdf(t, documents(t, book(t, "pocket"))[kind], paper.A4), pdf(t, d, paper.A4), kind)
	}
}

// Labels in any script are printed, or said to be replaced.
func TestLabelsInAnyScript(t *testing.T) {
	p := read(t, "pocket")
	for i, s := range []string{"Эхо", "残響", "צליל", "e\u0301cho", "😀 | *x*", strings.Repeat("long ", 30)} {
		p.Units[i].Label = s
	}
	b, err := New(p)
	require.NoError(t, err)
	var out bytes.Buffer
	replaced, err := b.Gig().PDF(&out, paper.A4)
	require.NoError(t, err)
	said := fmt.Sprint(replaced)
	for _, r := range replaced {
		assert.NotEqual(t, "Эхо", r.Text)
	}
	for _, s := range []string{"残響", "צליל", "😀"} {
		assert.Contains(t, said, s)
	}
	for _, id := range []string{"clean", "bark", "box"} { // one can tell them apart
		assert.Contains(t, said, "("+id+")")
	}
}

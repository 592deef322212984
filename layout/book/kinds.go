package book

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/document"
	"footplank/layout/paper"
	"footplank/layout/plate"
	"footplank/layout/sheet"
	"footplank/layout/shopping"
)

// Kind is a kind of sheet, with the forms that it has.
type Kind struct {
	Name  string
	About string // in a few words
	// Each is set where naming line-ups makes a difference; Unplaced where it
	// does no harm that units have no place.
	Each, Unplaced bool
	forms          map[string]writer
}

// printing is one sheet being made.
type printing struct {
	p        *layout.Plan
	w        io.Writer
	paper    paper.Size
	lineups  []string
	cols     int
	replaced []paper.Replaced
}

// writer writes a sheet in one form.
type writer func(*printing) error

// Sheet is a sheet to be made.
type Sheet struct {
	Kind    *Kind
	Ending  string     // of the file's name, which is the form: ".pdf"
	Paper   paper.Size // of a PDF's pages, A4 if zero
	Lineups []string   // nil for all
	Cols    int        // of text to read, 80 for 0
}

// kinds are all kinds of sheets, in the order in which help names them.
var kinds = []Kind{
	{Name: "placement", About: "fastener and units, true to scale", Each: true, forms: map[string]writer{
		".txt": placementAs("txt"), ".csv": placementAs("csv"), ".json": report,
		".svg": func(s *printing) error { return plate.SVG(s.w, s.p, s.plate()) },
		".pdf": func(s *printing) error { return s.note(plate.PDF(s.w, s.p, s.plate())) },
	}},
	{Name: "underside", About: "the board seen from below, mirrored", Each: true, forms: map[string]writer{
		".svg": func(s *printing) error { return plate.UndersideSVG(s.w, s.p, s.plate()) },
		".pdf": func(s *printing) error { return s.note(plate.UndersidePDF(s.w, s.p, s.plate())) },
	}},
	{Name: "stickers", About: "the base of each unit with its pieces, 1:1", forms: map[string]writer{
		".svg": func(s *printing) error { return plate.StickersSVG(s.w, s.p, s.plate()) },
		".pdf": func(s *printing) error { return s.note(plate.StickersPDF(s.w, s.p, s.plate())) },
	}},
	{Name: "book", About: "the build book: all there is to build, in order", forms: written((*Book).Build, nil)},
	{Name: "gig", About: "a card for each line-up: what to plug where", Each: true, forms: ofBook(func(b *Book, s *printing) (*document.Document, error) {
		return b.Gig(s.lineups...), nil
	})},
	{Name: "changeover", About: "a card for each change of line-up", Each: true, forms: ofBook(func(b *Book, s *printing) (*document.Document, error) {
		return b.Changeovers(s.lineups...)
	})},
	{Name: "labels", About: "labels for both ends of cables and leads", forms: written((*Book).Labels, nil)},
	{Name: "cables", About: "the kit and how to cut it", forms: written((*Book).Cables, (*Book).CablesCSV)},
	{Name: "leads", About: "the power map and its leads", forms: written((*Book).Leads, (*Book).LeadsCSV)},
	{Name: "fasteners", About: "the pieces on the board and on the units", forms: with(written((*Book).Fasteners, nil), ".csv", placementAs("csv"))},
	{Name: "shopping", About: "what to buy", Unplaced: true, forms: shoppingSheets()},
}

// Kinds returns all kinds of sheets, in the order in which help names them.
func Kinds() []*Kind {
	var out []*Kind
	for i := range kinds {
		out = append(out, &kinds[i])
	}
	return out
}

// KindNamed returns the kind of that name, or nil.
func KindNamed(name string) *Kind {
	i := slices.IndexFunc(kinds, func(k Kind) bool { return k.Name == name })
	if i < 0 {
		return nil
	}
	return &kinds[i]
}

// Endings returns the endings of file names that the kind has forms for, sorted.
func (k *Kind) Endings() []string { return slices.Sorted(maps.Keys(k.forms)) }

// Has reports whether there is a form for that ending.
func (k *Kind) Has(ending string) bool { return k.forms[ending] != nil }

// MostLineups returns how many line-ups a sheet of that form may be made of: 0
// where it is always of all, 1, or any number as -1.
func (k *Kind) MostLineups(ending string) int {
	switch {
	case !k.Each:
		return 0
	case k.Name == "placement" && (ending == ".txt" || ending == ".csv"):
		return 0
	case k.Name == "placement" && ending != ".json", k.Name == "underside":
		return 1
	}
	return -1
}

// Write makes the sheet of the plan, which must not change meanwhile. It returns
// the texts that a PDF cannot write as they are. The error says what is wrong
// with the sheet asked for, or is the writer's or the power map's.
func (s *Sheet) Write(w io.Writer, p *layout.Plan) ([]paper.Replaced, error) {
	if !s.Kind.Has(s.Ending) {
		return nil, fmt.Errorf("the %s sheet has no form %q: want %s", s.Kind.Name, s.Ending, strings.Join(s.Kind.Endings(), ", "))
	}
	if most := s.Kind.MostLineups(s.Ending); most >= 0 && len(s.Lineups) > most {
		return nil, fmt.Errorf("the %s sheet as %s is made of %s", s.Kind.Name, s.Ending,
			map[int]string{0: "all line-ups together", 1: "one line-up or of all"}[most])
	}
	pr := &printing{p: p, w: w, paper: s.Paper, lineups: s.Lineups, cols: cmp.Or(s.Cols, document.TextWidth)}
	if pr.paper == (paper.Size{}) {
		pr.paper = paper.A4
	}
	err := s.Kind.forms[s.Ending](pr)
	return pr.replaced, err
}

func (s *printing) plate() plate.Options {
	o := plate.Options{Paper: s.paper}
	if len(s.lineups) == 1 {
		o.Lineup = s.lineups[0]
	}
	return o
}

// note keeps what a PDF cannot write: the names, not each text that has them.
func (s *printing) note(rs []paper.Replaced, err error) error {
	s.replaced = append(s.replaced, plate.Plainly(s.p, rs)...)
	return err
}

func placementAs(format string) writer {
	return func(s *printing) error { return sheet.Placement(s.w, s.p, format, s.cols) }
}

func report(s *printing) error {
	r := sheet.NewReport(s.p)
	r.Lineups = slices.DeleteFunc(r.Lineups, func(l sheet.Lineup) bool {
		return len(s.lineups) > 0 && !slices.Contains(s.lineups, l.Name)
	})
	return r.JSON(s.w)
}

// written are the forms of a document: to read, to print, and as a table if csv
// is given.
func written(of func(*Book) *document.Document, csv func(*Book, io.Writer) error) map[string]writer {
	out := ofBook(func(b *Book, _ *printing) (*document.Document, error) { return of(b), nil })
	if csv != nil {
		out[".csv"] = func(s *printing) error {
			b, err := New(s.p)
			if err != nil {
				return err
			}
			return csv(b, s.w)
		}
	}
	return out
}

// ofBook are the forms of a document of the plan's book.
func ofBook(of func(*Book, *printing) (*document.Document, error)) map[string]writer {
	return docForms(func(s *printing) (*document.Document, error) {
		b, err := New(s.p)
		if err != nil {
			return nil, err
		}
		return of(b, s)
	})
}

// docForms are the three forms of any document.
func docForms(of func(*printing) (*document.Document, error)) map[string]writer {
	as := func(write func(*printing, *document.Document) error) writer {
		return func(s *printing) error {
			d, err := of(s)
			if err != nil {
				return err
			}
			return write(s, d)
		}
	}
	return map[string]writer{
		".md":  as(func(s *printing, d *document.Document) error { return d.Markdown(s.w) }),
		".txt": as(func(s *printing, d *document.Document) error { return d.Text(s.w, s.cols) }),
		".pdf": as(func(s *printing, d *document.Document) error { return s.note(d.PDF(s.w, s.paper)) }),
	}
}

// shoppingSheets are the forms of the shopping list, made as its own command
// makes it.
func shoppingSheets() map[string]writer {
	list := func(s *printing) (*shopping.List, error) { return shopping.Make(s.p, shopping.Options{}) }
	out := docForms(func(s *printing) (*document.Document, error) {
		l, err := list(s)
		if err != nil {
			return nil, err
		}
		return l.Document(), nil
	})
	for ending, write := range map[string]func(*shopping.List, io.Writer) error{".csv": (*shopping.List).CSV, ".json": (*shopping.List).JSON} {
		out[ending] = func(s *printing) error {
			l, err := list(s)
			if err != nil {
				return err
			}
			return write(l, s.w)
		}
	}
	return out
}

func with(forms map[string]writer, ending string, f writer) map[string]writer {
	forms[ending] = f
	return forms
}

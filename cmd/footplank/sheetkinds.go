package main

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/book"
	"footplank/layout/document"
	"footplank/layout/paper"
	"footplank/layout/plate"
	"footplank/layout/sheet"
	"footplank/layout/shopping"
)

// printing is one sheet being made.
type printing struct {
	p       *layout.Plan
	w       io.Writer
	paper   paper.Size
	lineups []string
	warn    func(paper.Replaced)
}

// form writes a sheet in one form.
type sheetForm func(*printing) error

// sheetKind is a kind of sheet with its forms, by the ending of the file's name.
type sheetKind struct {
	name  string
	forms map[string]sheetForm
	// each is set where --lineup makes a difference; unplaced where it does no
	// harm that units have no place.
	each, unplaced bool
}

// sheetKinds are all kinds of sheets, in the order in which help names them.
var sheetKinds = []sheetKind{
	{name: "placement", each: true, forms: map[string]sheetForm{
		".txt": placementAs("txt"), ".csv": placementAs("csv"),
		".svg": func(s *printing) error { return plate.SVG(s.w, s.p, s.plate()) },
		".pdf": func(s *printing) error { return s.replaced(plate.PDF(s.w, s.p, s.plate())) },
		".json": func(s *printing) error {
			r := sheet.NewReport(s.p)
			r.Lineups = slices.DeleteFunc(r.Lineups, func(l sheet.Lineup) bool { return !among(s.lineups, l.Name) })
			return r.JSON(s.w)
		},
	}},
	{name: "underside", each: true, forms: map[string]sheetForm{
		".svg": func(s *printing) error { return plate.UndersideSVG(s.w, s.p, s.plate()) },
		".pdf": func(s *printing) error { return s.replaced(plate.UndersidePDF(s.w, s.p, s.plate())) },
	}},
	{name: "stickers", forms: map[string]sheetForm{
		".svg": func(s *printing) error { return plate.StickersSVG(s.w, s.p, s.plate()) },
		".pdf": func(s *printing) error { return s.replaced(plate.StickersPDF(s.w, s.p, s.plate())) },
	}},
	{name: "book", forms: written((*book.Book).Build, nil)},
	{name: "gig", each: true, forms: gigForms()},
	{name: "changeover", each: true, forms: changeoverForms()},
	{name: "labels", forms: written((*book.Book).Labels, nil)},
	{name: "cables", forms: written((*book.Book).Cables, (*book.Book).CablesCSV)},
	{name: "leads", forms: written((*book.Book).Leads, (*book.Book).LeadsCSV)},
	{name: "fasteners", forms: with(written((*book.Book).Fasteners, nil), ".csv", placementAs("csv"))},
	{name: "shopping", unplaced: true, forms: shoppingSheets()},
}

func (s *printing) plate() plate.Options {
	o := plate.Options{Paper: s.paper}
	if len(s.lineups) == 1 {
		o.Lineup = s.lineups[0]
	}
	return o
}

// replaced passes on what a PDF cannot write.
func (s *printing) replaced(rs []paper.Replaced, err error) error {
	for _, r := range rs {
		s.warn(r)
	}
	return err
}

func placementAs(format string) sheetForm {
	return func(s *printing) error { return sheet.Placement(s.w, s.p, format) }
}

// written are the forms of a document: to read, to print, and as a table if csv
// is given.
func written(of func(*book.Book) *document.Document, csv func(*book.Book, io.Writer) error) map[string]sheetForm {
	out := documents(func(s *printing) (*document.Document, error) {
		b, err := book.New(s.p)
		if err != nil {
			return nil, err
		}
		return of(b), nil
	})
	if csv != nil {
		out[".csv"] = func(s *printing) error {
			b, err := book.New(s.p)
			if err != nil {
				return err
			}
			return csv(b, s.w)
		}
	}
	return out
}

// documents are the three forms of any document.
func documents(of func(*printing) (*document.Document, error)) map[string]sheetForm {
	as := func(write func(*printing, *document.Document) error) sheetForm {
		return func(s *printing) error {
			d, err := of(s)
			if err != nil {
				return err
			}
			return write(s, d)
		}
	}
	return map[string]sheetForm{
		".md":  as(func(s *printing, d *document.Document) error { return d.Markdown(s.w) }),
		".txt": as(func(s *printing, d *document.Document) error { return d.Text(s.w, document.TextWidth) }),
		".pdf": as(func(s *printing, d *document.Document) error { return s.replaced(d.PDF(s.w, s.paper)) }),
	}
}

func gigForms() map[string]sheetForm {
	return documents(func(s *printing) (*document.Document, error) {
		b, err := book.New(s.p)
		if err != nil {
			return nil, err
		}
		return b.Gig(s.lineups...), nil
	})
}

func changeoverForms() map[string]sheetForm {
	return documents(func(s *printing) (*document.Document, error) {
		b, err := book.New(s.p)
		if err != nil {
			return nil, err
		}
		return b.Changeovers(s.lineups...)
	})
}

// shoppingSheets are the forms of the shopping list, made as its own command
// makes it.
func shoppingSheets() map[string]sheetForm {
	list := func(s *printing) (*shopping.List, error) { return shopping.Make(s.p, shopping.Options{}) }
	out := documents(func(s *printing) (*document.Document, error) {
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

func with(forms map[string]sheetForm, ending string, f sheetForm) map[string]sheetForm {
	forms[ending] = f
	return forms
}

// endings lists the forms of a kind: ".md, .pdf or .txt".
func (k *sheetKind) endings() string { return either(slices.Sorted(maps.Keys(k.forms))) }

func either(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

func kindNames() []string {
	var out []string
	for i := range sheetKinds {
		out = append(out, sheetKinds[i].name)
	}
	return out
}

// kindOf returns the kind of sheet that is asked for; without a name the build
// book as Markdown, and the placement sheet as anything else.
func kindOf(name, ending string) (*sheetKind, error) {
	if name == "" {
		name = "placement"
		if ending == ".md" {
			name = "book"
		}
	}
	for i := range sheetKinds {
		if sheetKinds[i].name == name {
			return &sheetKinds[i], nil
		}
	}
	return nil, fmt.Errorf("--of %q: want %s", name, either(kindNames()))
}

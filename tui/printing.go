package tui

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"footplank/layout"
	"footplank/layout/book"
	"footplank/layout/check"
	"footplank/layout/paper"
	"footplank/layout/plan"
	"footplank/tui/form"
)

const writingSheet = "writing a sheet"

// The labels of the form, by which its values are asked for.
const (
	sheetKind   = "Sheet"
	sheetForm   = "Form"
	sheetPaper  = "Paper"
	sheetLineup = "Line-ups"
	sheetFile   = "File"
)

const sheetIntro = "What the board is built and played from, as a file to print or to read."

// sheetWriter writes a sheet of a plan to a file, or is a stand-in for tests. own
// is the plan's file, which is never written over.
type sheetWriter func(p *layout.Plan, s book.Sheet, path, own string, force bool) ([]paper.Replaced, error)

// errOwnFile is that a sheet would take the place of the plan.
var errOwnFile = errors.New("that is the plan itself: name another file")

func writeSheet(p *layout.Plan, s book.Sheet, path, own string, force bool) ([]paper.Replaced, error) {
	if to, err := os.Stat(path); err == nil {
		if it, err := os.Stat(own); err == nil && os.SameFile(to, it) {
			return nil, errOwnFile
		}
		if to.IsDir() {
			return nil, fmt.Errorf("%s is a folder: name a file in it", path)
		}
		if !force {
			return nil, plan.ErrExists
		}
	}
	var text bytes.Buffer
	replaced, err := s.Write(&text, p)
	if err != nil {
		return nil, err
	}
	write := plan.WriteNew
	if force {
		write = plan.WriteOver
	}
	return replaced, write(path, text.Bytes())
}

// wroteMsg tells how writing a sheet ended.
type wroteMsg struct {
	sheet    book.Sheet
	path     string
	replaced []paper.Replaced
	err      error
}

// openPrinting asks which sheet to write, on what, and where.
func (m *Model) openPrinting() tea.Cmd {
	m.takeOwn()
	was := m.printing
	m.printing = m.newPrinting()
	if was != nil { // as it was left, but for a line-up that is gone
		for i, f := range m.printing.Fields {
			if v := was.Fields[i].Value(); f.Label != sheetLineup || m.history.Plan().LineupNamed(v) != nil {
				f.With(v)
			}
		}
	}
	m.startPrinting()
	return m.push(screen{form: m.printing, take: func(m *Model, _ *layout.Plan) tea.Cmd { return m.print(false) }})
}

// startPrinting takes what stands in the form for what it began with.
func (m *Model) startPrinting() {
	at := m.printing.At()
	m.printing.Start(func(change func(p *layout.Plan) error) (*layout.Plan, error) {
		p := m.history.Plan() // which a form of sheets does not change
		return p, change(p)
	})
	m.printing.Go(at)
}

func (m *Model) newPrinting() *form.Form {
	none := func(*layout.Plan, string) error { return nil }
	var kinds, papers, endings []form.Option
	seen := map[string]bool{}
	for _, k := range book.Kinds() {
		kinds = append(kinds, form.Option{Value: k.Name, Text: k.Name + ": " + k.About})
		for _, e := range k.Endings() {
			seen[e] = true
		}
	}
	for _, e := range endingWords {
		if seen[e.Value] {
			endings = append(endings, e)
		}
	}
	for _, s := range paper.Sizes() {
		papers = append(papers, form.Option{Value: s.Name, Text: s.Name})
	}
	lineups := []form.Option{{Value: "", Text: "all"}}
	for i := range m.history.Plan().Lineups {
		n := m.history.Plan().Lineups[i].Name
		lineups = append(lineups, form.Option{Value: n, Text: clean(n)})
	}
	f := &form.Form{Title: "Write a sheet", Name: "sheet", What: "write a sheet", Take: "write it", Fresh: true, Intro: sheetIntro}
	file := form.Words(sheetFile, "", "", none)
	f.Fields = []*form.Field{
		form.OneOf(sheetKind, "placement", "what to write", kinds, none),
		form.OneOf(sheetForm, ".pdf", "to print, to read, or for other programs", endings, none),
		form.OneOf(sheetPaper, m.usualPaper(), "of the pages of a PDF", papers, none),
		form.OneOf(sheetLineup, "", "all of them, or a sheet of one alone", lineups, none),
		file,
	}
	f.Finish = func(*layout.Plan) error {
		s, path, err := m.asked(f)
		file.Want = "its name; left empty it is " + clean(filepath.Base(m.sheetPath(f, &s, "")))
		f.Intro = sheetIntro
		if err == nil {
			f.Intro += " Enter writes " + clean(filepath.Base(path)) + "."
		}
		return err
	}
	return f
}

// usualPaper is what is in the printer, most likely: Letter where players measure in
// inches, else A4.
func (m *Model) usualPaper() string {
	if s, ok := paper.SizeNamed("letter"); ok && m.history.Plan().Measure() == layout.Inches {
		return s.Name
	}
	return paper.Sizes()[0].Name
}

// endingWords are the forms of sheets, in the order of the choice.
var endingWords = []form.Option{
	{Value: ".pdf", Text: ".pdf, to print"}, {Value: ".svg", Text: ".svg, a drawing true to scale"}, {Value: ".txt", Text: ".txt, to read"},
	{Value: ".md", Text: ".md, Markdown"}, {Value: ".csv", Text: ".csv, a table"}, {Value: ".json", Text: ".json, for other programs"},
}

// asked is the sheet that the form asks for, and where it goes.
func (m *Model) asked(f *form.Form) (s book.Sheet, path string, err error) {
	s = book.Sheet{Kind: book.KindNamed(f.Value(sheetKind)), Ending: f.Value(sheetForm)}
	s.Paper, _ = paper.SizeNamed(f.Value(sheetPaper))
	if l := f.Value(sheetLineup); l != "" {
		s.Lineups = []string{l}
	}
	if !s.Kind.Has(s.Ending) {
		return s, "", fmt.Errorf("the %s sheet comes as %s", s.Kind.Name, orOf(s.Kind.Endings()))
	}
	if s.Lineups != nil && s.Kind.MostLineups(s.Ending) == 0 {
		return s, "", fmt.Errorf("the %s sheet as %s is of all line-ups together: choose all", s.Kind.Name, s.Ending)
	}
	path = m.sheetPath(f, &s, f.Value(sheetFile))
	if got := strings.ToLower(filepath.Ext(path)); got != s.Ending {
		for _, e := range endingWords {
			if e.Value == got {
				return s, "", fmt.Errorf("the name ends in %s, but the form chosen is %s", got, s.Ending)
			}
		}
		path += s.Ending
	}
	return s, path, nil
}

// sheetPath is where a sheet goes: beside the plan, unless the name says
// otherwise.
func (m *Model) sheetPath(f *form.Form, s *book.Sheet, typed string) string {
	own := fileName(m.history.Plan().Title)
	if m.path != "" {
		own = strings.TrimSuffix(filepath.Base(m.path), filepath.Ext(m.path))
	}
	name := own + "-" + s.Kind.Name
	for _, l := range s.Lineups {
		name += "-" + strings.Map(func(r rune) rune {
			if strings.ContainsRune(`/\:`, r) || r < ' ' {
				return '_'
			}
			return r
		}, l)
	}
	name += s.Ending
	if typed = strings.TrimSpace(typed); typed != "" {
		name = typed
	}
	if name = untilde(name); filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(filepath.Dir(m.path), name)
}

// orOf is "a, b or c".
func orOf(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// print writes the sheet in the background.
func (m *Model) print(force bool) tea.Cmd {
	s, path, err := m.asked(m.printing)
	if err != nil {
		m.say(check.Fault, sentence(clean(err.Error())))
		return nil
	}
	p := m.history.Plan()
	if missing := p.Unplaced(); len(missing) > 0 && !s.Kind.Unplaced {
		m.say(check.Fault, "No sheet yet: "+clean(someOf(missing))+" without a place. Back on the board a arranges all.")
		return nil
	}
	if m.writing {
		m.say("", "The last sheet is still being written.")
		return nil
	}
	m.writing = true
	m.say("", "Writing "+clean(path)+m.styles.sign.more)
	work, own := m.opt.print, m.path
	return m.guarded(writingSheet, func() tea.Msg {
		replaced, err := work(p, s, path, own, force)
		return wroteMsg{s, path, replaced, err}
	})
}

// wrote tells how it ended.
func (m *Model) wrote(msg wroteMsg) {
	m.writing = false
	path := clean(msg.path)
	switch {
	case msg.err == nil:
		m.startPrinting()
		text := "Written: " + path + "."
		if m.faults() > 0 && !msg.sheet.Kind.Unplaced {
			text += " The plan has faults: mend them before you cut."
		}
		if n := len(msg.replaced); n > 0 {
			text += " " + plural(n, "label") + " had characters that the fonts of a PDF do not have."
		}
		m.say("", text)
	case errors.Is(msg.err, plan.ErrExists):
		m.ask(path+" is there already.", choice{"o", "replace it", func(m *Model) tea.Cmd { return m.print(true) }},
			choice{"n", "another name", func(m *Model) tea.Cmd {
				if f := m.printing; m.over() != nil && m.over().form == f {
					f.Go(len(f.Fields) - 1)
				}
				return nil
			}})
	case errors.Is(msg.err, fs.ErrNotExist):
		m.say(check.Fault, "Not written: there is no folder "+clean(filepath.Dir(msg.path))+". Nothing was made.")
	case errors.Is(msg.err, fs.ErrPermission):
		m.say(check.Fault, "Not written: "+path+" may not be written to. Name another folder.")
	default:
		m.say(check.Fault, "Not written: "+sentence(clean(msg.err.Error())))
	}
}

// faults counts the faults of all line-ups.
func (m *Model) faults() int {
	n := 0
	for _, r := range m.look().results {
		f, _, unplaced := counts(&r)
		n += f + unplaced
	}
	return n
}

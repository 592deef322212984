package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"
)

// errNoAnswer ends the questions when the answers do.
var errNoAnswer = errors.New("the questions were not answered to the end, so nothing was written")

// questions asks a person on a terminal: questions are words, so they go to
// standard error. A wrong answer is explained and asked for again.
type questions struct {
	in    *bufio.Reader
	out   io.Writer
	width int // of what is listed
}

// ask completes the answers that flags have not given.
func (p *program) ask(a *plan.Answers) error {
	q := &questions{bufio.NewReader(p.in), p.err, lineWidth}
	if err := tried(*a); err != nil {
		return err // of flags: no answer mends it
	}
	fmt.Fprintln(q.out, "A new board. An empty answer takes what stands in brackets.")
	var err error
	if a.Title == "" {
		err = q.until(a, "Title", "My board", func(text string) { a.Title = text })
	}
	if err == nil && a.Unit == "" {
		a.Unit, err = choose(q, "Unit of length: mm or in", layout.Millimetres, layout.Inches)
	}
	if err == nil && a.Surface == "" {
		a.Surface, err = choose(q, "Surface: solid or rails", layout.Solid, layout.Rails)
	}
	if err == nil {
		err = q.board(a)
	}
	if err == nil && a.End == "" {
		a.End, err = choose(q, "Where does the chain end: amp or desk", layout.Amp, layout.Desk)
	}
	if err == nil && a.Units == nil {
		err = q.units(a)
	}
	if err == nil {
		err = q.gigs(a)
	}
	return err
}

// answer asks one question.
func (q *questions) answer(question, usual string) (string, error) {
	if usual != "" {
		question += " [" + usual + "]"
	}
	fmt.Fprintf(q.out, "%s: ", question)
	line, err := q.in.ReadString('\n')
	if err == io.EOF && strings.TrimSpace(line) == "" {
		fmt.Fprintln(q.out)
		return "", errNoAnswer
	}
	if err != nil && err != io.EOF {
		return "", err
	}
	if line = strings.TrimSpace(line); line == "" {
		return usual, nil
	}
	return line, nil
}

// explain says what is wrong with an answer.
func (q *questions) explain(err error) {
	for _, line := range strings.Split(ansi.Wordwrap(err.Error(), q.width-2, ""), "\n") {
		fmt.Fprintf(q.out, "  %s\n", line)
	}
}

// choose asks for one of a few words, the first of which is usual.
func choose[W ~string](q *questions, question string, words ...W) (W, error) {
	for {
		got, err := q.answer(question, string(words[0]))
		if err != nil {
			return "", err
		}
		for _, w := range words {
			if strings.EqualFold(got, string(w)) {
				return w, nil
			}
		}
		fmt.Fprintf(q.out, "  %q is neither: answer with one of the two words.\n", got)
	}
}

// board asks for the board's size until a plan can be made of it.
func (q *questions) board(a *plan.Answers) error {
	for {
		for _, side := range []struct {
			name string
			to   *layout.Length
		}{{"Width of the board", &a.BoardW}, {"Depth of the board", &a.BoardD}} {
			if err := q.length(side.name, a.Unit, side.to); err != nil {
				return err
			}
		}
		err := tried(*a)
		if err == nil {
			return nil
		}
		q.explain(err)
	}
}

// tried reports what keeps answers from making a plan, as far as they were given.
func tried(a plan.Answers) error {
	if a.BoardW == 0 && a.BoardD == 0 {
		a.BoardW, a.BoardD = 500*layout.Millimetre, 300*layout.Millimetre
	}
	_, err := plan.Starter(a)
	return inShort(err)
}

func (q *questions) length(name string, unit layout.LengthUnit, to *layout.Length) error {
	for {
		text, err := q.answer(fmt.Sprintf("%s (%s)", name, unit), "")
		if err != nil {
			return err
		}
		l, err := layout.ParseLength(text, unit)
		if err == nil {
			*to = l
			return nil
		}
		if text == "" {
			fmt.Fprintf(q.out, "  It cannot be left out: a number, or one with its unit, like 30cm or 12 1/2in.\n")
			continue
		}
		q.explain(err)
	}
}

// units asks for units of the catalog until an empty answer.
func (q *questions) units(a *plan.Answers) error {
	fmt.Fprintln(q.out, "Your units from the instrument on, one at a time: a form of the catalog and, if you\nlike, a label, as in: compact Squash. A question mark lists the forms.")
	for {
		text, err := q.answer("Unit, or empty to end", "")
		if err != nil || text == "" {
			return err
		}
		form, label, _ := strings.Cut(text, " ")
		if form == "?" {
			q.listForms(a.Forms)
			continue
		}
		if _, ok := a.Forms.Unit(form); !ok {
			q.explain(noForm(a.Forms, form))
			continue
		}
		n := len(a.Units)
		a.Units = append(a.Units, plan.StarterUnit{Form: form, Label: strings.TrimSpace(label)})
		if err := tried(*a); err != nil {
			a.Units = a.Units[:n]
			q.explain(err)
		}
	}
}

func (q *questions) listForms(c *catalog.Catalog) {
	s := newShelf(c)
	units := &shelf{Units: s.Units}
	_ = units.list(q.out, q.width) // to the terminal that is being asked
}

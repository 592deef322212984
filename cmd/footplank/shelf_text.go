package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/charmbracelet/x/ansi"
)

// each calls f for every form: the kind it is of, what all forms have, and its
// main figures in a few words.
func (s *shelf) each(f func(kind string, e entry, figures string)) {
	for _, e := range s.Units {
		f(e.Family, e.entry, times(e.Body[:])+" mm")
	}
	for _, e := range s.Plugs {
		f("plugs", e.entry, fmt.Sprintf("%s, %.4g mm out, %.4g mm wide", e.Kind, e.Out, e.Width))
	}
	for _, e := range s.Boards {
		f("boards", e.entry, fmt.Sprintf("%s mm, %s", times(e.Size[:]), e.Surface))
	}
	for _, e := range s.Materials {
		f("materials", e.entry, fmt.Sprintf("%.4g kg/m3", e.Density))
	}
	for _, e := range s.Fasteners {
		f("fasteners", e.entry, fmt.Sprintf("%s, %.4g kPa", e.Kind, e.Strength))
	}
}

// times writes sizes the usual way: 70 x 120 x 55.
func times(sizes []float64) string {
	words := make([]string, len(sizes))
	for i, v := range sizes {
		words[i] = fmt.Sprintf("%.4g", v)
	}
	return strings.Join(words, " x ")
}

// list prints a line for each form, under headings. With a width, longer lines
// are cut off there.
func (s *shelf) list(w io.Writer, width int) error {
	var text strings.Builder
	s.table(&text)
	for line := range strings.Lines(text.String()) {
		if width > 0 {
			line = ansi.Truncate(strings.TrimSuffix(line, "\n"), width, "…") + "\n"
		}
		if _, err := io.WriteString(w, line); err != nil {
			return err
		}
	}
	return nil
}

func (s *shelf) table(w *strings.Builder) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	last := ""
	s.each(func(kind string, e entry, figures string) {
		if kind != last {
			if last != "" {
				fmt.Fprintln(t)
			}
			fmt.Fprintln(t, kind)
			last = kind
		}
		fmt.Fprintf(t, "  %s\t%s\t%s\n", e.Name, figures, e.Summary)
	})
	t.Flush() // a Builder takes everything
}

// describe prints all there is to know about each form.
func (s *shelf) describe(w io.Writer) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	first := true
	s.each(func(kind string, e entry, figures string) {
		if !first {
			fmt.Fprintln(t)
		}
		first = false
		fmt.Fprintf(t, "%s (%s): %s\n  %s\n", e.Name, kind, e.Summary, figures)
		for _, u := range s.Units {
			if u.Name == e.Name && u.Family == kind {
				u.describe(t)
			}
		}
		if len(e.Values) > 0 {
			fmt.Fprintf(t, "\n  how sure:\n")
		}
		for _, v := range e.Values {
			fmt.Fprintf(t, "    %s\t%s", v.Key, v.Status)
			if v.Source != "" {
				fmt.Fprintf(t, "\t%s", v.Source)
			}
			fmt.Fprintln(t)
		}
	})
	return t.Flush()
}

func (e *unitEntry) describe(w io.Writer) {
	fmt.Fprintf(w, "  with knobs and jacks %s mm, %.4g g\n", times(e.Overall[:]), e.Mass)
	if e.Treadle {
		fmt.Fprintln(w, "  worked by rocking")
	}
	if d := e.Draw; d != nil {
		fmt.Fprintf(w, "  draws %s\n", d)
	}
	if len(e.Switches) > 0 {
		fmt.Fprintf(w, "\n  switches, mm from the front-left corner:\n")
	}
	for _, sw := range e.Switches {
		fmt.Fprintf(w, "    %s\t%.4g right, %.4g back\t%.4g high\n", sw.Name, sw.At[0], sw.At[1], sw.Height)
	}
	if len(e.Jacks) > 0 {
		fmt.Fprintf(w, "\n  jacks, mm along the wall from its left or front end:\n")
	}
	for _, j := range e.Jacks {
		fmt.Fprintf(w, "    %s\t%s %s %s\t%s wall, %.4g along\t%.4g high\tplug %s\n",
			j.ID, j.Kind, j.Signal, j.Dir, j.Wall, j.Along, j.Height, j.Plug)
	}
	if len(e.Outputs) > 0 {
		fmt.Fprintf(w, "\n  outputs:\n")
	}
	for _, o := range e.Outputs {
		fmt.Fprintf(w, "    %s\t%s\n", o.Jack, &o.currentEntry)
	}
}

func (c *currentEntry) String() string {
	s := fmt.Sprintf("%.4g V, %d mA %s", c.Volts, c.Milliamps, c.Current)
	if c.Current == "dc" {
		s += ", " + c.Polarity
	}
	if c.Isolated {
		s += ", isolated"
	}
	return s
}

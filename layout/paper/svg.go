package paper

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"unicode"

	"footplank/layout"
)

// svgPatterns are the fills, as patternLines draws them.
const svgPatterns = `<defs>
<pattern id="fill-hatch" width="2.2" height="2.2" patternUnits="userSpaceOnUse"><rect width="2.2" height="2.2" fill="white"/><path d="M-0.55 0.55L0.55 -0.55M0 2.2L2.2 0M1.65 2.75L2.75 1.65" stroke="black" stroke-width="0.35"/></pattern>
<pattern id="fill-dots" width="2.2" height="2.2" patternUnits="userSpaceOnUse"><rect width="2.2" height="2.2" fill="white"/><circle cx="0.55" cy="0.55" r="0.4"/><circle cx="1.65" cy="1.65" r="0.4"/></pattern>
<pattern id="fill-grain" width="3" height="3" patternUnits="userSpaceOnUse"><rect width="3" height="3" fill="white"/><path d="M-0.75 2.25L0.75 3.75M0 0L3 3M2.25 -0.75L3.75 0.75" stroke="#787878" stroke-width="0.15"/></pattern>
</defs>
`

var svgFamilies = [faces]string{"Go, sans-serif", "Go, sans-serif", "Go, sans-serif", "'Go Mono', monospace"}

// SVG writes the drawing as one SVG: width and height in millimetres, a user unit
// is one, layers are groups with their name for an ID.
func (d *Drawing) SVG(w io.Writer, title string) error {
	s := &svg{ids: map[string]int{}}
	fmt.Fprintf(&s.b, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%[1]smm\" height=\"%[2]smm\" viewBox=\"0 0 %[1]s %[2]s\" font-family=\"%[3]s\">\n<title>%[4]s</title>\n",
		num(d.W), num(d.H), svgFamilies[Regular], escape(title))
	s.b.WriteString(svgPatterns)
	fmt.Fprintf(&s.b, "<rect width=%q height=%q fill=\"white\"/>\n", num(d.W), num(d.H))
	s.tree(groupsOf(d.layers))
	s.b.WriteString("</svg>\n")
	_, err := w.Write(s.b.Bytes())
	return err
}

// group is a layer with the layers within it.
type group struct {
	name  string // whole
	marks []mark
	sub   []*group
}

// groupsOf makes a tree of layers from the slashes in their names.
func groupsOf(layers []*layer) *group {
	root := &group{}
	for _, l := range layers {
		at := root
		for part := range strings.SplitSeq(l.name, "/") {
			if l.name == "" {
				break
			}
			at = at.child(strings.TrimPrefix(at.name+"/"+part, "/"))
		}
		at.marks = append(at.marks, l.marks...)
	}
	return root
}

func (g *group) child(name string) *group {
	for _, c := range g.sub {
		if c.name == name {
			return c
		}
	}
	c := &group{name: name}
	g.sub = append(g.sub, c)
	return c
}

// svg is the back end for SVG.
type svg struct {
	b     bytes.Buffer
	ids   map[string]int
	clips int
}

func (s *svg) printf(format string, args ...any) { fmt.Fprintf(&s.b, format, args...) }

func (s *svg) tree(g *group) {
	if g.name != "" {
		s.printf("<g id=%q data-name=\"%s\">\n", s.id(g.name), escape(lastPart(g.name)))
	}
	s.marks(g.marks)
	for _, c := range g.sub {
		s.tree(c)
	}
	if g.name != "" {
		s.b.WriteString("</g>\n")
	}
}

// id makes an ID of a layer's name: letters, digits and hyphens, each once in
// the drawing.
func (s *svg) id(name string) string {
	id := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.M, r) {
			return r
		}
		return '-'
	}, name)
	s.ids[id]++
	if n := s.ids[id]; n > 1 {
		id += fmt.Sprintf("--%d", n)
	}
	return id
}

func (s *svg) marks(marks []mark) {
	var now *layout.Rect
	for i := range marks {
		m := &marks[i]
		if !sameClip(now, m.clip) {
			if now != nil {
				s.b.WriteString("</g>\n")
			}
			if now = m.clip; now != nil {
				s.clips++
				s.printf("<clipPath id=\"clip-%d\"><rect x=%q y=%q width=%q height=%q/></clipPath>\n<g clip-path=\"url(#clip-%d)\">\n",
					s.clips, num(now.X0), num(now.Y0), num(now.W()), num(now.D()), s.clips)
			}
		}
		s.mark(m)
	}
	if now != nil {
		s.b.WriteString("</g>\n")
	}
}

func (s *svg) mark(m *mark) {
	p := m.points[0]
	switch m.shape {
	case words:
		s.text(m)
	case box:
		q := m.points[1]
		s.printf("<rect x=%q y=%q width=%q height=%q%s/>\n", num(p.X), num(p.Y), num(q.X-p.X), num(q.Y-p.Y), attributes(m))
	case circle:
		s.printf("<circle cx=%q cy=%q r=%q%s/>\n", num(p.X), num(p.Y), num(m.radius), attributes(m))
	default:
		s.printf("<path d=%q%s/>\n", pathText(m), attributes(m))
	}
}

func pathText(m *mark) string {
	var b strings.Builder
	at := func(p layout.Point) string { return num(p.X) + " " + num(p.Y) }
	for _, g := range segments(m) {
		switch {
		case g.move:
			b.WriteString("M" + at(g.to))
		case g.curve:
			b.WriteString("C" + at(g.c0) + " " + at(g.c1) + " " + at(g.to))
		default:
			b.WriteString("L" + at(g.to))
		}
	}
	if m.shape == ring {
		b.WriteString("Z")
	}
	return b.String()
}

var svgFills = map[Fill]string{NoFill: "none", Hatch: "url(#fill-hatch)", Dots: "url(#fill-dots)", Grain: "url(#fill-grain)"}

func attributes(m *mark) string {
	var b strings.Builder
	st := m.style
	if m.class != "" {
		fmt.Fprintf(&b, " class=\"%s\"", escape(m.class))
	}
	fill := svgFills[st.Fill]
	if st.Fill == Solid {
		fill = colour(st.Ground)
	}
	fmt.Fprintf(&b, " fill=%q", fill)
	if st.Line == 0 {
		return b.String()
	}
	fmt.Fprintf(&b, " stroke=%q stroke-width=%q", colour(st.Ink), num(st.Line))
	if len(st.Dash) > 0 {
		parts := make([]string, len(st.Dash))
		for i, l := range st.Dash {
			parts[i] = num(l)
		}
		fmt.Fprintf(&b, " stroke-dasharray=%q", strings.Join(parts, " "))
	}
	if st.Round {
		b.WriteString(` stroke-linecap="round" stroke-linejoin="round"`)
	}
	return b.String()
}

var svgAnchors = [...]string{Start: "start", Middle: "middle", End: "end"}

// text writes a text as text. Its length is stated, so that another font does
// not run over what stands beside it.
func (s *svg) text(m *mark) {
	t, p := m.set, m.points[0]
	s.printf("<text x=%q y=%q font-size=%q text-anchor=%q textLength=%q lengthAdjust=\"spacingAndGlyphs\"",
		num(p.X), num(p.Y), num(t.Size), svgAnchors[t.Anchor], num(t.Width(m.text)))
	switch t.Face {
	case Bold:
		s.b.WriteString(` font-weight="bold"`)
	case Italic:
		s.b.WriteString(` font-style="italic"`)
	case Mono:
		s.printf(" font-family=%q", svgFamilies[Mono])
	}
	if t.Ink != Black {
		s.printf(" fill=%q", colour(t.Ink))
	}
	if t.Turn != 0 {
		s.printf(" transform=\"rotate(%d %s %s)\"", t.Turn.Degrees(), num(p.X), num(p.Y))
	}
	s.printf(">%s</text>\n", escape(m.text))
}

func colour(i Ink) string {
	switch i {
	case Black:
		return "black"
	case White:
		return "white"
	}
	return fmt.Sprintf("#%02x%02x%02x", uint8(i), uint8(i), uint8(i))
}

// num writes a length as a number of millimetres.
func num(l layout.Length) string { return l.Number(layout.Millimetres) }

func escape(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer takes everything
	return b.String()
}

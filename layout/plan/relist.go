package plan

import (
	"cmp"
	"strings"
)

// piece is one value of a list as it should be: an old one, an old one's place
// with another text, or with -1 a new one.
type piece struct {
	old  int
	with string
}

// part is an old value of a list with what is around it: from the comma before
// to the comma behind, and a comment behind that in the same line.
type part struct{ lead, body, tail, note string }

// relisted writes a list anew from old values, with the space and the comments
// around them, and new ones. Comments of values that go stay.
func (e *editor) relisted(n *node, pieces []piece) string {
	parts, end, trailing := e.parts(n)
	eol := e.eol(n.off)
	var out, left strings.Builder // left: comments of values that are gone
	out.WriteByte('[')
	noted := false // the line ends in a comment
	write := func(lead string) {
		if left.Len() > 0 {
			if strings.HasPrefix(left.String(), "#") {
				lead = " " + left.String() + strings.TrimPrefix(lead, eol)
			} else {
				lead = left.String() + strings.TrimPrefix(lead, eol)
			}
			left.Reset()
		}
		if noted && !strings.HasPrefix(lead, eol) && !strings.HasPrefix(lead, "\n") {
			lead = lineOf(parts, eol) + strings.TrimLeft(lead, " \t")
		}
		out.WriteString(lead)
	}
	at := 0
	for k, p := range pieces {
		lead := e.freshLead(parts, k == 0)
		body, tail := p.with, ""
		if p.old >= 0 {
			line := ""
			for ; at < p.old; at++ {
				e.leave(&left, n, at, parts[at])
				if strings.Contains(parts[at].lead, "\n") {
					line = newLine(parts[at].lead)
				}
			}
			at = p.old + 1
			body, tail = cmp.Or(p.with, parts[p.old].body), parts[p.old].tail
			lead = parts[p.old].lead
			if line != "" && strings.Trim(lead, " \t") == "" {
				lead = line
			}
			if space := strings.Trim(lead, " \t") == ""; space && k == 0 && p.old > 0 {
				lead = e.freshLead(parts, true)
			} else if space && k > 0 && lead == "" {
				lead = " "
			}
		}
		write(lead)
		out.WriteString(body + tail)
		if k+1 < len(pieces) || trailing {
			out.WriteByte(',')
		}
		if noted = p.old >= 0 && parts[p.old].note != ""; noted {
			out.WriteString(parts[p.old].note)
		}
	}
	for ; at < len(parts); at++ {
		e.leave(&left, n, at, parts[at])
	}
	if len(pieces) == 0 && !strings.ContainsAny(end, "#\n") {
		end = ""
	}
	write(end)
	out.WriteByte(']')
	return out.String()
}

// lineOf returns a new line as the list has them.
func lineOf(parts []part, eol string) string {
	for _, p := range parts {
		if strings.Contains(p.lead, "\n") {
			return newLine(p.lead)
		}
	}
	return eol
}

// leave keeps the comments of a value that goes.
func (e *editor) leave(left *strings.Builder, n *node, i int, p part) {
	if strings.HasSuffix(left.String(), "\n") {
		p.lead = strings.TrimPrefix(p.lead, e.eol(n.off))
	}
	if at := strings.LastIndexByte(p.lead, '\n'); at >= 0 && strings.Contains(p.lead, "#") {
		left.WriteString(p.lead[:at+1])
	}
	if c := e.comments(n.items[i].off, n.items[i].end); c != "" {
		left.WriteString(c)
	}
	if at := strings.LastIndexByte(p.tail, '\n'); at >= 0 && strings.Contains(p.tail, "#") {
		left.WriteString(p.tail[:at+1])
	}
	if p.note != "" {
		left.WriteString(p.note + e.eol(n.off))
	}
}

// parts takes a list apart. end is what stands before its closing bracket,
// trailing is set when a comma stands behind the last value.
func (e *editor) parts(n *node) (parts []part, end string, trailing bool) {
	at := n.off + 1
	for _, v := range n.items {
		p := part{lead: string(e.text[at:v.off]), body: string(e.text[v.off:v.end])}
		at, trailing = v.end, false
		if comma := e.comma(v.end); comma > 0 {
			p.tail = string(e.text[v.end : comma-1])
			at, trailing = comma, true
		}
		if last := len(parts) - 1; last >= 0 {
			parts[last].note, p.lead = note(p.lead)
		}
		parts = append(parts, p)
	}
	end = string(e.text[at : n.end-1])
	if last := len(parts) - 1; last >= 0 {
		parts[last].note, end = note(end)
	}
	return parts, end, trailing
}

// freshLead is the space before a new value: a line of its own where all have
// one.
func (e *editor) freshLead(parts []part, first bool) string {
	multi := len(parts) > 0
	for _, p := range parts {
		multi = multi && strings.Contains(p.lead, "\n")
	}
	switch {
	case multi:
		return newLine(parts[0].lead)
	case !first:
		return " "
	case len(parts) > 0 && strings.Trim(parts[0].lead, " \t") == "":
		return parts[0].lead
	}
	return ""
}

// newLine returns the last line break of a space, and what is behind it.
func newLine(space string) string {
	at := strings.LastIndexByte(space, '\n')
	if at > 0 && space[at-1] == '\r' {
		at--
	}
	return space[at:]
}

// note parts a comment at the start of a space from what follows it: it belongs
// to the value before.
func note(space string) (note, rest string) {
	at := strings.IndexByte(space, '\n')
	if at < 0 || !strings.Contains(space[:at], "#") {
		return "", space
	}
	if space[at-1] == '\r' {
		at--
	}
	return space[:at], space[at:]
}

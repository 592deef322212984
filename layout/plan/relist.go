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
// to the comma behind.
type part struct{ lead, body, tail string }

// relisted writes a list anew from old values, with the space and the comments
// around them, and new ones. Comments of values that go stay.
func (e *editor) relisted(n *node, pieces []piece) string {
	parts, end, trailing := e.parts(n)
	eol := e.eol(n.off)
	var out, left strings.Builder // left: comments of values that are gone
	out.WriteByte('[')
	write := func(lead string) {
		if left.Len() == 0 {
			out.WriteString(lead)
			return
		}
		if strings.HasPrefix(left.String(), "#") {
			out.WriteByte(' ')
		}
		out.WriteString(left.String())
		left.Reset()
		out.WriteString(strings.TrimPrefix(lead, eol))
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
		if k > 0 {
			out.WriteByte(',')
		}
		write(lead)
		out.WriteString(body + tail)
	}
	for ; at < len(parts); at++ {
		e.leave(&left, n, at, parts[at])
	}
	if trailing && len(pieces) > 0 {
		out.WriteByte(',')
	}
	if len(pieces) == 0 && !strings.ContainsAny(end, "#\n") {
		end = ""
	}
	write(end)
	out.WriteByte(']')
	return out.String()
}

// leave keeps the comments of a value that goes.
func (e *editor) leave(left *strings.Builder, n *node, i int, p part) {
	if at := strings.LastIndexByte(p.lead, '\n'); at >= 0 && strings.Contains(p.lead, "#") {
		left.WriteString(p.lead[:at+1])
	}
	if c := e.comments(n.items[i].off, n.items[i].end); c != "" {
		left.WriteString(c)
	}
	if at := strings.LastIndexByte(p.tail, '\n'); at >= 0 && strings.Contains(p.tail, "#") {
		left.WriteString(p.tail[:at+1])
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
		parts = append(parts, p)
	}
	return parts, string(e.text[at : n.end-1]), trailing
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

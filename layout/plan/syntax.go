package plan

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	"github.com/pelletier/go-toml/v2/unstable"
)

// MaxSize is the size in bytes of the largest text that is read as a plan; a
// plan of 200 units is a tenth of it.
const MaxSize = 1 << 20

const maxSyntaxErrors = 20

var bom = []byte("\xef\xbb\xbf")

// tooLarge is what a text beyond MaxSize gets.
func tooLarge(name string) error {
	return Errors{{File: name, Msg: fmt.Sprintf("larger than %d kB: not a plan", MaxSize>>10)}}
}

// grow makes the tree of a text without a byte order mark, or says what is
// wrong with it as TOML. For a text from elsewhere ask for a secondOpinion too.
func grow(p *problems, src []byte) *node {
	if !readable(p, src) {
		return nil
	}
	b := &builder{src: src, root: &node{style: headerStyle}, problems: p}
	b.here = b.root
	var parser unstable.Parser
	parser.Reset(src)
	for errs := 0; ; {
		start := b.base
		for parser.NextExpression() && !b.full() {
			e := parser.Expression()
			b.expression(e)
			start = b.base + endOf(e)
		}
		if parser.Error() == nil || b.full() {
			break
		}
		off := b.syntaxError(parser.Error(), start)
		// Go on behind the next header, which is likely whole; what
		// was before it is not judged further.
		next := nextHeader(src, off)
		if errs++; next < 0 || errs == maxSyntaxErrors {
			return nil
		}
		b.base = next
		parser.Reset(src[next:])
	}
	if len(p.list) > 0 {
		return nil
	}
	return b.root
}

// readable refuses what is not text.
func readable(p *problems, src []byte) bool {
	for i := 0; i < len(src); {
		r, n := utf8.DecodeRune(src[i:])
		if r == 0 || r == utf8.RuneError && n == 1 {
			p.add(i, "byte 0x%02x is no text: want a plan in TOML, saved as UTF-8", src[i])
			return false
		}
		i += n
	}
	return true
}

// endOf returns where the last part of an expression's key ends, or the whole
// expression when the parser tells.
func endOf(e *unstable.Node) int {
	if e.Raw.Length > 0 {
		return int(e.Raw.Offset + e.Raw.Length)
	}
	end := 0
	for it := e.Key(); it.Next(); {
		end = int(it.Node().Raw.Offset + it.Node().Raw.Length)
	}
	return end
}

// syntaxError notes an error of the parser, met behind start, and returns its
// offset.
func (b *builder) syntaxError(err error, start int) int {
	off := start
	var pe *unstable.ParserError
	if errors.As(err, &pe) && pe.Highlight != nil {
		if o := cap(b.src) - cap(pe.Highlight); o >= start && o <= len(b.src) {
			off = o
		}
	}
	msg := err.Error()
	begun := skipFiller(b.src, start+bytes.IndexByte(b.src[start:], '\n')+1, false)
	if start == 0 {
		begun = skipFiller(b.src, 0, false)
	}
	if from, _ := b.position(begun); begun < off {
		if line, _ := b.position(off); line > from {
			msg += fmt.Sprintf(" (the value begun in line %d: is its closing quote, ] or } missing?)", from)
		}
	}
	b.add(off, "not TOML: %s", msg)
	return off
}

// nextHeader returns the start of the next line after off that begins with a
// bracket and a letter, or -1.
func nextHeader(src []byte, off int) int {
	for {
		n := bytes.IndexByte(src[off:], '\n')
		if n < 0 {
			return -1
		}
		off += n + 1
		line := bytes.TrimLeft(src[off:], " \t[")
		if bytes.HasPrefix(bytes.TrimLeft(src[off:], " \t"), []byte("[")) && len(line) > 0 && (line[0]|0x20) >= 'a' && (line[0]|0x20) <= 'z' {
			return off
		}
	}
}

// secondOpinion has the text read by another reader of TOML, which knows
// finer rules: dates, escapes, what may be extended where.
func secondOpinion(p *problems, src []byte) {
	var all map[string]any
	_, err := toml.Decode(string(src), &all)
	if err == nil {
		return
	}
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		p.add(0, "not TOML: %s", strings.TrimPrefix(err.Error(), "toml: "))
		return
	}
	msg := pe.Message
	if msg == "" {
		msg = pe.Error()
	}
	p.add(pe.Position.Start, "not TOML: %s", strings.TrimPrefix(msg, "toml: "))
}

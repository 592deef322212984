package plan

import (
	"bytes"
	"fmt"
)

// maxRounds bounds how often a text is edited on its way to what it should say;
// each round goes one level deeper, and there are few.
const maxRounds = 50

// Render returns the text of the plan as it is now: the text it was read from,
// with only what differs changed. What the format has no words for is an error,
// and so is a plan that would not be read back as it is.
func (d *Doc) Render() ([]byte, error) {
	text, err := d.render()
	if err != nil {
		return nil, err
	}
	return source{d.text.mark, text}.bytes(), nil
}

func (d *Doc) render() ([]byte, error) {
	if !d.Dirty() {
		return d.text.text, nil
	}
	text, err := d.edited()
	if err != nil {
		return nil, err
	}
	if len(text) > MaxSize {
		return nil, tooLarge(d.Name)
	}
	back, err := readText(d.Name, text, d.forms)
	if err != nil {
		return nil, fmt.Errorf("the plan as it is now cannot be written: %w", err)
	}
	if s := difference(back, d.Plan); s != "" {
		return nil, fmt.Errorf("%s: the plan cannot be written: %s would be lost, for a plan file has no words for it", d.Name, s)
	}
	return text, nil
}

// edited edits the text, round by round, until it says what the plan does.
func (d *Doc) edited() ([]byte, error) {
	text, putting := d.text.text, false
	var root *node
	var says *want
	for range maxRounds {
		if root == nil {
			p := newProblems(d.Name, text)
			root = grow(p, text)
			if err := p.err(); err != nil {
				return nil, fmt.Errorf("the plan cannot be written: %w", err)
			}
			says = wantOf(d.Plan, d.forms, root)
		}
		e := newEditor(text, root, speller{d.Plan.LengthUnit, d.forms}, putting)
		e.table(root, says)
		next, err := e.result()
		switch {
		case err != nil:
			return nil, fmt.Errorf("%s: the plan cannot be written: %w", d.Name, err)
		case !bytes.Equal(next, text):
			text, root = next, nil
		case putting:
			return text, nil
		default:
			putting = true
		}
	}
	return nil, fmt.Errorf("%s: the plan cannot be written: its text does not settle", d.Name)
}

// saved makes the text that was written the one that the plan was read from.
func (d *Doc) saved(text []byte) {
	d.text.text = bytes.Clone(text)
	d.loaded = deepCopy(d.Plan)
}

package form

import (
	"errors"
	"slices"

	"footplank/layout"
)

// Maker makes a draft of a plan: a copy with the changes, complete and checked.
// It must not keep the copy's changes anywhere else.
type Maker func(change func(p *layout.Plan) error) (*layout.Plan, error)

// Form is fields, one of them the one that is filled in now.
type Form struct {
	Title string
	Intro string // what it is for, in a sentence
	// Name and Subject tell what it is about: "unit" and a unit's ID. What a
	// field leads to is found by them.
	Name, Subject string
	// Becomes tells the Subject's name in the draft, where the form can give it
	// another; nil where it cannot.
	Becomes func() string
	// What names the edit, "change Compressor"; Unit is the one that it is
	// about, if any.
	What, Unit string
	// Take is the word for taking it, "add it"; "" is "take it".
	Take string
	// Fresh is set for what is not there yet: the form can be taken as it is.
	Fresh  bool
	Fields []*Field
	// Begin comes before all fields and Finish behind them; both may be nil.
	Begin, Finish func(p *layout.Plan) error

	make   Maker
	at     int // the field that is filled in now
	cursor int // in its value, in characters
	picked bool
	draft  *layout.Plan
	err    string // about the whole
	errAt  int    // field that was touched last before it
}

// Start makes the form ready, at its first field.
func (f *Form) Start(m Maker) *Form {
	f.make, f.at, f.errAt = m, -1, -1
	for _, x := range f.Fields {
		x.first = x.value
	}
	f.Next(1)
	f.try()
	return f
}

// At returns the index of the field that is filled in now, -1 where the form has
// none.
func (f *Form) At() int { return f.at }

// Now returns the field that is filled in now, nil where there is none.
func (f *Form) Now() *Field {
	if f.at < 0 || f.at >= len(f.Fields) {
		return nil
	}
	return f.Fields[f.at]
}

// Cursor is where in the value of the field letters are put, in characters.
func (f *Form) Cursor() int { return f.cursor }

// Fresh values are replaced by the first letter typed, as one would write over
// them: Picked reports whether that is so.
func (f *Form) Picked() bool { return f.picked }

// Go goes to a field; a heading is passed over.
func (f *Form) Go(i int) {
	if i < 0 || i >= len(f.Fields) || f.Fields[i].Kind == Head {
		return
	}
	f.at = i
	f.cursor = len([]rune(f.Fields[i].value))
	f.picked = f.Fields[i].Kind == Text && f.cursor > 0
}

// Next goes to the next field, or with by -1 to the one before, round the ends.
func (f *Form) Next(by int) {
	n := len(f.Fields)
	for k := 1; k <= n; k++ {
		i := ((f.at+by*k)%n + n) % n
		if f.at < 0 && by > 0 {
			i = k - 1
		}
		if f.Fields[i].Kind != Head {
			f.Go(i)
			return
		}
	}
}

// Part goes to the first field of the next part of the form, parts being what stands
// between headings, or with by -1 to the first of this one or else of the one before;
// past the outermost part, to the outermost field.
func (f *Form) Part(by int) {
	var firsts []int // of each part
	fresh := true
	for i, x := range f.Fields {
		if x.Kind == Head {
			fresh = true
		} else if fresh {
			firsts, fresh = append(firsts, i), false
		}
	}
	if len(firsts) == 0 {
		return
	}
	k, atFirst := slices.BinarySearch(firsts, f.at)
	if by < 0 {
		f.Go(firsts[max(k-1, 0)])
		return
	}
	if atFirst {
		k++
	}
	if k < len(firsts) {
		f.Go(firsts[k])
		return
	}
	f.First()
	f.Next(-1)
}

// try makes the draft anew.
func (f *Form) try() {
	f.err, f.errAt = "", f.at
	for _, x := range f.Fields {
		x.err = ""
	}
	if !f.Fresh && !f.Changed() {
		f.draft = nil
		return
	}
	wrong := false
	draft, err := f.make(func(p *layout.Plan) error {
		if f.Begin != nil {
			if err := f.Begin(p); err != nil {
				return err
			}
		}
		for _, x := range f.Fields {
			if x.Set == nil || !x.Always && x.value == x.first {
				continue
			}
			if err := x.Set(p, x.value); err != nil {
				x.err, wrong = err.Error(), true
			}
		}
		if wrong {
			return errWrong
		}
		if f.Finish != nil {
			return f.Finish(p)
		}
		return nil
	})
	switch {
	case err == nil:
		f.draft = draft
	case !wrong:
		f.err = err.Error()
	}
}

var errWrong = errors.New("a field is wrong")

// Draft is the plan with what is filled in; while something is wrong, as it was
// last when nothing was. It is nil as long as nothing was changed.
func (f *Form) Draft() *layout.Plan { return f.draft }

// SubjectThen is what the form is about, by its name once the form is taken.
func (f *Form) SubjectThen() string {
	if f.Becomes != nil {
		return f.Becomes()
	}
	return f.Subject
}

// Changed reports whether a field was changed.
func (f *Form) Changed() bool {
	return slices.ContainsFunc(f.Fields, func(x *Field) bool { return x.value != x.first })
}

// Wrong returns the first field that is wrong and why; why is "" when all is
// right. What is wrong with the whole stands beside the field touched last.
func (f *Form) Wrong() (field int, why string) {
	for i, x := range f.Fields {
		if x.err != "" {
			return i, x.err
		}
	}
	return f.errAt, f.err
}

// ErrorOf returns what is wrong with a field, "" for nothing.
func (f *Form) ErrorOf(i int) string {
	if f.Fields[i].err == "" && f.err != "" && i == max(f.errAt, 0) {
		return f.err
	}
	return f.Fields[i].err
}

// Type puts letters into the field; in a choice it goes to the next option that
// begins so.
func (f *Form) Type(text string) {
	x := f.Now()
	switch {
	case x == nil || text == "":
		return
	case x.Kind == Choice:
		x.letter(text)
		f.chose(x)
		return
	case x.Kind != Text:
		return
	}
	if f.picked {
		x.value, f.cursor, f.picked = "", 0, false
	}
	const most = 400 // more than any field takes
	r := []rune(x.value)
	in := []rune(text)
	if len(r)+len(in) > most {
		return
	}
	x.value = string(slices.Insert(r, min(f.cursor, len(r)), in...))
	f.cursor += len(in)
	f.try()
}

// Choose takes an option of the field by its index.
func (f *Form) Choose(option int) {
	if x := f.Now(); x != nil && x.Kind == Choice && option >= 0 && option < len(x.Options) {
		x.value = x.Options[option].Value
		f.chose(x)
	}
}

func (f *Form) chose(x *Field) {
	if x.Then != nil {
		x.Then(f, x.value)
	}
	f.try()
}

// Show gives a field that was not touched another value, as if it had had that
// from the first.
func (f *Form) Show(label, value string) {
	for _, x := range f.Fields {
		if x.Label == label && x.value == x.first {
			x.value, x.first = value, value
		}
	}
}

// Erase takes letters away: n before the cursor, or with a negative n behind it.
func (f *Form) Erase(n int) {
	x := f.Now()
	if x == nil || x.Kind != Text {
		return
	}
	r := []rune(x.value)
	at := min(f.cursor, len(r))
	from, to := max(at-n, 0), at
	if n < 0 {
		from, to = at, min(at-n, len(r))
	}
	if f.picked && n > 0 {
		from, to = 0, len(r)
	}
	f.picked = false
	x.value, f.cursor = string(slices.Delete(r, from, to)), from
	f.try()
}

// Clear empties the field.
func (f *Form) Clear() {
	x := f.Now()
	if x == nil || x.Kind != Text {
		return
	}
	x.value, f.cursor, f.picked = "", 0, false
	f.try()
}

// Move moves the cursor in a text, or goes to another option of a choice.
func (f *Form) Move(by int) {
	x := f.Now()
	switch {
	case x == nil:
	case x.Kind == Choice:
		x.turn(by)
		f.chose(x)
	case x.Kind == Text:
		if f.picked && by < 0 {
			f.cursor = len([]rune(x.value))
		}
		f.picked = false
		f.cursor = min(max(f.cursor+by, 0), len([]rune(x.value)))
	}
}

// Step makes the field's value greater or less by a step, where it has steps,
// or goes to another option.
func (f *Form) Step(by int) {
	x := f.Now()
	if x == nil {
		return
	}
	if x.Kind == Choice {
		f.Move(by)
		return
	}
	if x.Step == nil {
		return
	}
	if v, ok := x.Step(x.value, by); ok {
		x.value, f.picked = v, false
		f.cursor = len([]rune(v))
		f.try()
	}
}

// PutAll sets the values of fields by their labels, as a pointer does that drags
// what the form is about.
func (f *Form) PutAll(values map[string]string) {
	for i, x := range f.Fields {
		if v, ok := values[x.Label]; ok && x.value != v {
			x.value = v
			if i == f.at {
				f.Go(i)
			}
		}
	}
	f.try()
}

// Value returns the value of the field of that label, "" where there is none.
func (f *Form) Value(label string) string {
	for _, x := range f.Fields {
		if x.Label == label {
			return x.value
		}
	}
	return ""
}

// Refresh makes the draft anew, of the plan as it is now.
func (f *Form) Refresh() {
	at := f.errAt
	f.try()
	f.errAt = at
}

// First goes to the first field.
func (f *Form) First() { f.at = -1; f.Next(1) }

// Fail notes what is wrong with the form as a whole, until it is changed.
func (f *Form) Fail(why string) { f.err, f.errAt = why, f.at }

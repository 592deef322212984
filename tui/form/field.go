package form

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"footplank/layout"
)

// Kind is what is done with a field.
type Kind int

const (
	Text   Kind = iota // it is typed into
	Choice             // one of a few options
	Link               // it leads somewhere else
	Head               // a heading of what follows
)

// Option is one answer of a choice.
type Option struct{ Value, Text string }

// Field is one line of a form.
type Field struct {
	Label string
	Kind  Kind
	Want  string // what is wanted, in a few words
	None  string // what an empty field means, "" where it may not be empty
	// Options are those of a choice.
	Options []Option
	// Leads names where a link leads.
	Leads string
	// Always is set for a field that is set though it was not touched.
	Always bool
	// Set makes the field's change; nil where it makes none.
	Set func(p *layout.Plan, value string) error
	// Then follows when another option is chosen: other fields may show what
	// comes with it.
	Then func(f *Form, value string)
	// Step returns a value some steps greater or less; nil where there is no
	// such thing.
	Step func(value string, by int) (string, bool)

	value, first string
	err          string
}

// With gives the field its value.
func (x *Field) With(value string) *Field { x.value = value; return x }

// Value is what stands in the field.
func (x *Field) Value() string { return x.value }

// Changed reports whether it is not what it was.
func (x *Field) Changed() bool { return x.value != x.first }

// Shown is the value as it is to read: the text of the chosen option.
func (x *Field) Shown() string {
	if x.Kind != Choice {
		return x.value
	}
	if i := x.option(); i >= 0 {
		return x.Options[i].Text
	}
	return x.value
}

// Option is the index of the chosen option, -1 where none is.
func (x *Field) Option() int { return x.option() }

func (x *Field) option() int {
	return slices.IndexFunc(x.Options, func(o Option) bool { return o.Value == x.value })
}

// turn goes on among the options, round the ends.
func (x *Field) turn(by int) {
	if n := len(x.Options); n > 0 {
		x.value = x.Options[((x.option()+by)%n+n)%n].Value
	}
}

// letter goes to the next option whose text begins with a letter.
func (x *Field) letter(s string) {
	at, n := x.option(), len(x.Options)
	for k := 1; k <= n; k++ {
		o := x.Options[((at+k)%n+n)%n]
		if s == " " || strings.HasPrefix(strings.ToLower(o.Text), strings.ToLower(s)) {
			x.value = o.Value
			return
		}
	}
}

// Heading is a line over the fields that follow.
func Heading(text string) *Field { return &Field{Label: text, Kind: Head} }

// To is a field that leads somewhere, and tells in a few words what is there.
func To(label, value, leads string) *Field {
	return &Field{Label: label, Kind: Link, Leads: leads, value: value}
}

// Words is a field of text.
func Words(label, value, want string, set func(p *layout.Plan, s string) error) *Field {
	return &Field{Label: label, value: value, Want: want, Set: func(p *layout.Plan, s string) error {
		return set(p, strings.TrimSpace(s))
	}}
}

// OneOf is a choice.
func OneOf(label, value, want string, options []Option, set func(p *layout.Plan, s string) error) *Field {
	x := &Field{Label: label, Kind: Choice, value: value, Want: want, Options: options, Set: set}
	if x.option() < 0 { // what it is now stays possible
		x.Options = append([]Option{{value, value}}, options...)
	}
	return x
}

// YesNo is a choice of the two.
func YesNo(label string, value bool, want string, set func(p *layout.Plan, is bool) error) *Field {
	return OneOf(label, word(value), want, []Option{{"yes", "yes"}, {"no", "no"}}, func(p *layout.Plan, s string) error {
		return set(p, s == "yes")
	})
}

func word(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// wantLength says what a length is.
func wantLength(u layout.LengthUnit) string {
	if u == layout.Inches {
		return `inches: 2 7/8, 2.875 or "73mm"`
	}
	return `mm: 73 or 72.5; "2 7/8in" will do`
}

// Length is a field of a length in the player's unit.
func Length(label string, l layout.Length, u layout.LengthUnit, set func(p *layout.Plan, l layout.Length) error) *Field {
	return lengthField(label, l.Tape(u), u, func(p *layout.Plan, s string) error {
		l, err := readLength(s, u)
		if err != nil {
			return err
		}
		return set(p, l)
	})
}

// LengthOrNone is a field of a length that may be left out, which is as zero.
func LengthOrNone(label string, l layout.Length, u layout.LengthUnit, none string, set func(p *layout.Plan, l layout.Length) error) *Field {
	value := ""
	if l != 0 {
		value = l.Tape(u)
	}
	x := lengthField(label, value, u, func(p *layout.Plan, s string) error {
		if strings.TrimSpace(s) == "" {
			return set(p, 0)
		}
		l, err := readLength(s, u)
		if err != nil {
			return err
		}
		return set(p, l)
	})
	x.Want, x.None = wantLength(u)+"; empty: "+none, none
	return x
}

func lengthField(label, value string, u layout.LengthUnit, set func(p *layout.Plan, s string) error) *Field {
	return &Field{Label: label, value: value, Want: wantLength(u), Set: set, Step: func(s string, by int) (string, bool) {
		l, err := layout.ParseLength(s, u)
		if err != nil && strings.TrimSpace(s) != "" {
			return s, false
		}
		step := 5 * layout.Millimetre
		if u == layout.Inches {
			step = layout.Inch / 4
		}
		return (l + layout.Length(by)*step).Tape(u), true
	}}
}

func readLength(s string, u layout.LengthUnit) (layout.Length, error) {
	if strings.TrimSpace(s) == "" {
		return 0, fmt.Errorf("want a length in %s", wantLength(u))
	}
	l, err := layout.ParseLength(strings.ReplaceAll(s, ",", "."), u)
	if err != nil {
		return 0, fmt.Errorf("%q is no length: want %s", s, wantLength(u))
	}
	return l, nil
}

// MassOrNone is a field of a mass that may be left out, which is as zero. A player who
// measures in inches has kitchen scales of pounds and ounces.
func MassOrNone(label string, m layout.Mass, none string, u layout.LengthUnit, set func(p *layout.Plan, m layout.Mass) error) *Field {
	want := "350g, 1.2kg, 12oz or 2.5lb"
	if u == layout.Inches {
		want = "13.4oz, 2lb 10oz, 2.5lb or 350g"
	}
	value := ""
	switch {
	case m != 0 && u == layout.Inches:
		value = m.Scales(u)
	case m != 0:
		value = strconv.FormatFloat(float64(int64(m.Grams()*10+0.5))/10, 'f', -1, 64) + "g"
	}
	return &Field{Label: label, value: value, Want: want + "; empty: " + none, None: none, Set: func(p *layout.Plan, s string) error {
		if s = strings.TrimSpace(s); s == "" {
			return set(p, 0)
		}
		m, err := layout.ParseMass(strings.ReplaceAll(s, ",", "."))
		if err != nil || m < 0 {
			return fmt.Errorf("%q is no mass: want %s", s, want)
		}
		return set(p, m)
	}}
}

// Whole is a field of a whole number.
func Whole(label string, n, low, high int, want string, set func(p *layout.Plan, n int) error) *Field {
	read := func(s string) (int, error) {
		n, err := strconv.Atoi(strings.TrimSpace(s))
		if err != nil || n < low || n > high {
			return 0, fmt.Errorf("want a whole number from %d to %d", low, high)
		}
		return n, nil
	}
	return &Field{Label: label, value: strconv.Itoa(n), Want: want, Set: func(p *layout.Plan, s string) error {
		n, err := read(s)
		if err != nil {
			return err
		}
		return set(p, n)
	}, Step: func(s string, by int) (string, bool) {
		n, err := read(s)
		if err != nil {
			return s, false
		}
		return strconv.Itoa(min(max(n+by, low), high)), true
	}}
}

// Number is a field of a number that is not negative; with none set, one that may
// be left out, which is as zero.
func Number(label string, v float64, want, none string, set func(p *layout.Plan, v float64) error) *Field {
	value := strconv.FormatFloat(v, 'f', -1, 64)
	if none != "" {
		want += "; empty: " + none
		if v == 0 {
			value = ""
		}
	}
	return &Field{Label: label, value: value, Want: want, None: none, Set: func(p *layout.Plan, s string) error {
		s = strings.ReplaceAll(strings.TrimSpace(s), ",", ".")
		if s == "" && none != "" {
			return set(p, 0)
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil || strings.Trim(s, "0123456789.") != "" {
			return fmt.Errorf("want a number: %s", want)
		}
		return set(p, v)
	}}
}

// Some is a field of a few words with commas between them, each of them one of
// those that there are.
func Some(label string, values, all []string, none string, set func(p *layout.Plan, s []string) error) *Field {
	want := strings.Join(all, ", ") + "; empty: " + none
	return &Field{Label: label, value: strings.Join(values, ", "), Want: want, None: none, Set: func(p *layout.Plan, s string) error {
		var got []string
		for _, w := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' }) {
			if !slices.Contains(all, w) {
				return fmt.Errorf("%q is none of them: want some of %s", w, strings.Join(all, ", "))
			}
			if !slices.Contains(got, w) {
				got = append(got, w)
			}
		}
		return set(p, got)
	}}
}

// Money is a field of a price that may be left out.
func Money(label string, price layout.Price, known bool, set func(p *layout.Plan, price layout.Price, known bool) error) *Field {
	const want = `€89, 12.50 EUR or "12 kr"`
	value := ""
	if known {
		value = price.String()
	}
	return &Field{Label: label, value: value, Want: want + "; empty: not known", None: "not known", Set: func(p *layout.Plan, s string) error {
		if strings.TrimSpace(s) == "" {
			return set(p, layout.Price{}, false)
		}
		price, err := layout.ParsePrice(s)
		if err != nil {
			return fmt.Errorf("want a currency and a number: %s", want)
		}
		return set(p, price, true)
	}}
}

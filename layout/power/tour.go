package power

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
)

// Country is the mains of a country: what is between the two poles of its
// outlets, and the letters of its plugs by the usual list.
type Country struct {
	Code  string
	Name  string
	Volts []int
	Hertz []int
	Plugs string // letters
}

// TableDate warns of the table's age wherever it is shown.
const TableDate = "The table of mains was gathered from a public list of plugs by country that carries no date: ask the venue."

// countries is a list of plugs by country scraped from the IEC's World Plugs;
// voltages are those of IEC 60038 where a country follows it. Dated, so the
// player is told to check.
var countries = []Country{
	{"AE", "United Arab Emirates", []int{230}, []int{50}, "CDG"}, {"AR", "Argentina", []int{220}, []int{50}, "CI"},
	{"AT", "Austria", []int{230}, []int{50}, "CF"}, {"AU", "Australia", []int{230}, []int{50}, "I"},
	{"BE", "Belgium", []int{230}, []int{50}, "E"}, {"BR", "Brazil", []int{127, 220}, []int{60}, "CN"},
	{"CA", "Canada", []int{120}, []int{60}, "AB"}, {"CH", "Switzerland", []int{230}, []int{50}, "CJ"},
	{"CL", "Chile", []int{220}, []int{50}, "CL"}, {"CN", "China", []int{220}, []int{50}, "ACI"},
	{"CO", "Colombia", []int{110}, []int{60}, "AB"}, {"CZ", "Czechia", []int{230}, []int{50}, "E"},
	{"DE", "Germany", []int{230}, []int{50}, "CF"}, {"DK", "Denmark", []int{230}, []int{50}, "CEFK"},
	{"ES", "Spain", []int{230}, []int{50}, "CF"}, {"FI", "Finland", []int{230}, []int{50}, "CF"},
	{"FR", "France", []int{230}, []int{50}, "E"}, {"GB", "United Kingdom", []int{230}, []int{50}, "G"},
	{"GR", "Greece", []int{230}, []int{50}, "CF"}, {"HK", "Hong Kong", []int{220}, []int{50}, "DG"},
	{"HU", "Hungary", []int{230}, []int{50}, "CF"}, {"IE", "Ireland", []int{230}, []int{50}, "G"},
	{"IN", "India", []int{230}, []int{50}, "CDM"}, {"IT", "Italy", []int{230}, []int{50}, "CFL"},
	{"JP", "Japan", []int{100}, []int{50, 60}, "AB"}, {"KR", "Republic of Korea", []int{220}, []int{60}, "CF"},
	{"MX", "Mexico", []int{127}, []int{60}, "AB"}, {"NL", "Netherlands", []int{230}, []int{50}, "CF"},
	{"NO", "Norway", []int{230}, []int{50}, "CF"}, {"NZ", "New Zealand", []int{230}, []int{50}, "I"},
	{"PL", "Poland", []int{230}, []int{50}, "E"}, {"PT", "Portugal", []int{230}, []int{50}, "CF"},
	{"SE", "Sweden", []int{230}, []int{50}, "CF"}, {"SG", "Singapore", []int{230}, []int{50}, "CGM"},
	{"TR", "Türkiye", []int{220}, []int{50}, "CF"}, {"TW", "Taiwan", []int{110}, []int{60}, "AB"},
	{"US", "United States", []int{120}, []int{60}, "AB"}, {"ZA", "South Africa", []int{230}, []int{50}, "CDMN"},
}

// CountryOf returns the mains of a country by its two-letter code, ISO 3166.
func CountryOf(code string) (Country, bool) {
	i := slices.IndexFunc(countries, func(c Country) bool { return c.Code == code })
	if i < 0 {
		return Country{}, false
	}
	return countries[i], true
}

// Countries returns the codes that the table knows, in order.
func Countries() []string {
	out := make([]string, len(countries))
	for i, c := range countries {
		out[i] = c.Code
	}
	return out
}

// Earthed returns the plugs of a country that have an earth. Those of type A and
// C have none (from memory); a supply in a metal case wants one.
func (c Country) Earthed() string {
	return strings.Map(func(r rune) rune {
		if r == 'A' || r == 'C' {
			return -1
		}
		return r
	}, c.Plugs)
}

// Answers for a supply in a country.
const (
	MainsFits    = "fits"
	MainsHigh    = "too high" // more volts than the supply is made for
	MainsLow     = "too low"
	MainsSome    = "ask first" // the country has several, and not all fit
	MainsHertz   = "other frequency"
	MainsUnknown = "not known" // of the supply or of the country
)

// Stop is one supply in one country of the tour.
type Stop struct {
	Country Country // only its Code when the table does not know it
	Known   bool
	Supply  string
	Answer  string
	// Universal is set for a supply that takes every mains of the table.
	Universal bool
	// Adaptor is set for a supply without an inlet for the mains: what is plugged in
	// there is the adaptor that feeds it, and that is what the answer is about.
	Adaptor bool
	// Plug tells which plug the mains lead needs there, or an adaptor's travel plug,
	// "" when it is the same as at home, which is the first country of the tour.
	Plug string
	Text string
}

// tolerance is what IEC 60038 allows around a nominal voltage, in percent.
const tolerance = 10

// tour checks every supply in every country of the tour, but for expanders, which
// another supply feeds.
func tour(p *layout.Plan) []Stop {
	var out []Stop
	home, _ := CountryOf(first(p.Power.Tour))
	for _, code := range p.Power.Tour {
		for i := range p.Units {
			if u := &p.Units[i]; u.Supplies() && (hasMains(u) || !u.Expander()) {
				out = append(out, stopOf(u, code, home))
			}
		}
	}
	return out
}

func first(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

func hasMains(u *layout.Unit) bool {
	return slices.ContainsFunc(u.Jacks, func(j layout.Jack) bool { return j.Signal == layout.Line && j.Dir == layout.In })
}

func stopOf(u *layout.Unit, code string, home Country) Stop {
	s := Stop{Supply: u.ID, Country: Country{Code: code}, Answer: MainsUnknown, Universal: Universal(u.Mains), Adaptor: !hasMains(u)}
	c, ok := CountryOf(code)
	if !ok {
		s.Text = fmt.Sprintf("The table does not know the mains of %s. Ask the venue, and check the label on %s.", code, pluggedIn(u))
		return s
	}
	s.Country, s.Known = c, true
	if !sharePlug(c, home) {
		s.Plug = "a mains lead with plug " + letters(c.Earthed())
		if s.Adaptor {
			s.Plug = "a travel plug for outlets of type " + letters(c.Earthed())
		}
	}
	if u.Mains == nil {
		where := "the label at its inlet"
		if s.Adaptor {
			where = "its label"
		}
		s.Text = fmt.Sprintf("%s has %s. What %s takes is not in the plan: read %s before it is plugged in.", c.Name, c.mains(), pluggedIn(u), where)
		return s
	}
	s.Answer, s.Text = judge(u, c)
	return s
}

// pluggedIn names what goes into the outlet: the supply, or the adaptor that
// feeds it.
func pluggedIn(u *layout.Unit) string {
	if hasMains(u) {
		return u.Label
	}
	return "the adaptor of " + u.Label
}

// judge compares a supply's label with a country's mains. A label's voltage
// stands for the range that IEC 60038 allows around it.
func judge(u *layout.Unit, c Country) (answer, text string) {
	m := u.Mains
	lo, hi := m.Volts*(100-tolerance), m.MaxVolts*(100+tolerance)
	var low, high, good int
	for _, v := range c.Volts {
		switch {
		case v*100 > hi:
			high++
		case v*100 < lo:
			low++
		default:
			good++
		}
	}
	label := fmt.Sprintf("%s is made for %s", pluggedIn(u), labelWords(m))
	switch {
	case good == 0 && high > 0:
		return MainsHigh, fmt.Sprintf("DO NOT PLUG IN: %s has %s and %s. It can burn, and someone can be hurt. Take a supply made for this mains.", c.Name, c.mains(), label)
	case good == 0:
		return MainsLow, fmt.Sprintf("%s has %s and %s: it will not work there. Take a supply made for this mains.", c.Name, c.mains(), label)
	case high > 0:
		return MainsSome, fmt.Sprintf("ASK BEFORE YOU PLUG IN: %s has %s, by the town, and %s. On the higher one it can burn.", c.Name, c.mains(), label)
	case low > 0:
		return MainsSome, fmt.Sprintf("%s has %s, by the town, and %s. Ask which; on the lower one it will not work.", c.Name, c.mains(), label)
	}
	for _, h := range c.Hertz {
		if h < m.Hertz || h > m.MaxHertz {
			return MainsHertz, fmt.Sprintf("%s has %d Hz and %s: a transformer made for another frequency can run hot. Ask its maker, or take another supply.", c.Name, h, label)
		}
	}
	return MainsFits, fmt.Sprintf("%s has %s and %s.", c.Name, c.mains(), label)
}

// Universal reports whether a supply takes every mains of the table.
func Universal(m *layout.MainsInput) bool {
	if m == nil {
		return false
	}
	for _, c := range countries {
		for _, v := range c.Volts {
			if v*100 < m.Volts*(100-tolerance) || v*100 > m.MaxVolts*(100+tolerance) {
				return false
			}
		}
		for _, h := range c.Hertz {
			if h < m.Hertz || h > m.MaxHertz {
				return false
			}
		}
	}
	return true
}

func sharePlug(c, home Country) bool { return strings.ContainsAny(c.Earthed(), home.Earthed()) }

// mains writes a country's mains: "127 or 220 V, 60 Hz".
func (c Country) mains() string { return or(c.Volts) + " V, " + or(c.Hertz) + " Hz" }

func or(list []int) string {
	s := make([]string, len(list))
	for i, n := range list {
		s[i] = fmt.Sprint(n)
	}
	return strings.Join(s, " or ")
}

func letters(s string) string { return strings.Join(strings.Split(s, ""), " or ") }

func mainsWords(lo, hi int, unit string) string {
	if lo == hi {
		return fmt.Sprintf("%d %s", lo, unit)
	}
	return fmt.Sprintf("%d to %d %s", lo, hi, unit)
}

func labelWords(m *layout.MainsInput) string {
	return mainsWords(m.Volts, m.MaxVolts, "V") + ", " + mainsWords(m.Hertz, m.MaxHertz, "Hz")
}

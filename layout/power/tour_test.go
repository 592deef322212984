package power

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"footplank/layout"
)

func onTour(m *layout.MainsInput, countries ...string) []Stop {
	s := supplyOf("shed", nine)
	s.Mains = m
	p := planOf(s)
	p.Power.Tour = countries
	return tour(p)
}

// IEC 60038: 230 V with 10 % either way, 120/208 and 120/240. Countries: a list
// of plugs by country scraped from the IEC's World Plugs, dated.
func TestMainsOfTheWorld(t *testing.T) {
	wide := &layout.MainsInput{Volts: 100, MaxVolts: 240, Hertz: 50, MaxHertz: 60}
	assert.True(t, Universal(wide))
	for _, s := range onTour(wide, Countries()...) {
		assert.Equal(t, MainsFits, s.Answer, s.Text)
		assert.True(t, s.Universal)
	}
	for _, c := range []struct {
		m    layout.MainsInput
		want map[string]string
	}{
		{layout.MainsInput{Volts: 230, MaxVolts: 230, Hertz: 50, MaxHertz: 50}, map[string]string{
			"IE": MainsFits, "CN": MainsFits, "US": MainsLow, "JP": MainsLow, "KR": MainsHertz, "BR": MainsSome}},
		{layout.MainsInput{Volts: 120, MaxVolts: 120, Hertz: 60, MaxHertz: 60}, map[string]string{
			"CA": MainsFits, "MX": MainsFits, "TW": MainsFits, "JP": MainsLow, "GB": MainsHigh, "BR": MainsSome}},
		{layout.MainsInput{Volts: 100, MaxVolts: 120, Hertz: 50, MaxHertz: 60}, map[string]string{
			"JP": MainsFits, "FR": MainsHigh, "BR": MainsSome}},
	} {
		assert.False(t, Universal(&c.m))
		for code, want := range c.want {
			s := onTour(&c.m, code)[0]
			assert.Equal(t, want, s.Answer, "%v in %s: %s", c.m, code, s.Text)
			if want == MainsHigh {
				assert.Contains(t, s.Text, "DO NOT PLUG IN")
			}
		}
	}
}

func TestPlugsOnTour(t *testing.T) {
	wide := &layout.MainsInput{Volts: 100, MaxVolts: 240, Hertz: 50, MaxHertz: 60}
	got := map[string]string{}
	for _, s := range onTour(wide, "IE", "GB", "FR", "DK", "US", "CN", "AR") {
		got[s.Country.Code] = s.Plug
	}
	lead := "a mains lead with plug "
	assert.Equal(t, map[string]string{"IE": "", "GB": "", "FR": lead + "E", "DK": lead + "E or F or K", "US": lead + "B", "CN": lead + "I", "AR": lead + "I"}, got)
}

// A supply that an adaptor feeds is plugged in abroad as well: the plan's mains
// are then those on the adaptor's label. An expander is not.
func TestAdaptorOnTour(t *testing.T) {
	s := supplyOf("slim", nine)
	s.Jacks = slices.DeleteFunc(s.Jacks, func(j layout.Jack) bool { return j.Signal == layout.Line })
	p := planOf(s)
	p.Power.Tour = []string{"JP", "BR"}
	stops := tour(p)
	assert.Len(t, stops, 2)
	assert.Equal(t, "Japan has 100 V, 50 or 60 Hz. What the adaptor of slim takes is not in the plan: read its label before it is plugged in.", stops[0].Text)
	assert.Empty(t, stops[0].Plug)
	assert.Equal(t, "a travel plug for outlets of type N", stops[1].Plug)
	assert.True(t, stops[1].Adaptor)

	p.Units[0].Mains = &layout.MainsInput{Volts: 100, MaxVolts: 120, Hertz: 50, MaxHertz: 60}
	stops = tour(p)
	assert.Equal(t, MainsFits, stops[0].Answer)
	assert.Equal(t, MainsSome, stops[1].Answer)
	assert.Contains(t, stops[1].Text, "the adaptor of slim is made for 100 to 120 V")

	p.Units[0].Draw = &layout.Draw{}
	assert.Empty(t, tour(p))
}

func TestUnknownMains(t *testing.T) {
	s := onTour(nil, "IE")[0]
	assert.Equal(t, MainsUnknown, s.Answer)
	assert.Contains(t, s.Text, "read the label at its inlet")
	s = onTour(&layout.MainsInput{Volts: 230, MaxVolts: 230, Hertz: 50, MaxHertz: 50}, "ZZ")[0]
	assert.Equal(t, MainsUnknown, s.Answer)
	assert.False(t, s.Known)
}

// Every country has an earthed plug, and the codes are ISO 3166 alpha-2 in order.
func TestTableOfCountries(t *testing.T) {
	assert.True(t, slices.IsSorted(Countries()))
	assert.Len(t, slices.Compact(Countries()), len(countries))
	for _, c := range countries {
		assert.NotEmpty(t, c.Earthed(), c.Code)
		assert.Regexp(t, `^[A-Z]{2}$`, c.Code)
		for _, v := range c.Volts {
			assert.True(t, v >= 100 && v <= 230, c.Code)
		}
	}
}

func TestTourFaultsAreIssues(t *testing.T) {
	is := tourIssues(onTour(&layout.MainsInput{Volts: 120, MaxVolts: 120, Hertz: 60, MaxHertz: 60}, "US", "GB", "BR"))
	assert.Len(t, is, 2)
	assert.Equal(t, Fault, is[0].Level)
	assert.Equal(t, Caution, is[1].Level)
}

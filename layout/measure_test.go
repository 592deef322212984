package layout

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The inch is 25.4 mm and the avoirdupois pound 0.45359237 kg, both exactly:
// international yard and pound agreement of 1959, ISO 31-1 (from memory).
func TestMeasuresOfTheAgreement(t *testing.T) {
	for text, want := range map[string]Length{
		"1in": 25_400, "1ft": 304_800, "3ft": 914_400, "10in": 254 * Millimetre, "1/4in": 6_350,
	} {
		got, err := ParseLength(text, Millimetres)
		require.NoError(t, err)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]Mass{
		"1lb": 453_592, "100lb": 45_359_237, "16oz": 453_592, "1oz": 28_350, "10000oz": 283_495_231, "2.2 lb": 997_903,
		"2lb 10oz": 1_190_680, "2 lb 10.0 oz": 1_190_680, "1lb1oz": 481_942, "0lb 16oz": 453_592,
	} {
		got, err := ParseMass(text)
		require.NoError(t, err)
		assert.Equal(t, want, got, text)
	}
	assert.Equal(t, Length(25_400), Inch)
	assert.Equal(t, Mass(28_350), Ounce)
	assert.Equal(t, Mass(453_592), Pound)
}

func TestParseLength(t *testing.T) {
	for _, tt := range []struct {
		text string
		bare LengthUnit
		want Length
	}{
		{"24in", Millimetres, 609_600},
		{"7 1/2in", Millimetres, 190_500},
		{"1/2 in", Millimetres, 12_700},
		{"12cm", Millimetres, 120_000},
		{"305mm", Millimetres, 305_000},
		{"305.5 mm", Millimetres, 305_500},
		{"0.1m", Millimetres, 100_000},
		{`8 1/4"`, Millimetres, 209_550},
		{" 12 MM ", Inches, 12_000},
		{"12", Millimetres, 12_000},
		{"12", Inches, 304_800},
		{".5", Inches, 12_700},
		{"-15", Millimetres, -15_000},
		{"-1/2in", Millimetres, -12_700},
		{"0", Millimetres, 0},
		{"007", Millimetres, 7_000},
		{"010/16in", Millimetres, 15_875},
		{"7 08/16in", Millimetres, 190_500},
		{"1/64in", Millimetres, 397},
		{"0.0004", Millimetres, 0},
		{"0.0005", Millimetres, 1},
		{"100m", Millimetres, MaxLength},
	} {
		got, err := ParseLength(tt.text, tt.bare)
		if assert.NoError(t, err) {
			assert.Equal(t, tt.want, got, "ParseLength(%q, %q)", tt.text, tt.bare)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for text, says := range map[string]string{
		"":              "no number",
		"mm":            "no number",
		"wide":          `unknown unit "wide"`,
		"2 stone":       `unknown unit "stone"`,
		"NaN":           `unknown unit "nan"`,
		"1e5":           `"1e5" is not a number`,
		"1_000":         `"1_000" is not a number`,
		"1/0in":         `"1/0" is not a number`,
		"1/-2in":        `"1/-2" is not a number`,
		"1/2/3in":       `"1/2/3" is not a number`,
		"1.5.5":         `"1.5.5" is not a number`,
		"1.5 1/2in":     `"1.5" is not a number`,
		"1 2 3":         "no number",
		"1 2":           "no number",
		"-1 1/2in":      `"-1" is not a number`,
		"１２mm":          "unknown unit",
		"100001mm":      "beyond all measure",
		"-100001mm":     "beyond all measure",
		"9999999999999": "beyond all measure",
	} {
		_, err := ParseLength(text, Millimetres)
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), says)
			assert.Contains(t, err.Error(), "want a number and mm, cm, m, in or ft")
		}
	}
	_, err := ParseLength(strings.Repeat("1", 65), Millimetres)
	assert.ErrorContains(t, err, "too long")
	for _, text := range []string{"2 stone", "1001kg", "350mm", "", "1/0kg"} {
		_, err := ParseMass(text)
		assert.ErrorContains(t, err, "want a number and g, kg, oz or lb", text)
	}
}

func TestFormatLength(t *testing.T) {
	for _, tt := range []struct {
		l      Length
		mm, in string
	}{
		{0, "0mm", "0in"},
		{12_500, "12.5mm", "0.4921in"},
		{609_600, "609.6mm", "24in"},
		{190_500, "190.5mm", "7 1/2in"},
		{397, "0.397mm", "1/64in"},
		{-12_700, "-12.7mm", "-1/2in"},
		{-38_100, "-38.1mm", "-1 1/2in"},
		{1, "0.001mm", "0in"},
		{300_000, "300mm", "11.811in"},
	} {
		assert.Equal(t, tt.mm, tt.l.Format(Millimetres))
		assert.Equal(t, tt.mm, tt.l.String())
		assert.Equal(t, tt.in, tt.l.Format(Inches))
		assert.Equal(t, tt.in, tt.l.Number(Inches)+"in")
	}
	assert.Equal(t, 12.345, Length(12_345).MM())
	assert.Equal(t, 1234.567, Mass(1_234_567).Grams())
}

func drawLength(t *rapid.T, name string) Length {
	return Length(rapid.Int64Range(-int64(MaxLength), int64(MaxLength)).Draw(t, name))
}

// Millimetres read back exactly; inches to half of the fourth decimal, 1.27
// micrometres, and 64ths of an inch exactly.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(t, "length")
		got, err := ParseLength(l.Format(Millimetres), Inches)
		require.NoError(t, err)
		require.Equal(t, l, got)

		got, err = ParseLength(l.Format(Inches), Millimetres)
		if err != nil { // rounded up past MaxLength
			require.Greater(t, max(l, -l), MaxLength-2)
			return
		}
		require.LessOrEqual(t, max(got-l, l-got), Length(2))
	})
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(0, 64*3937).Draw(t, "64ths")
		l := Length((n*25_400 + 32) / 64)
		s := l.Format(Inches)
		require.NotContains(t, s, ".")
		got, err := ParseLength(s, Millimetres)
		require.NoError(t, err)
		require.Equal(t, l, got, s)
	})
}

// Whatever the text, the reader answers within its bounds or with an error that
// shows the text, and never panics.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"7 1/2in", "305mm", "1e999999999", "-", "1/", "/1", " ", "\xff", "24\"", "1 1/2 lb", "010/16in", "½in", "+-1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := ParseLength(s, Inches)
		if err == nil && (l > MaxLength || l < -MaxLength) || err != nil && l != 0 {
			t.Errorf("ParseLength(%q) = %d, %v", s, l, err)
		}
		m, err := ParseMass(s)
		if err == nil && (m > MaxMass || m < -MaxMass) || err != nil && m != 0 {
			t.Errorf("ParseMass(%q) = %d, %v", s, m, err)
		}
		if err != nil && !utf8.ValidString(err.Error()) {
			t.Errorf("ParseMass(%q): error %q is not text", s, err)
		}
	})
}

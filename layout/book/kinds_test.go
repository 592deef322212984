package book

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout/paper"
)

// Every kind of sheet is written in every form that it says it has, twice alike.
func TestEveryKindInEveryForm(t *testing.T) {
	p := read(t, "pocket")
	for _, k := range Kinds() {
		assert.Same(t, k, KindNamed(k.Name))
		assert.NotEmpty(t, k.About)
		for _, ending := range k.Endings() {
			var a, b bytes.Buffer
			s := Sheet{Kind: k, Ending: ending, Paper: paper.A4}
			_, err := s.Write(&a, p)
			require.NoError(t, err, "%s %s", k.Name, ending)
			_, err = s.Write(&b, p)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(a.Bytes(), b.Bytes()), "%s %s: the same plan, the same bytes", k.Name, ending)
			switch ending {
			case ".pdf":
				assert.True(t, strings.HasPrefix(a.String(), "%PDF"), k.Name)
			case ".svg":
				assert.Contains(t, a.String(), "<svg", k.Name)
			case ".json":
				assert.True(t, json.Valid(a.Bytes()), k.Name)
			default:
				assert.NotEmpty(t, a.String(), "%s %s", k.Name, ending)
			}
		}
	}
	assert.Nil(t, KindNamed("poster"))
}

// What a kind does not have is refused in words, with nothing written.
func TestSheetsThatThereAreNot(t *testing.T) {
	p := read(t, "pocket")
	name := p.Lineups[0].Name
	for want, s := range map[string]Sheet{
		"no form":                {Kind: KindNamed("stickers"), Ending: ".txt"},
		"all line-ups together":  {Kind: KindNamed("labels"), Ending: ".pdf", Lineups: []string{name}},
		"one line-up or of all":  {Kind: KindNamed("underside"), Ending: ".svg", Lineups: []string{name, name}},
		"all line-ups together ": {Kind: KindNamed("placement"), Ending: ".csv", Lineups: []string{name}},
	} {
		var b bytes.Buffer
		_, err := s.Write(&b, p)
		require.ErrorContains(t, err, strings.TrimSpace(want))
		assert.Zero(t, b.Len())
	}
	assert.Equal(t, -1, KindNamed("gig").MostLineups(".pdf"))
	assert.Equal(t, 1, KindNamed("placement").MostLineups(".pdf"))
	assert.Equal(t, -1, KindNamed("placement").MostLineups(".json"))
}

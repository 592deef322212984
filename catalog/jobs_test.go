package catalog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a player calls a unit leads to a form of about its size. The words are
// those that players use; common practice, no source.
func TestFormsAreFoundByWhatPlayersCallThem(t *testing.T) {
	c := Builtin()
	for word, want := range map[string]string{
		"overdrive": "compact", "distortion": "die-cast-small", "boost": "mini", "compressor": "compact", "eq": "compact", "octave": "compact",
		"chorus": "compact-stereo", "phaser": "compact", "reverb": "large-two-switch", "delay": "compact-digital", "volume pedal": "treadle-volume",
		"expression pedal": "treadle-expression", "wah pedal": "treadle-wah", "power supply": "supply-eight", "noise gate": "compact-loop",
		"looper": "looper-one-switch", "wireless": "receiver",
	} {
		var found []string
		for _, f := range c.Units() {
			all := true
			for _, w := range strings.Fields(word) {
				all = all && strings.Contains(strings.ToLower(f.Name+" "+f.Summary+" "+WordsFor(f.Name)), w)
			}
			if all {
				found = append(found, f.Name)
			}
		}
		assert.Contains(t, found, want, word)
		assert.Less(t, len(found), 20, "%s finds nearly everything", word)
	}
}

// The words name forms that there are.
func TestJobsNameForms(t *testing.T) {
	c := Builtin()
	there := map[string]bool{}
	for _, f := range c.Units() {
		there[f.Name] = true
	}
	for _, j := range jobs {
		for _, f := range j.forms {
			assert.True(t, there[f], "%s: no form %s", j.words, f)
		}
	}
}

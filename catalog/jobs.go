package catalog

import (
	"slices"
	"strings"
)

// job is what players call the units that do one thing, and the forms that such
// units come in. Common practice, no source: any size may hold any circuit, so
// these are places to look first, and a tape measure decides.
type job struct {
	words string
	forms []string
}

var (
	smallBoxes = []string{"compact", "compact-back", "die-cast-small", "die-cast-small-back", "die-cast-medium", "mini"}
	digital    = []string{"compact-digital", "compact-stereo", "mini-digital", "large-two-switch", "three-switch", "four-switch"}
)

var jobs = []job{
	{"overdrive drive distortion crunch boost booster clean treble", append([]string{"die-cast-wide"}, smallBoxes...)},
	{"compressor compression sustainer limiter", smallBoxes},
	{"equaliser equalizer eq tone filter envelope auto-wah octave octaver ring", append([]string{"die-cast-wide"}, smallBoxes...)},
	{"noise gate suppressor", []string{"compact-loop", "compact", "mini"}},
	{"fuzz", []string{"compact-fuzz", "die-cast-medium", "die-cast-wide", "mini"}},
	{"chorus phaser phase flanger tremolo vibrato rotary modulation", append(slices.Clone(digital), smallBoxes...)},
	{"echo delay reverb ambience", digital},
	{"harmoniser harmonizer pitch shifter synth", digital},
	{"looper loop station", []string{"looper-one-switch", "looper-two-switch", "mini-digital"}},
	{"loop switcher bypass", []string{"loop-box", "line-selector"}},
	{"aby splitter selector", []string{"line-selector"}},
	{"acoustic preamp simulator simulation modeller modeler cab speaker", []string{"preamp-di", "amp-emulator", "four-switch"}},
	{"multi-effects processor modeller modeler", []string{"four-switch", "three-switch"}},
	{"volume swell", []string{"treadle-volume", "treadle-small"}},
	{"expression controller", []string{"treadle-expression"}},
	{"wah wah-wah filter", []string{"treadle-wah"}},
	{"rocker pedal", []string{"treadle-volume", "treadle-small", "treadle-expression", "treadle-wah"}},
	{"tap tempo remote footswitch", []string{"foot-switch", "foot-switch-two"}},
	{"radio wireless", []string{"receiver"}},
	{"patch bay patchbay interface", []string{"junction-box"}},
	{"direct injection", []string{"di-box", "preamp-di"}},
	{"power supply psu distributor", []string{"supply-eight", "supply-mixed", "supply-shared", "supply-slim", "supply-twelve"}},
	{"power extension more outputs", []string{"expander-four", "expander-eight"}},
}

// WordsFor returns what players call the units that come in a built-in form,
// besides its own name and summary, as words with a space between; "" for forms
// that nothing is known of. It is for finding a form by what a unit does.
func WordsFor(form string) string {
	var out []string
	for _, j := range jobs {
		if slices.Contains(j.forms, form) {
			out = append(out, j.words)
		}
	}
	return strings.Join(out, " ")
}

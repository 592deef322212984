package wiring

import (
	"fmt"
	"strings"

	"footplank/layout"
)

// What units do, as far as the names of their forms tell, in the order that most
// have them: tuner, wah or filter, compressor, drive, modulation, delay, reverb
// (cursa). A volume pedal stands before the delay (abtmusic).
const (
	tuner = 1 + iota
	wah
	compressor
	fuzz
	modulation
	delay
	reverb
	volume
)

var jobs = []struct {
	word string
	job  int
	name string
}{
	{"tuner", tuner, "tuner"}, {"wah", wah, "wah"}, {"compressor", compressor, "compressor"}, {"fuzz", fuzz, "fuzz"},
	{"chorus", modulation, "modulation"}, {"delay", delay, "delay"}, {"reverb", reverb, "reverb"}, {"volume", volume, "volume"},
}

// job returns what a unit does, or 0.
func job(u *layout.Unit) int {
	if u == nil {
		return 0
	}
	for _, word := range strings.Split(u.Form, "-") {
		for _, j := range jobs {
			if word == j.word {
				return j.job
			}
		}
	}
	return 0
}

func jobName(job int) string {
	for _, j := range jobs {
		if j.job == job {
			return j.name
		}
	}
	return ""
}

// order notes units that follow another in the chain though most have them the
// other way round, each with the first such.
func (f *finder) order() {
	nodes := f.p.Nodes(f.l)
	for i, n := range nodes {
		u := f.p.Unit(n.Unit)
		for _, m := range nodes[:i] {
			v := f.p.Unit(m.Unit)
			if u == nil || v == nil || u == v {
				continue
			}
			if why := odd(v, u); why != "" {
				f.add(Issue{Code: ChainOrder, Level: Note, Units: []string{n.Unit, m.Unit},
					Text: fmt.Sprintf("%s comes after %s; %s. Keep it if it sounds right.", u.Label, v.Label, why)})
				break
			}
		}
	}
}

// odd says why most would not have unit b behind unit a, or "".
func odd(a, b *layout.Unit) string {
	ja, jb := job(a), job(b)
	switch {
	case jb == fuzz && ja == 0 && a.Buffer:
		return "most have buffers after a fuzz, which wants to feel the pickup"
	case ja == 0 || jb == 0 || ja == jb:
		return ""
	case jb == volume:
		if ja >= delay && ja != volume {
			return "most have the volume pedal before the delay, so that its tails ring on"
		}
	case ja != volume && ja > jb:
		return "most have the " + jobName(jb) + " before the " + jobName(ja)
	}
	return ""
}

package plate

import (
	"strings"

	"footplank/layout"
	"footplank/layout/paper"
)

// edgeRoom is around what is drawn of a surface.
const edgeRoom = 4 * mm

// kind is what a drawing of a surface is for.
type kind uint8

const (
	base     kind = iota // all fastener, and what stays
	lineup               // what one line-up has of its own, over what stays
	overview             // a line-up with cables and leads, to be scaled down
	below                // seen from below
)

// job is one drawing of one surface.
type job struct {
	kind    kind
	surface layout.Surface
	l       *layout.Lineup
	prefix  string
	zoom    layout.Length
	runs    bool // draw cables and leads
}

// area returns what of the board's plane a drawing shows: the surface, and what
// stands out of it.
func (f *facts) area(j *job) layout.Rect {
	a := j.surface.At
	lineups := []*layout.Lineup{j.l}
	if j.kind == base || j.kind == below {
		lineups = nil
		for i := range f.p.Lineups {
			lineups = append(lineups, &f.p.Lineups[i])
		}
	}
	for _, l := range lineups {
		placed, _ := f.p.Standings(l)
		for _, s := range placed {
			if s.Place.On != j.surface.Name || j.kind == base && !stays(f.p, s.Unit) {
				continue
			}
			for _, b := range s.Boxes {
				a = a.Union(b.Box.Rect())
			}
		}
	}
	if j.runs && j.surface.Name == layout.DeckName {
		leads, cables := f.runsOf(j)
		for _, r := range append(leads, cables...) {
			for _, at := range r.path {
				a = a.Union(grow(layout.Rect{X0: at.X, Y0: at.Y, X1: at.X, Y1: at.Y}, 2*mm))
			}
		}
	}
	return a
}

// viewOf makes an empty drawing of a job, of that area of the board.
func (f *facts) viewOf(j *job, a layout.Rect) *view {
	v := &view{mirror: j.kind == below, corner: layout.Point{X: j.surface.At.X0, Y: j.surface.At.Y0},
		unit: f.p.LengthUnit, prefix: j.prefix, zoom: j.zoom}
	v.d = paper.NewDrawing(a.W()+2*edgeRoom, a.D()+2*edgeRoom)
	v.ox, v.oy = edgeRoom-a.X0, edgeRoom+a.Y1
	if v.mirror {
		v.ox = edgeRoom + a.X1
	}
	return v
}

func (f *facts) drawOn(v *view, j *job, a layout.Rect) {
	v.start()
	strips := f.stripsOf(j)
	v.strips(strips)
	if j.kind != overview {
		v.rulers(j.surface.At)
	}
	switch j.kind {
	case base:
		v.units(f.on(j, true), v.whole, true)
		v.stripWords(strips)
	case lineup:
		v.units(f.on(j, true), nil, false)
		own := f.on(j, false)
		v.units(own, v.whole, true)
		v.stripWords(strips)
	case overview:
		v.units(append(f.on(j, true), f.on(j, false)...), v.whole, true)
	case below:
		v.units(f.on(j, true), nil, false)
		v.stripWords(strips)
	}
	if j.runs {
		f.drawRuns(v, j, a)
	}
	if j.kind != overview {
		v.rulerNumbers(j.surface.At)
	}
	v.ground(f.p, &j.surface)
}

// on returns the placed units of a job's surface that stay, or the others.
func (f *facts) on(j *job, staying bool) []layout.Standing {
	l := j.l
	if l == nil {
		l = &f.p.Lineups[0]
	}
	var out []layout.Standing
	for _, s := range standings(f.p, l, staying) {
		if s.Place.On == j.surface.Name {
			out = append(out, s)
		}
	}
	return out
}

// stripsOf returns the strips that a job shows: all of the surface, or those
// of the units that a line-up has of its own.
func (f *facts) stripsOf(j *job) []strip {
	var out []strip
	for _, s := range f.strips {
		if s.surface != j.surface.Name || j.kind == overview {
			continue
		}
		if j.kind == lineup && !f.ownIn(j.l, s.units) {
			continue
		}
		if j.kind == base {
			s.hint = f.guests(s.units)
		}
		out = append(out, s)
	}
	return out
}

// guests names the units of a strip that do not stay.
func (f *facts) guests(units []string) string {
	var names []string
	for _, id := range units {
		if u := f.p.Unit(id); u != nil && !stays(f.p, u) {
			names = append(names, name(u))
		}
	}
	return strings.Join(names, ", ")
}

// ownIn reports whether one of the units is in the line-up and does not stay.
func (f *facts) ownIn(l *layout.Lineup, units []string) bool {
	for _, id := range units {
		if u := f.p.Unit(id); u != nil && f.p.Present(l, id) && !stays(f.p, u) {
			return true
		}
	}
	return false
}

// units draws units: first everything that is in the way of words, then the
// words.
func (v *view) units(list []layout.Standing, how func(*layout.Standing), words bool) {
	for i := range list {
		if how == nil {
			v.plain(&list[i])
			continue
		}
		how(&list[i])
	}
	if !words {
		return
	}
	for i := range list {
		v.jacks(&list[i])
	}
	for i := range list {
		s := &list[i]
		v.label(s, v.rect(s.Unit.Base(s.Place)), []string{"at " + v.place(s.Place.At), howText(s)})
	}
}

// runsOf returns the leads and the cables that a job shows: on the deck all of
// the line-up, on a riser those that end at a unit there.
func (f *facts) runsOf(j *job) (leads, cables []run) {
	here := map[string]bool{}
	placed, _ := f.p.Standings(j.l)
	for _, s := range placed {
		here[s.Unit.ID] = s.Place.On == j.surface.Name
	}
	of := func(list []run) (out []run) {
		for _, r := range list {
			if j.surface.Name == layout.DeckName || here[r.from] || here[r.to] {
				out = append(out, r)
			}
		}
		return out
	}
	return of(f.leads[j.l.Name]), of(f.cables[j.l.Name])
}

// drawRuns draws the cables and leads of a line-up, as far as they lie near
// what is drawn: those of a riser go on to the deck, whose sheet has all of them.
func (f *facts) drawRuns(v *view, j *job, area layout.Rect) {
	leads, cables := f.runsOf(j)
	clip := grow(v.rect(area), edgeRoom)
	v.runs("leads", leads, leadEdge, leadLine, clip)
	v.runs("cables", cables, cableEdge, cableLine, clip)
}

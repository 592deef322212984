package catalog

import (
	"slices"

	"footplank/layout"
)

// maxUnit bounds the size of a unit and of what stands out of it, maxBoard that
// of a board: far beyond what a player can carry.
const (
	maxUnit  = 2000 * layout.Millimetre
	maxBoard = 5000 * layout.Millimetre
)

// jackKinds and the signal that each kind usually carries.
var jackKinds = []string{"phone", "mini-trs", "xlr", "din", "dc", "mains"}

var usualSignal = map[layout.JackKind]layout.Signal{
	layout.Phone: layout.Audio, layout.MiniTRS: layout.Control, layout.XLR: layout.Audio,
	layout.DIN: layout.Control, layout.DC: layout.Power, layout.Mains: layout.Line,
}

// unitForm reads one [[form]].
func (a *assembly) unitForm(tb *table, name string) *UnitForm {
	f := &UnitForm{Name: name, Summary: tb.str("summary"), Family: UnitFamily}
	u := &f.Unit
	u.Form = f.Name
	if tb.need("body") {
		u.Body = tb.size("body")
	}
	u.Overall = u.Body
	if tb.has("overall") {
		u.Overall = tb.size("overall")
		if o, b := u.Overall, u.Body; o.W < b.W || o.D < b.D || o.H < b.H {
			tb.errKey("overall", "overall: smaller than the body, want at least %s x %s x %s", b.W, b.D, b.H)
		}
	} else {
		tb.get("overall")
	}
	if tb.need("mass") {
		u.Mass = tb.mass("mass")
	}
	u.Treadle = tb.flag("treadle")
	u.Buffer = tb.flag("buffer")
	u.Sweep = tb.sweep()
	u.Draw = tb.draw()
	u.Milliwatts = int(tb.number("watts", 0, 0, 2000)*1000 + 0.5)
	u.Mains = tb.mains()
	for _, sw := range tb.subs("switch") {
		u.Switches = append(u.Switches, sw.footSwitch(u))
	}
	for _, j := range tb.subs("jack") {
		a.jack(f, j)
	}
	for _, b := range tb.subs("base") {
		u.OnBase = append(u.OnBase, b.base(u))
	}
	for _, o := range tb.subs("output") {
		f.Family = SupplyFamily
		u.Outputs = append(u.Outputs, o.output(u))
	}
	fed := func(j layout.Jack) bool { return j.Signal == layout.Power && j.Dir == layout.In }
	if u.Draw != nil && !slices.ContainsFunc(u.Jacks, fed) {
		tb.errKey("draw", "draw: it has no jack of signal \"power\" and dir \"in\" to draw by")
	}
	f.Values = tb.values()
	tb.end()
	return f
}

func (tb *table) size(key string) layout.Size {
	l, ok := tb.lengths(key, 3, layout.Millimetre, maxUnit)
	if !ok {
		return layout.Size{W: layout.Millimetre, D: layout.Millimetre, H: layout.Millimetre}
	}
	return layout.Size{W: l[0], D: l[1], H: l[2]}
}

func (tb *table) sweep() *layout.Sweep {
	s, ok := tb.sub("sweep")
	if !ok {
		return nil
	}
	e := s.edges(maxUnit)
	w := &layout.Sweep{Front: e.Front, Back: e.Back, Left: e.Left, Right: e.Right,
		From: s.length("from", 0, 0, maxUnit), Top: s.length("top", 0, 0, maxUnit)}
	if w.Top <= w.From {
		s.errKey("top", "top: found %s, want more than its start at %s", w.Top, w.From)
	}
	s.end()
	return w
}

// edges reads a length for each edge.
func (tb *table) edges(hi layout.Length) layout.Edges {
	return layout.Edges{
		Front: tb.length("front", 0, 0, hi), Back: tb.length("back", 0, 0, hi),
		Left: tb.length("left", 0, 0, hi), Right: tb.length("right", 0, 0, hi),
	}
}

func (tb *table) draw() *layout.Draw {
	if v, ok := tb.m["draw"]; !ok || v == false {
		tb.get("draw")
		return nil
	}
	d, ok := tb.sub("draw")
	if !ok {
		return nil
	}
	d.need("milliamps")
	volts := d.millivolts()
	w := &layout.Draw{
		Millivolts: volts, MaxMillivolts: d.maxMillivolts(volts),
		Milliamps:      d.whole("milliamps", 0, 0, 100_000),
		CentrePositive: d.centrePositive(), AC: d.word("current", "dc", "ac") == "ac",
		Isolated: d.flag("isolated"), Battery: d.flag("battery"),
	}
	d.end()
	if w.Milliamps == 0 {
		return nil
	}
	return w
}

func (tb *table) millivolts() int { return int(tb.number("volts", 9, 0.1, 60)*1000 + 0.5) }

// maxMillivolts reads the upper end of a range that starts at low, 0 without one.
func (tb *table) maxMillivolts(low int) int {
	top := int(tb.number("max_volts", 0, 0.1, 60)*1000 + 0.5)
	if tb.has("max_volts") && top <= low {
		tb.errKey("max_volts", "max_volts: found %s, want more than its volts, %s", plain(float64(top)/1000), plain(float64(low)/1000))
	}
	return top
}

// mains reads what the label at the mains inlet says.
func (tb *table) mains() *layout.MainsInput {
	m, ok := tb.sub("mains")
	if !ok {
		return nil
	}
	m.need("volts")
	w := &layout.MainsInput{Volts: m.whole("volts", 230, 90, 260), Hertz: m.whole("hertz", 50, 45, 65)}
	w.MaxVolts, w.MaxHertz = m.whole("max_volts", w.Volts, 90, 260), m.whole("max_hertz", w.Hertz, 45, 65)
	if w.MaxVolts < w.Volts {
		m.errKey("max_volts", "max_volts: found %d, want no less than its volts, %d", w.MaxVolts, w.Volts)
	}
	if w.MaxHertz < w.Hertz {
		m.errKey("max_hertz", "max_hertz: found %d, want no less than its hertz, %d", w.MaxHertz, w.Hertz)
	}
	m.end()
	return w
}

// choice reads one more position of a switched output.
func (tb *table) choice(milliamps int) layout.Setting {
	tb.need("volts")
	s := layout.Setting{Millivolts: tb.millivolts(), Milliamps: tb.whole("milliamps", milliamps, 1, 100_000)}
	tb.end()
	return s
}

func (tb *table) centrePositive() bool {
	return tb.word("polarity", "centre-negative", "centre-positive") == "centre-positive"
}

func (tb *table) footSwitch(u *layout.Unit) layout.Switch {
	sw := layout.Switch{Name: tb.str("name"), Height: tb.length("height", u.Body.H, 0, maxUnit)}
	tb.need("at")
	if at, ok := tb.lengths("at", 2, 0, maxUnit); ok {
		sw.At = layout.Point{X: at[0], Y: at[1]}
		if sw.At.X > u.Body.W || sw.At.Y > u.Body.D {
			tb.errKey("at", "at: %s, %s is outside the body of %s x %s", sw.At.X, sw.At.Y, u.Body.W, u.Body.D)
		}
	}
	tb.end()
	return sw
}

func (tb *table) output(u *layout.Unit) layout.Output {
	tb.need("milliamps")
	volts := tb.millivolts()
	o := layout.Output{
		Jack: tb.str("jack"), Millivolts: volts, MaxMillivolts: tb.maxMillivolts(volts),
		Milliamps: tb.whole("milliamps", 0, 1, 100_000),
		Isolated:  tb.flag("isolated"), Group: tb.str("group"), Link: tb.flag("link"),
		CentrePositive: tb.centrePositive(), AC: tb.word("current", "dc", "ac") == "ac",
	}
	for _, c := range tb.subs("choice") {
		o.Choices = append(o.Choices, c.choice(o.Milliamps))
	}
	if o.Isolated && o.Group != "" {
		tb.errKey("group", "group: an isolated output has a ground of its own and is in no group")
	}
	if o.MaxMillivolts > 0 && len(o.Choices) > 0 {
		tb.errKey("choice", "choice: want positions of a switch or a range up to max_volts, not both")
	}
	var outs []string
	for _, j := range u.Jacks {
		if j.Signal == layout.Power && j.Dir == layout.Out {
			outs = append(outs, j.ID)
		}
	}
	switch {
	case !slices.Contains(outs, o.Jack):
		tb.errKey("jack", "jack: found %q, want one that gives power: %s", o.Jack, wanted(o.Jack, outs))
	case slices.ContainsFunc(u.Outputs, func(p layout.Output) bool { return p.Jack == o.Jack }):
		tb.errKey("jack", "jack: %q is an output already", o.Jack)
	}
	tb.end()
	return o
}

// jack reads one [[form.jack]] into the form.
func (a *assembly) jack(f *UnitForm, tb *table) {
	u := &f.Unit
	j := layout.Jack{ID: tb.str("id")}
	if j.ID == "" {
		tb.errKey("id", "id: want a name like \"in\", \"out\" or \"dc\"")
	} else {
		tb.what += " \"" + j.ID + "\""
	}
	if u.Jack(j.ID) != nil {
		tb.errKey("id", "the form has a jack of that id already")
	}
	j.Kind = layout.JackKind(tb.word("kind", jackKinds...))
	j.Signal = layout.Signal(tb.word("signal", signals(j.Kind)...))
	switch {
	case tb.has("dir") || j.Signal != layout.Power && j.Signal != layout.Line:
		tb.need("dir")
		j.Dir = layout.Direction(tb.word("dir", "in", "out"))
	default:
		j.Dir = layout.Direction(tb.word("dir", "in"))
	}
	tb.need("wall")
	j.Wall, _ = layout.WallOf(tb.word("wall", layout.WallNames()...))
	long := u.Body.W
	if j.Wall == layout.Left || j.Wall == layout.Right {
		long = u.Body.D
	}
	tb.need("along")
	j.Along = tb.length("along", 0, 0, long)
	j.Height = tb.length("height", u.Body.H/2, 0, u.Height())
	j.Leg = tb.leg(j.Wall)
	if tb.has("plug") {
		j.Plug.Name = tb.str("plug")
	} else {
		tb.get("plug")
	}
	u.Jacks = append(u.Jacks, j)
	a.plug(tb, f, len(u.Jacks)-1)
	tb.end()
}

// signals returns the four kinds of signal, the usual one of a jack first.
func signals(k layout.JackKind) []string {
	out := []string{"audio", "control", "power", "mains"}
	i := slices.Index(out, string(usualSignal[k]))
	return slices.Concat(out[i:i+1], out[:i], out[i+1:])
}

// leg reads which way a plug's leg points. Along a wall it can only point to
// that wall's ends.
func (tb *table) leg(w layout.Wall) layout.LegSide {
	if !tb.has("leg") {
		tb.get("leg")
		return ""
	}
	if w == layout.Left || w == layout.Right {
		return layout.LegSide(tb.word("leg", "up", "down", "front", "back"))
	}
	return layout.LegSide(tb.word("leg", "up", "down", "left", "right"))
}

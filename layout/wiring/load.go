package wiring

import (
	"math"
	"strings"

	"footplank/layout"
)

// The plain pickup that a Stretch's resonance is worked out for: coil as in the
// worked values of gitarrenelektronik.de, its own capacitance within the 80 to
// 200 pF given there. One's own differs: 1 to 10 H are seen.
const (
	PickupHenries    = 2.4
	PickupPicofarads = 110.0
)

// The most cable between two buffers, or from the instrument to the first: 5 m
// is worth knowing, 6 m a caution. Common practice, no source.
const (
	UnbufferedNote    = 5000 * layout.Millimetre
	UnbufferedCaution = 6000 * layout.Millimetre
)

// Where a stretch lies.
const (
	Before  = "before the first buffer"
	Between = "between buffers"
	After   = "after the last buffer"
	NoneAt  = "no buffer at all"
)

// Stretch is a part of a line-up's chain without a buffer inside.
type Stretch struct {
	Where    string   // Before, Between, After or NoneAt
	From, To string   // the units or ends of the chain that bound it
	Through  []string // units passed without a buffer
	Cables   int
	// Length is of all its cables as cut from the kit, and of the cables that
	// leave the board as Cabling gives them with what lies on the board.
	// Short is set when cables are missing for want of a place.
	Length     layout.Length
	Short      bool
	Picofarads float64
	// Resonance is the peak in Hz of a plain pickup with the stretch across
	// it; 0 for a stretch that does not start at the instrument.
	Resonance float64

	first, last int // nodes of the chain that bound it
}

// Resonance returns where an inductance and a capacitance resonate, in Hz:
// 1/(2 pi sqrt(LC)).
func Resonance(henries, picofarads float64) float64 {
	return 1 / (2 * math.Pi * math.Sqrt(henries*picofarads*1e-12))
}

// load cuts the chain of a line-up into stretches and measures each.
func load(p *layout.Plan, l *layout.Lineup, cables []Cable, kit []KitCable) []Stretch {
	nodes := p.Nodes(l)
	var out []Stretch
	for i := 0; i+1 < len(nodes); {
		s := Stretch{From: nodes[i].Unit, first: i}
		for {
			s.add(p, nodes[i], nodes[i+1], cables, kit)
			i++
			s.To, s.last = nodes[i].Unit, i
			if i+1 >= len(nodes) || buffered(p, nodes[i].Unit) {
				break
			}
			s.Through = append(s.Through, nodes[i].Unit)
		}
		s.Where = s.where(p)
		s.Picofarads = s.Length.MM() / 1000 * Cabling(p).Capacitance
		if s.From == layout.Instrument {
			s.Resonance = Resonance(PickupHenries, PickupPicofarads+s.Picofarads)
		}
		out = append(out, s)
	}
	return out
}

func buffered(p *layout.Plan, id string) bool {
	u := p.Unit(id)
	return u != nil && u.Buffer
}

// add takes in the cable from a to b.
func (s *Stretch) add(p *layout.Plan, a, b layout.Node, cables []Cable, kit []KitCable) {
	from, to := layout.JackRef{Unit: a.Unit, Jack: a.Out}, layout.JackRef{Unit: b.Unit, Jack: b.In}
	s.Cables++
	for i := range cables {
		c := &cables[i]
		if c.From != from || c.To != to {
			continue
		}
		length := c.Run
		for _, k := range kit {
			if k.ID == c.Kit && c.Kit != "" {
				length = k.Cut
			}
		}
		if from.Unit == layout.Instrument {
			length += Cabling(p).Instrument
		} else if c.OffBoard() {
			length += Cabling(p).Amp
		}
		s.Length += length
		return
	}
	s.Short = true
}

func (s *Stretch) where(p *layout.Plan) string {
	a, b := buffered(p, s.From), buffered(p, s.To)
	switch {
	case a && b:
		return Between
	case a:
		return After
	case b:
		return Before
	}
	return NoneAt
}

// loads reports stretches that a pickup, or a unit without a buffer, has to
// drive and that are long, and where a buffer would help.
func (f *finder) loads() {
	for i := range f.w.Load {
		s := &f.w.Load[i]
		if s.Where == After || s.Where == Between || s.Length <= UnbufferedNote {
			continue
		}
		level, limit := Note, UnbufferedNote
		if s.Length > UnbufferedCaution {
			level, limit = Caution, UnbufferedCaution
		}
		var b strings.Builder
		b.WriteString("The " + ends(s.From) + " drives " + f.metres(s.Length) + " of cable without a buffer")
		if s.Resonance > 0 {
			b.WriteString(", " + picofarads(s.Picofarads) + ", with which a plain pickup peaks at " + hertz(s.Resonance))
		}
		b.WriteString("; " + f.metres(limit) + " in all is what most keep to. " + f.advice(s))
		f.add(Issue{Code: LongUnbuffered, Level: level, Units: s.Through, Text: b.String(),
			Measured: s.Length.MM(), Limit: limit.MM(), Unit: "mm"})
	}
}

// advice says where a buffer would help: as early as can be, but behind the
// fuzzes, which want to feel the pickup (delaydude; theelectricguitars 2010/01).
func (f *finder) advice(s *Stretch) string {
	nodes := f.p.Nodes(f.l)
	at := s.first
	for i := s.first + 1; i < s.last; i++ {
		if job(f.p.Unit(nodes[i].Unit)) == fuzz {
			at = i
		}
	}
	var left Stretch
	for i := s.first; i < at || i == s.first; i++ {
		left.add(f.p, nodes[i], nodes[i+1], f.w.Cables, f.r.Kit)
	}
	switch {
	case at > s.first:
		return "A buffer right behind " + f.label(nodes[at].Unit) + " would leave it about " + f.metres(left.Length) + "."
	case s.From == layout.Instrument && left.Length > UnbufferedNote:
		return "Take a shorter cable from the instrument, and put a buffer first on the board."
	case s.From == layout.Instrument:
		return "A buffer first on the board would leave it about " + f.metres(left.Length) + "."
	}
	return "A buffer right behind " + f.label(s.From) + " would drive it."
}

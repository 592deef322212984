package tryout

import (
	"context"
	"slices"

	"footplank/layout"
	"footplank/layout/arrange"
	"footplank/pack"
)

// stretch is a row of problems in which slot or board grows, in millimetres.
type stretch struct {
	f       *finder
	g       Growth
	plugs   arrange.Plugs
	units   []string // nil for all
	lineups []string // nil for all
	opt     pack.Options

	// refused: the growth that it was to begin with was refused.
	refused bool
	// no is what was asked of growths for which nothing was found.
	no map[int64]pack.Verdict
	// found is the model of the least growth found, places an arrangement.
	found  *arrange.Model
	places []pack.Place
}

// growth is what is known of the least growth so far, in millimetres.
type growth struct {
	enough int64 // less is refused if proved; negative when nothing up to top does
	proved bool
	top    int64
}

// least raises what is known to the least growth that this problem allows. It
// begins with what is known to be too little for less, then asks for the most:
// where that does not do, that one question settles it. Between them it halves,
// and of each arrangement it looks how little growth it needs.
func (s *stretch) least(ctx context.Context, r *growth) error {
	v, err := s.try(ctx, r.enough)
	if err != nil || v == pack.Fits {
		return err
	}
	s.refused = true
	low, sure := r.enough, v == pack.Impossible // too little, or not known to do
	if v, err = s.try(ctx, r.top); err != nil || v == pack.Impossible {
		r.enough = -1
		return err
	}
	if v == pack.Undecided {
		s.found = nil
		if s.plugs == arrange.PlugsAtLeast {
			return nil // this problem says nothing
		}
		r.enough = -1
		return nil
	}
	high := s.shrunk(ctx, low, r.top)
	// What was found shrinks to the least more often than not, so the steps
	// down from there begin small.
	step := int64(1)
	for low+1 < high && ctx.Err() == nil {
		mid := max(low+(high-low)/2, high-step)
		step *= 4
		if v, err = s.try(ctx, mid); err != nil {
			return err
		}
		if v == pack.Fits {
			high = s.shrunk(ctx, low, mid)
		} else {
			low, sure = mid, v == pack.Impossible
		}
	}
	r.enough, r.proved = high, sure && low+1 == high
	return nil
}

// model is the problem with that growth.
func (s *stretch) model(by int64) (*arrange.Model, error) {
	p := s.f.t.plan
	if s.lineups != nil && len(s.lineups) < len(p.Lineups) {
		p = arrange.Only(p, s.lineups)
	}
	return arrange.NewModel(grown(p, s.f.a.Question.Slot, s.g, layout.Length(by)*layout.Millimetre), nil, arrange.Apart, s.plugs, nil, s.units...)
}

func (s *stretch) try(ctx context.Context, by int64) (pack.Verdict, error) {
	if v, asked := s.no[by]; asked {
		return v, nil
	}
	m, err := s.model(by)
	if err != nil {
		return pack.Undecided, err
	}
	if s.units == nil && s.near(ctx, m) {
		return pack.Fits, nil
	}
	res, err := pack.Solve(ctx, mirrored(m.Problem(), s.g.Side), s.opt)
	unmirrored(res.Places, s.g.Side)
	if err == nil && res.Verdict == pack.Fits {
		s.found, s.places = m, res.Places
		return res.Verdict, nil
	}
	if s.no == nil {
		s.no = map[int64]pack.Verdict{}
	}
	s.no[by] = res.Verdict
	return res.Verdict, err
}

// near looks for an arrangement in which only what collides goes elsewhere:
// few units among many that stay, so it is quickly asked. Where plugs can be
// chosen they must seat.
func (s *stretch) near(ctx context.Context, m *arrange.Model) bool {
	at, _ := m.Now(s.f.t.plan)
	may := make([]bool, len(at))
	for i, it := range m.Items() {
		may[i] = !it.Held && slices.Contains(s.f.a.Conflict.Units, it.Unit.ID)
	}
	places := among(ctx, m.Problem(), at, may, s.opt)
	if places == nil || s.plugs == arrange.PlugsToChoose && !(m.GoesIn(places) && m.Seats(places)) {
		return false
	}
	s.found, s.places = m, places
	return true
}

// stands reports whether what was found goes into the case, with plugs that seat.
func (s *stretch) stands() bool {
	return s.found != nil && s.found.GoesIn(s.places) && s.found.Seats(s.places)
}

// shrunk returns the least growth, more than low, that the arrangement found at
// by stands in.
func (s *stretch) shrunk(ctx context.Context, low, by int64) int64 {
	was := s.found.Problem()
	for low+1 < by {
		mid := low + (by-low)/2
		m, err := s.model(mid)
		if err != nil {
			return by
		}
		q := m.Problem()
		if at := carried(was, s.places, q); at != nil && arranged(ctx, q, at) {
			by, s.found, s.places, was = mid, m, at, q
		} else {
			low = mid
		}
	}
	return by
}

// carried returns the places of an arrangement of p as those of q, in which the
// same items have the same shapes but other regions; nil where one has no place.
func carried(p *pack.Problem, at []pack.Place, q *pack.Problem) []pack.Place {
	out := make([]pack.Place, len(at))
	for i, pl := range at {
		r := p.Items[i].Regions[pl.Region]
		k := slices.IndexFunc(q.Items[i].Regions, func(n pack.Region) bool {
			return n.Shape == r.Shape && n.Z == r.Z && n.X0 <= pl.X && pl.X <= n.X1 && n.Y0 <= pl.Y && pl.Y <= n.Y1
		})
		if k < 0 {
			return nil
		}
		out[i] = pack.Place{Region: k, X: pl.X, Y: pl.Y}
	}
	return out
}

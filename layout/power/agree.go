package power

import "slices"

// agree moves each fixed demand's cost between its line-ups, from where its
// outlet is wanted to where it is not: their sum stays, so the line-ups'
// assignments together stay a bound from below, and the best of them is kept. On
// a board so large that each round costs seconds it makes do with fewer rounds.
func (s *search) agree(b *branch) {
	kept, top := s.copyShares(), s.bound(b)
	for round := range rounds {
		if s.steps > s.enough || s.ctx.Err() != nil {
			break
		}
		if round%4 == 0 {
			s.dive(b)
		}
		move := s.swing(b, s.disagreement(b))
		if move == nil || s.ans.at != nil && s.ans.cost-scale < s.bound(b) {
			break
		}
		norm := int64(0)
		for i := range move {
			for _, m := range move[i] {
				norm += m * m
			}
		}
		gap := scale * 100
		if s.ans.at != nil {
			gap = s.ans.cost - s.bound(b)
		}
		step := max(1, gap/max(norm, 1))
		for i := range move {
			for j, m := range move[i] {
				s.shares[i][j] += step * m
			}
		}
		for _, t := range s.team {
			for o := range s.outlets {
				s.even(t, o)
			}
		}
		for l := range s.rows {
			s.assign(b, l)
		}
		if now := s.bound(b); now > top {
			kept, top = s.copyShares(), now
		}
	}
	s.shares = kept
	for l := range s.rows {
		s.assign(b, l)
	}
}

func (s *search) copyShares() [][]int64 {
	out := make([][]int64, len(s.shares))
	for i := range out {
		out[i] = slices.Clone(s.shares[i])
	}
	return out
}

// disagreement returns, for each demand, by how much each line-up's share of
// each outlet's cost is to rise; nil when all line-ups agree.
func (s *search) disagreement(b *branch) [][]int64 {
	var move [][]int64
	n := len(s.outlets)
	votes := make([]int64, n)
	for i := range s.demands {
		d := &s.demands[i]
		if len(d.lineups) == 1 || s.agreed(b, i) {
			continue
		}
		if move == nil {
			move = make([][]int64, len(s.demands))
		}
		clear(votes)
		for _, l := range d.lineups {
			if o := s.taken(b, l, i); o != nowhere {
				votes[o]++
			}
		}
		many := int64(len(d.lineups))
		move[i] = make([]int64, len(s.shares[i]))
		for k, l := range d.lineups {
			for o := range n {
				move[i][k*n+o] = -votes[o]
			}
			if o := s.taken(b, l, i); o != nowhere {
				move[i][k*n+o] += many
			}
		}
	}
	return move
}

// taken returns the outlet of a demand in a line-up's assignment.
func (s *search) taken(b *branch, l, demand int) int {
	return b.choice[l][s.row[l][demand]]
}

func (s *search) agreed(b *branch, demand int) bool {
	ls := s.demands[demand].lineups
	first := s.taken(b, ls[0], demand)
	return !slices.ContainsFunc(ls[1:], func(l int) bool { return s.taken(b, l, demand) != first })
}

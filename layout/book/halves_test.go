package book

import (
	"fmt"
	"math/bits"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/layout"
)

// line returns a chain of n cables through n-1 units.
func line(n int) []hop {
	name := func(i int) string {
		switch i {
		case 0:
			return layout.Instrument
		case n:
			return layout.Amp
		}
		return fmt.Sprint("u", i)
	}
	var out []hop
	for i := range n {
		h := hop{from: layout.JackRef{Unit: name(i), Jack: "out"}, to: layout.JackRef{Unit: name(i + 1), Jack: "in"}}
		if i == 0 {
			h.from.Jack = ""
		}
		if i == n-1 {
			h.to.Jack = ""
		}
		out = append(out, h)
	}
	return out
}

// hearing plays through the chain from the jack on: it is heard when nothing on
// the way is dead.
func hearing(hops []hop, into layout.JackRef, deadHop int, deadUnit string) bool {
	on := false
	for i, h := range hops {
		if on {
			if i == deadHop || h.from.Unit == deadUnit {
				return false
			}
		}
		on = on || h.to == into
	}
	return true
}

// follow takes the card's way through for a board with one thing dead.
func follow(t *testing.T, hops []hop, patches []patch, deadHop int, deadUnit string) (found, steps int) {
	v := verdict{next: 0}
	for !v.found {
		steps++
		require.LessOrEqual(t, steps, len(hops))
		p := patches[v.next]
		if hearing(hops, p.into, deadHop, deadUnit) {
			v = p.heard
		} else {
			v = p.silent
		}
	}
	return v.hop, steps
}

func tries(t *testing.T, hops []hop) {
	patches := halves(hops)
	limit := bits.Len(uint(len(hops) - 1)) // ceil(log2 n)
	assert.Len(t, patches, len(hops)-1)
	assert.Equal(t, limit, most(patches))
	if len(hops) < 2 {
		return
	}
	for i := range hops {
		found, steps := follow(t, hops, patches, i, "")
		assert.Equal(t, i, found, "cable %d of %d", i+1, len(hops))
		assert.LessOrEqual(t, steps, limit)
	}
	// A dead unit that the signal passes once shows as the cable behind it, which
	// is where the card sends the player then.
	passes := map[string]int{}
	for _, h := range hops {
		passes[h.from.Unit]++
	}
	for i, h := range hops {
		if layout.OffBoard(h.from.Unit) || passes[h.from.Unit] > 1 {
			continue
		}
		found, _ := follow(t, hops, patches, -1, h.from.Unit)
		assert.Equal(t, i, found, "unit %s", h.from.Unit)
	}
}

func TestEveryDeadCableIsFound(t *testing.T) {
	for n := 1; n <= 70; n++ {
		tries(t, line(n))
	}
}

func TestEveryDeadCableOfThePlansIsFound(t *testing.T) {
	for _, name := range plans {
		b := book(t, name)
		for i := range b.p.Lineups {
			l := &b.p.Lineups[i]
			hops, _ := b.hops(l)
			require.Len(t, hops, len(b.p.Nodes(l))-1)
			for _, h := range hops {
				assert.NotEmpty(t, h.cables)
			}
			tries(t, hops)
		}
	}
}

func TestChainText(t *testing.T) {
	b := &Book{p: &layout.Plan{}}
	assert.Equal(t, []string{"(no chain)"}, b.chainText(nil, 40))
	got := b.chainText(line(4), 30)
	assert.Equal(t, []string{"instrument --?-> u1 --?-> u2", "  --?-> u3 --?-> amp"}, got)
}

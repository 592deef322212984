package shopping

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math/bits"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"footplank/catalog"
	"footplank/layout"
	"footplank/layout/plan"
)

func euro(milli int64) layout.Price {
	return layout.Price{Milli: milli, Currency: "€", Before: true}
}

// pocket is a small board with two line-ups, without prices or anything owned.
func pocket(t *testing.T) *layout.Plan {
	src, err := os.ReadFile("../book/testdata/pocket.toml")
	require.NoError(t, err)
	d, err := plan.Parse("pocket.toml", src, catalog.Builtin())
	require.NoError(t, err)
	d.Plan.Owned, d.Plan.Prices = layout.Owned{}, nil
	for i := range d.Plan.Units {
		d.Plan.Units[i].ToBuy = false
	}
	return d.Plan
}

func list(t *testing.T, p *layout.Plan, way string) *List {
	l, err := Make(p, Options{Way: way})
	require.NoError(t, err)
	return l
}

// named returns the items of that name.
func (l *List) named(name string) (out []Item) {
	for _, it := range l.Items {
		if it.Name == name {
			out = append(out, it)
		}
	}
	return out
}

func TestEverythingIsNeededWithoutOwned(t *testing.T) {
	l := list(t, pocket(t), ByRule)
	assert.Equal(t, Made, l.Way)
	for _, it := range l.Items {
		assert.Zero(t, it.Owned, it.Name)
		assert.GreaterOrEqual(t, it.Buy, it.Need, it.Name)
		assert.Contains(t, l.Unpriced, it.Name)
	}
	assert.Empty(t, l.Totals)
	require.Len(t, l.named("board"), 1)
	assert.Contains(t, l.named("board")[0].What, "4 x rail 360 x 46 x 20 mm")
	// Six cables and five leads, two labels each.
	assert.Equal(t, 22.0, l.named("cable label")[0].Buy)
}

func TestWhatIsOwnedIsNotBought(t *testing.T) {
	p := pocket(t)
	p.Owned = layout.Owned{Board: true, Reel: 500 * layout.Millimetre,
		Plugs: []layout.OwnedPlug{{Form: "phone-flat", Count: 3}, {Form: "phone-flat", Count: 1}, {Form: "xlr", Count: 9}},
		Leads: []layout.OwnedLead{{Length: 900 * layout.Millimetre, Count: 1}, {Length: 900 * layout.Millimetre, Reversed: true, Count: 5}}}
	p.Unit("box").ToBuy = true
	p.Prices = map[string]layout.Price{"box": euro(120_000), "phone-flat": euro(4_105), "patch cable": {Milli: 2000, Currency: "kr"}}
	l := list(t, p, ByRule)
	assert.Equal(t, Reel, l.Way)
	assert.Equal(t, "the plan says that a reel is owned", l.Why)
	assert.Zero(t, l.named("board")[0].Buy)
	assert.Equal(t, "€120.00", l.named("box")[0].Sum.String())
	flat := l.named("phone-flat")[0]
	assert.Equal(t, 4.0, flat.Owned)
	assert.Equal(t, flat.Need-4, flat.Buy)
	cable := l.named("patch cable")[0]
	assert.InDelta(t, 0.5, cable.Owned, 0.3)
	assert.LessOrEqual(t, cable.Owned, 0.5)
	assert.Equal(t, 1.0, cable.Buy) // by the whole metre
	leads, owned := 0.0, 0.0
	for _, it := range l.Items {
		if strings.HasPrefix(it.Name, "lead ") {
			leads, owned = leads+it.Need, owned+it.Owned
		}
	}
	assert.Equal(t, 5.0, leads)
	assert.Equal(t, 1.0, owned)
	// Currencies are never added.
	require.Len(t, l.Totals, 2)
	assert.Equal(t, int64(120_000)+int64(flat.Buy)*4105, l.Totals[0].Milli)
	assert.Equal(t, Money{Milli: 2000, Currency: "kr"}, l.Totals[1])
	assert.NotContains(t, l.Unpriced, "box")
}

func TestWayOfCables(t *testing.T) {
	for why, change := range map[string]func(p *layout.Plan){
		"the plan says that plugs are owned":                          func(p *layout.Plan) { p.Owned.Plugs = []layout.OwnedPlug{{Form: "phone-flat", Count: 1}} },
		"the plan has a price for patch cable":                        func(p *layout.Plan) { p.Prices = map[string]layout.Price{"patch cable": euro(1)} },
		"the plan has a price for plugs":                              func(p *layout.Plan) { p.Prices = map[string]layout.Price{"phone-right-angle": euro(1)} },
		"the plan says that a reel is owned":                          func(p *layout.Plan) { p.Owned.Reel = layout.Centimetre },
		"the plan has neither a reel nor plugs, nor a price for them": func(p *layout.Plan) { p.Prices = map[string]layout.Price{"cable 10cm": euro(1)} },
	} {
		p := pocket(t)
		change(p)
		l := list(t, p, ByRule)
		assert.Equal(t, why, l.Why)
		assert.Equal(t, strings.Contains(why, "neither"), l.Way == Made)
		require.NotNil(t, l.Other)
		assert.NotEqual(t, l.Way, l.Other.Way)
		// Asked for the other way, both change places.
		o := list(t, p, l.Other.Way)
		assert.Equal(t, l.Other.Totals, o.cables().Totals)
		assert.Equal(t, l.cables().Totals, o.Other.Totals)
	}
}

func TestPrices(t *testing.T) {
	prices := map[string]layout.Price{"cable 30cm": euro(1000), "cable": euro(2000), "cable 12in": euro(1200), "lead": euro(3000),
		"reversed lead 60 cm": euro(4000), "interlock 25mm": euro(5000), "interlock": euro(1), "7 1/2in": euro(9)}
	for name, want := range map[string]int64{
		"cable 30cm": 1000, "cable 300mm": 1000, "cable 45cm": 2000, "cable 12in": 1200, "cable 304.8mm": 1200, "lead 60cm": 3000, "lead": 3000,
		"reversed lead 60cm": 4000, "reversed lead 90cm": 0, "interlock 25mm": 5000, "interlock 1in": 0, "interlock 20mm": 0, "phone-flat": 0,
		"lead dc to xlr 30cm": 0,
	} {
		got := int64(0)
		if m := priceOf(prices, name); m != nil {
			got = m.Milli
		}
		assert.Equal(t, want, got, name)
	}
}

func TestSplit(t *testing.T) {
	for name, want := range map[string]struct {
		base   string
		length layout.Length
	}{
		"cable 30cm": {"cable", 30 * layout.Centimetre}, "lead 7 1/2 in": {"lead", 15 * layout.Inch / 2}, "lead 60 cm": {"lead", 60 * layout.Centimetre},
		"board": {"board", 0}, "patch cable": {"patch cable", 0}, "mains lead E": {"mains lead E", 0}, "30cm": {"30cm", 0}, "loop 2": {"loop 2", 0},
	} {
		base, length := split(name)
		assert.Equal(t, want.base, base, name)
		assert.Equal(t, want.length, length, name)
	}
}

func TestMoney(t *testing.T) {
	for want, m := range map[string]Money{
		"€4.10": {Milli: 4100, Currency: "€", Before: true}, "12.00 kr": {Milli: 12000, Currency: "kr"}, "EUR 0.125": {Milli: 125, Currency: "EUR", Before: true},
		"7.00": {Milli: 7000},
	} {
		assert.Equal(t, want, m.String())
	}
}

// Owned leads against trying every set of needs.
func TestOwnedLeadsMeetTheMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := rapid.SliceOfN(rapid.IntRange(1, 12), 0, 7).Draw(t, "need")
		have := rapid.SliceOfN(rapid.IntRange(1, 12), 0, 7).Draw(t, "have")
		p := &layout.Plan{}
		var leads []Lead
		for _, n := range need {
			leads = append(leads, Lead{Cut: layout.Length(n)})
		}
		for _, h := range have {
			p.Owned.Leads = append(p.Owned.Leads, layout.OwnedLead{Length: layout.Length(h), Count: 1})
		}
		count, sum := 0, 0
		for i, ok := range ownedLeads(p, leads) {
			if ok {
				count, sum = count+1, sum+need[i]
			}
		}
		// A set can be met when, of each length, no more are needed at least so
		// long than there are.
		best, bestSum := 0, 0
		for set := range 1 << len(need) {
			ok, n := true, 0
			for length := 1; length <= 12; length++ {
				want, there := 0, 0
				for i, c := range need {
					if set>>i&1 == 1 && c >= length {
						want++
					}
				}
				for _, h := range have {
					if h >= length {
						there++
					}
				}
				ok = ok && want <= there
			}
			for i, c := range need {
				if set>>i&1 == 1 {
					n += c
				}
			}
			if k := bits.OnesCount(uint(set)); ok && (k > best || k == best && n > bestSum) {
				best, bestSum = k, n
			}
		}
		assert.Equal(t, best, count)
		assert.Equal(t, bestSum, sum)
	})
}

func TestJSONAndCSV(t *testing.T) {
	p := pocket(t)
	p.Prices = map[string]layout.Price{"board": euro(35_500)}
	l := list(t, p, ByRule)
	var b bytes.Buffer
	require.NoError(t, l.JSON(&b))
	var got struct {
		Schema string
		Items  []struct {
			Name  string
			Price *struct {
				Amount   float64
				Currency string
			}
		}
		Totals []struct{ Amount float64 }
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	assert.Equal(t, Schema, got.Schema)
	assert.Len(t, got.Items, len(l.Items))
	assert.Equal(t, 35.5, got.Totals[0].Amount)
	assert.NotContains(t, b.String(), "null,\n  \"totals\"")

	b.Reset()
	require.NoError(t, l.CSV(&b))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+len(l.Items))
	assert.Equal(t, Columns, rows[0])
	assert.Equal(t, []string{"35.50", "35.50", "€"}, rows[1][7:])
}

func TestUnplacedUnitsAreSaid(t *testing.T) {
	p := pocket(t)
	p.Unit("clean").Place = nil
	l := list(t, p, ByRule)
	assert.Equal(t, []string{"Hilltop"}, l.Unplaced)
	var b bytes.Buffer
	require.NoError(t, l.Document().Text(&b, 80))
	assert.Contains(t, b.String(), "NOT THE WHOLE LIST")
}

// The currency stands as the player writes it, in the list as in the plan.
func TestMoneyStandsAsItIsWritten(t *testing.T) {
	for written, want := range map[string]string{"€4": "€4.00", "A$3": "A$3.00", "EUR 4.125": "EUR 4.125", "12 kr": "12.00 kr"} {
		p, err := layout.ParsePrice(written)
		require.NoError(t, err)
		assert.Equal(t, want, Money(p).String())
	}
}

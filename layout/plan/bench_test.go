package plan

import (
	"testing"

	"footplank/catalog"
	"footplank/layout"
)

func BenchmarkParseExample(b *testing.B) {
	src := Examples()[0].Source
	catalog.Builtin() // is read once
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse("ceilidh", src, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRenderExample(b *testing.B) {
	d, err := Parse("ceilidh", Examples()[0].Source, nil)
	if err != nil {
		b.Fatal(err)
	}
	l := &d.Plan.Lineups[0]
	for i, u := range d.Plan.UnitsIn(l) {
		d.Plan.SetPlace(l, u, layout.Placement{On: layout.DeckName, At: layout.Point{X: layout.Length(i) * layout.Centimetre}})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := d.Render(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDirty(b *testing.B) {
	d, err := Parse("ceilidh", Examples()[0].Source, nil)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if d.Dirty() {
			b.Fatal("dirty")
		}
	}
}

// A unit added to the example and all the others renamed: what saving costs.
func BenchmarkRender(b *testing.B) {
	d, err := Parse("p", Examples()[0].Source, nil)
	if err != nil {
		b.Fatal(err)
	}
	u, err := d.NewUnit("compact", "New")
	if err != nil {
		b.Fatal(err)
	}
	for _, old := range d.Plan.Units {
		if err := d.Plan.RenameUnit(old.ID, old.ID+"-2"); err != nil {
			b.Fatal(err)
		}
	}
	if err := d.Plan.AddUnit(u); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := d.Render(); err != nil {
			b.Fatal(err)
		}
	}
}

package book

import (
	"fmt"
	"slices"
	"strings"

	"footplank/layout"
	"footplank/layout/document"
	"footplank/layout/mount"
	"footplank/layout/power"
)

const (
	left  = document.Left
	right = document.Right
)

// standing is where a unit stands, in the line-ups in which it stands there.
type standing struct {
	lineups []string
	place   layout.Placement
}

// standings returns the places of a unit, each once.
func (b *Book) standings(u *layout.Unit) (out []standing, present []string) {
	for i := range b.p.Lineups {
		l := &b.p.Lineups[i]
		if !b.p.Present(l, u.ID) {
			continue
		}
		present = append(present, l.Name)
		pl, ok := b.p.PlaceOf(l, u)
		if !ok {
			continue
		}
		n := slices.IndexFunc(out, func(s standing) bool { return s.place == pl })
		if n < 0 {
			n = len(out)
			out = append(out, standing{place: pl})
		}
		out[n].lineups = append(out[n].lineups, l.Name)
	}
	return out, present
}

// units is the table of all units with their places.
func (b *Book) units(d *document.Document) {
	d.Heading(2, "Units")
	d.Para(fmt.Sprintf("Sizes in %s: width, depth, height with knobs. A place is the front-left corner of the unit as it stands, to the right and to the back of the board's front-left corner. A turn is clockwise seen from above.", b.measure()))
	t := table("Unit", "Size", "Mass", "Held by", "Line-up", "On", "At", "Turn")
	t.Align = []document.Align{left, left, right, left, left, left, left, right}
	for i := range b.p.Units {
		u := &b.p.Units[i]
		size := fmt.Sprintf("%s x %s x %s", b.num(u.Body.W), b.num(u.Body.D), b.num(u.Height()))
		head := []string{b.name(u.ID), size, u.Mass.Scales(b.unit()), string(mount.KindOf(u.Mount))}
		places, present := b.standings(u)
		if len(places) == 0 {
			t.Add(append(head, b.every(present), "nowhere yet", "", "")...)
		}
		for _, s := range places {
			t.Add(append(head, b.every(s.lineups), s.place.On, b.point(s.place.At), fmt.Sprint(s.place.Turn.Degrees()))...)
			head = []string{"", "", "", ""}
		}
	}
	d.Add(t)
}

// corner returns the front-left corner of a surface.
func (b *Book) corner(surface string) layout.Point {
	s, _ := b.p.Board.Surface(surface)
	return layout.Point{X: s.At.X0, Y: s.At.Y0}
}

// pieces are the tables of fastener: on the board, and on the bases of the units.
func (b *Book) pieces(d *document.Document) {
	d.Heading(2, "Fastener")
	if len(b.f.Board)+len(b.f.Bases) == 0 {
		d.Para("No unit has a place yet, so there is nothing to stick down.")
		return
	}
	d.Para(fmt.Sprintf("Lengths in %s. A corner is the front-left one of the piece, to the right and to the back of the front-left corner of what it is stuck to; then come its width and its depth as it lies. The true-scale sheets show the same.", b.measure()))
	d.Heading(3, "On the board")
	t := table("No.", "Kind", "Side", "Roll", "Cut", "On", "Corner", "Size", "Holds")
	t.Align = []document.Align{right, left, left, right, right, left, left, left, left}
	for i, m := range b.f.Board {
		c := b.corner(m.Surface)
		at := m.At.Move(layout.Point{X: -c.X, Y: -c.Y})
		t.Add(fmt.Sprint(i+1), string(m.Kind), sideOf(m.Kind, m.Side), mount.WidthName(m.Width, b.unit()), b.num(m.Cut), m.Surface,
			b.point(layout.Point{X: at.X0, Y: at.Y0}), b.size(at), b.names(m.Units))
	}
	d.Add(t)
	d.Heading(3, "On the units")
	d.Para("The unit is turned over left to right, its front wall towards you. What is on the left seen from above is on the right now.")
	t = table("Unit", "Kind", "Side", "Roll", "Cut", "Corner", "Size")
	t.Align = []document.Align{left, left, left, right, right, left, left}
	last := ""
	for _, m := range b.f.Bases {
		name := ""
		if m.Unit != last {
			name, last = b.name(m.Unit), m.Unit
		}
		t.Add(name, string(m.Kind), sideOf(m.Kind, m.Side), mount.WidthName(m.Width, b.unit()), b.num(m.Cut),
			b.point(layout.Point{X: m.At.X0, Y: m.At.Y0}), b.size(m.At))
	}
	d.Add(t)
	b.unheld(d)
}

// sideOf names the side of a piece; interlocking has only one.
func sideOf(k mount.Kind, s mount.Side) string {
	if k == mount.Interlock {
		return "either"
	}
	return string(s)
}

// unheld names the units that get no piece.
func (b *Book) unheld(d *document.Document) {
	var none []string
	for i := range b.p.Units {
		id := b.p.Units[i].ID
		if !slices.ContainsFunc(b.f.Bases, func(m mount.BasePiece) bool { return m.Unit == id }) {
			none = append(none, id)
		}
	}
	if len(none) > 0 {
		d.Para("Without a piece, for they have no place yet or no room for one: " + b.names(none) + ".")
	}
}

func (b *Book) names(ids []string) string {
	var out []string
	for _, id := range ids {
		out = append(out, b.name(id))
	}
	return strings.Join(out, ", ")
}

// cutList is the kit: what to cut or buy, and from which reel.
func (b *Book) cutList(d *document.Document) {
	d.Heading(2, "Cables to make")
	if len(b.w.Kit) == 0 {
		d.Para("No cables: the chain is empty, or its units have no place yet.")
		return
	}
	d.Para(fmt.Sprintf("Lengths in %s. Cut is the length before the plugs go on; ready-made is the next length in shops. Write the label on both ends.", b.measure()))
	t := table("", "Label", "Plugs", "Cut", "Ready-made", "From")
	t.Align = []document.Align{left, left, left, right, right, left}
	for i := range b.w.Kit {
		k := &b.w.Kit[i]
		stock, cut := "none", b.num(k.Cut)
		if k.Stock > 0 {
			stock = b.num(k.Stock)
		}
		if k.Owned {
			stock, cut = "-", b.num(k.Cut)+" as it is"
		}
		plugs := k.Plugs[0] + " and " + k.Plugs[1]
		if k.Plugs[0] == k.Plugs[1] {
			plugs = k.Plugs[0] + ", both ends"
		}
		t.Add("[ ]", k.Label, plugs, cut, stock, b.source(k.ID, k.Owned, k.Name))
	}
	d.Add(t)
	for i, r := range b.w.List {
		var cuts []string
		for _, id := range r.Kit {
			n := slices.IndexFunc(b.w.Kit, func(k kitCable) bool { return k.ID == id })
			cuts = append(cuts, id+" "+b.num(b.w.Kit[n].Cut))
		}
		d.Para(fmt.Sprintf("Reel %d, %s%s: %s; %s left.", i+1, b.length(r.Length), ownedWord(r.Owned), strings.Join(cuts, ", "), b.length(r.Left)))
	}
}

func ownedWord(owned bool) string {
	if owned {
		return " (your own)"
	}
	return ""
}

// source says where a cable of the kit comes from.
func (b *Book) source(id string, owned bool, name string) string {
	if owned {
		if name == "" {
			return "your own"
		}
		return "your own: " + name
	}
	for i, r := range b.w.List {
		if slices.Contains(r.Kit, id) {
			return fmt.Sprintf("reel %d", i+1)
		}
	}
	return "longer than a reel"
}

// kitByLineup tells where each cable goes in each line-up.
func (b *Book) kitByLineup(d *document.Document) {
	if len(b.w.Kit) == 0 {
		return
	}
	d.Heading(2, "Kit by line-up")
	t := table("Cable")
	for i := range b.p.Lineups {
		t.Head = append(t.Head, b.p.Lineups[i].Name)
	}
	for i := range b.w.Kit {
		k := &b.w.Kit[i]
		row := []string{k.ID}
		for l := range b.p.Lineups {
			where := "-"
			for _, u := range k.Uses {
				if u.Lineup != b.p.Lineups[l].Name {
					continue
				}
				for _, c := range b.w.Of(u.Lineup).Cables {
					if c.ID == u.Cable {
						where = b.jack(c.From) + " to " + b.jack(c.To)
					}
				}
			}
			row = append(row, where)
		}
		t.Add(row...)
	}
	d.Add(t)
}

// powerMap tells what each output feeds in each line-up, and the leads.
func (b *Book) powerMap(d *document.Document) {
	d.Heading(2, "Power map")
	if b.m.Why != "" {
		d.Para(b.m.Why)
	}
	if len(b.leads) == 0 {
		d.Para("Nothing on the board gives power to anything.")
		return
	}
	t := table("Output", "Volts", "Limit mA")
	t.Align = []document.Align{left, left, right}
	for i := range b.p.Lineups {
		t.Head = append(t.Head, b.p.Lineups[i].Name+", mA")
	}
	for i := range b.leads {
		lead := &b.leads[i]
		row := []string{lead.Label, "", ""}
		for l := range b.p.Lineups {
			cell := "-"
			for _, a := range b.m.In(b.p, b.p.Lineups[l].Name) {
				if a.Supply != lead.Supply || a.Output != lead.Output || a.Reversing != lead.Reversing {
					continue
				}
				v := volts(a.Millivolts, a.AC)
				if a.Switched {
					v = "set " + v
				}
				if !strings.Contains(row[1], v) {
					row[1] = strings.TrimPrefix(row[1]+", "+v, ", ")
				}
				row[2] = fmt.Sprint(a.LimitMA)
				cell = fmt.Sprintf("%s, %d", b.name(a.Unit), a.Milliamps)
			}
			row = append(row, cell)
		}
		t.Add(row...)
	}
	d.Add(t)
	b.leadTable(d)
	b.tour(d)
}

// leadTable lists the leads to have.
func (b *Book) leadTable(d *document.Document) {
	d.Heading(3, "Leads")
	d.Para(fmt.Sprintf("A lead belongs to its output whatever it feeds, so both its ends are labelled with that. Cut in %s, with plugs and slack, for the line-up that asks most; a higher AWG is a thinner wire.", b.measure()))
	t := table("", "Label", "Sort", "Cut", "Ready-made", "AWG", "Feeds")
	t.Align = []document.Align{left, left, left, right, right, right, left}
	for i := range b.leads {
		l := &b.leads[i]
		stock := "none"
		if l.Stock > 0 {
			stock = b.num(l.Stock)
		}
		t.Add("[ ]", l.Label, l.Sort(), b.num(l.Cut), stock, fmt.Sprint(l.Gauge), b.names(fedBy(l)))
	}
	d.Add(t)
}

func (b *Book) tour(d *document.Document) {
	if len(b.m.Tour) == 0 {
		return
	}
	d.Heading(3, "Mains on tour")
	var items []string
	for _, s := range b.m.Tour {
		text := s.Country.Code + ": " + s.Text
		if s.Plug != "" {
			text += " Bring " + s.Plug + "."
		}
		items = append(items, text)
	}
	d.List(document.Bullet, append(items, power.TableDate)...)
}

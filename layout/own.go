package layout

// Price is a sum of money. Prices in different currencies are never added.
type Price struct {
	Milli    int64  // thousandths of the currency's unit
	Currency string // as the player wrote it: "€", "EUR", "kr"
	Before   bool   // the currency stands before the number
}

// Owned is what the player has already and need not buy.
type Owned struct {
	Cables []OwnedCable
	Leads  []OwnedLead
	Plugs  []OwnedPlug
	Rolls  []OwnedRoll
	Reel   Length // of patch cable, to cut from
	Board  bool   // the board itself, with its risers
}

// OwnedCable is made-up patch cables of one length.
type OwnedCable struct {
	Name   string // what the player calls them; may be empty
	Length Length // as sold: of the cable, with what the plugs take of it
	// Plugs names the forms of its two plugs; "" for one that is not known,
	// which counts as any form that fits the jack.
	Plugs [2]string
	Count int
}

// OwnedLead is power leads of one length.
type OwnedLead struct {
	Length   Length
	Reversed bool // for centre-positive units
	Count    int
}

// OwnedPlug is loose plugs of one form.
type OwnedPlug struct {
	Form  string
	Count int
}

// OwnedRoll is fastener by the roll.
type OwnedRoll struct {
	Kind          string // of fastener: "interlock" or "hook-and-loop"
	Width, Length Length
}

// Side is a side of hook-and-loop fastener.
type Side string

const (
	Hook Side = "hook"
	Loop Side = "loop"
)

// Fastening is what the plan says of its fastener; what is zero has its
// default, which layout/mount knows.
type Fastening struct {
	Interlock, HookAndLoop FastenerRoll
	// UnitSide is the side of the hook-and-loop that units carry on their
	// bases, the same in the whole plan; the board carries the other one.
	UnitSide Side
	Margin   Length  // kept free along the edges of a base
	JerkG    float64 // load case, in multiples of the unit's weight
}

// FastenerRoll is a make-up of fastener as the catalog or the plan gives it.
type FastenerRoll struct {
	Name        string
	Widths      []Length // rising
	StrengthKPa float64  // as published; a design uses a part of it
}

// BasePart says what takes room on a unit's base, where no fastener may lie.
type BasePart string

const (
	Foot        BasePart = "foot"
	BatteryDoor BasePart = "battery door"
	Screw       BasePart = "screw"
	BaseLabel   BasePart = "label"
)

// BaseSpot is one such part, in the unit's frame at turn 0 seen from above,
// as switches are.
type BaseSpot struct {
	Kind BasePart
	At   Rect
}

// TurnedOver maps a rectangle between the unit's base as it is seen from above
// and as it is seen with the unit turned over from left to right, the front
// wall still towards the player. It is its own inverse.
func (u *Unit) TurnedOver(r Rect) Rect { return Rect{u.Body.W - r.X1, r.Y0, u.Body.W - r.X0, r.Y1} }

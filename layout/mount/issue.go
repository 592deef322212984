package mount

// Issue is something about the fastener of a line-up that a player should know.
type Issue struct {
	Code   string
	Fault  bool // it will come off; else a caution
	Lineup string
	Units  []string
	Text   string
	// Measured and Limit are in Unit: "N", "mm" or "mm2".
	Measured, Limit float64
	Unit            string
}

func (b *bed) issues(at [][]int) []Issue { return nil }

package pack

// boundPlain proves without search that c cannot be packed, or returns nil.
// The reason's items are kinds and its figures in the core's units.
func boundPlain(c *plainCore) *Reason {
	return nil
}

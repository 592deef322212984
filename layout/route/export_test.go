package route

// Forget forgets all searches.
func Forget() { finds.Forget() }

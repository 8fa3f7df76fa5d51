package sim

// Moment is a time of the flight with a name, for those who show it; the
// engine only carries it.
type Moment struct {
	At   int64 // tick
	Name string
}

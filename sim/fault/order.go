package fault

// Shape is how a fault comes on.
type Shape uint8

// The three shapes.
const (
	Step Shape = iota
	Ramp
	Intermittent
)

// Order is one fault of a flight: an entry of the catalogue, a window of time
// and its parameters. It acts while At <= tick < At + For.
type Order struct {
	ID        string
	At, For   int64 // ticks; For 0: to the end
	Shape     Shape
	RampTicks int64 // Ramp
	On, Off   int64 // Intermittent
	// Params holds a value for every parameter of the catalogue entry, in its
	// order; choices and booleans as the index of the choice (false 0, true 1).
	Params []float64
}

package ground

// Design is how the ground position is found.
type Design uint8

// The two designs: Running sums wind shafts and air shafts; Plotted draws air
// position + present wind x time since the reset.
const (
	Running Design = iota
	Plotted
)

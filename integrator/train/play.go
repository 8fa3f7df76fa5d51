package train

// Play is lost motion between a driver and what it drives, its hidden state:
// how far the driven part stands ahead of the driver, 0 to the whole play. The
// zero value is play taken up in the positive sense.
//
//	y  driven, x driver, b the play
//	y = x      while x runs +
//	y = x + b  once x has come back through b and runs -
type Play struct{ Ahead float64 }

// Follow turns the driver by dx with a play of b (both in one unit) and gives
// what the driven part turns. A play that is mended leaves the driven part
// where it stands.
func (p *Play) Follow(dx, b float64) float64 {
	if b == 0 {
		p.Ahead = 0
		return dx
	}
	ahead := min(p.Ahead, b)
	p.Ahead = max(0, min(b, ahead-dx))
	return dx + (p.Ahead - ahead)
}

// Drives tells whether the driven part goes along with a driver that runs the
// way of dx, with a play of b: not while play is being taken up.
func (p *Play) Drives(dx, b float64) bool {
	if dx < 0 {
		return p.Ahead >= b
	}
	return b == 0 || p.Ahead <= 0
}

// Turn turns the driven part itself by dy, as a knob does: within the play it
// turns freely, beyond it the clutch of the knob slips on the driver.
func (p *Play) Turn(dy, b float64) { p.Ahead = max(0, min(b, p.Ahead+dy)) }

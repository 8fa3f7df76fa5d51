package units

// Sum is a running total with compensation (Kahan): the part of each addend
// that rounding would lose is carried to the next. The zero value is zero.
//
// The conversions are there so that no processor fuses a multiplication with
// an addition: the same addends give the same total everywhere.
type Sum struct{ Total, Lost float64 }

// SumOf starts a total at x.
func SumOf(x float64) Sum { return Sum{Total: x} }

// Add adds x.
func (s *Sum) Add(x float64) {
	y := float64(x - s.Lost)
	t := float64(s.Total + y)
	s.Lost = float64(float64(t-s.Total) - y)
	s.Total = t
}

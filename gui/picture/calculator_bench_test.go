package picture

import (
	"testing"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// What a movement of a hand costs: each card is drawn whole.
func BenchmarkTriangleCard(b *testing.B) {
	z, c := look.SizeOf(1920, 1080, 1), someTriangleCard()
	d := paint.NewImage(1004, 829)
	p := TriangleCardLayout(z, paint.R(0, 0, 1004, 829), 250)
	v := FitTriangle(z, p.Figure, &c.Figure)
	for b.Loop() {
		DrawTriangleCard(NewBrush(d, look.Of(look.Paper), z), p, v, c)
	}
}

func BenchmarkSpeedRings(b *testing.B) {
	z, s := look.SizeOf(1920, 1080, 1), someRings()
	d := paint.NewImage(857, 829)
	at := FitSpeedDial(z, paint.R(20, 56, 540, 450))
	for b.Loop() {
		DrawSpeedRings(NewBrush(d, look.Of(look.Paper), z), at, s)
	}
}

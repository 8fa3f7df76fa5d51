package picture

import (
	"math"
	"slices"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
)

// SkyDisc is the sky over a place: the zenith in the middle, the horizon at the
// edge, north up and east on the right, as on the chart.
type SkyDisc struct {
	X, Y, R float64 // the horizon
	Stars   []SkyStar
}

// SkyStar is a star of it.
type SkyStar struct {
	Name              string
	Altitude, Azimuth units.Angle
	Magnitude         float64
	Chosen            bool
}

// place is where a star stands: its distance from the middle is that from the
// zenith.
func (s SkyDisc) place(star SkyStar) paint.Point {
	return paint.Polar(s.X, s.Y, s.R*(1-star.Altitude.Degrees()/90), star.Azimuth.Degrees())
}

// DrawSkyDisc draws it. Names stand where they have room; the chosen stars' first.
func DrawSkyDisc(b *Brush, s SkyDisc) {
	k := b.K.Device
	p := *b.C
	dark, light := p.Low, p.Ink
	if p.Variant == look.Paper {
		dark, light = p.Ink, p.Ground
	}
	b.disc(s.X, s.Y, s.R, dark, b.C.Rod, 2*k)
	for _, h := range []float64{30, 60} {
		b.disc(s.X, s.Y, s.R*(1-h/90), none, paint.Alpha(light, 0.3), k)
	}
	size := b.K.Figure(look.TextSmall)
	for i, letter := range []look.Key{look.North, look.East, look.South, look.West} {
		at := paint.Polar(s.X, s.Y, s.R+0.75*size, float64(i)*90)
		b.write(at.X, at.Y+0.35*size, look.Text(letter), look.Engraved, size, paint.Middle, b.C.Ink2)
	}
	stars := slices.Clone(s.Stars)
	slices.SortStableFunc(stars, func(x, y SkyStar) int {
		switch {
		case x.Chosen != y.Chosen:
			return b2i(y.Chosen) - b2i(x.Chosen)
		case x.Magnitude < y.Magnitude:
			return -1
		case x.Magnitude > y.Magnitude:
			return 1
		}
		return 0
	})
	room := NewRoom(paint.R(s.X-s.R, s.Y-s.R, 2*s.R, 2*s.R))
	s.keepIn(room)
	for _, star := range stars {
		at := s.place(star)
		r := (2.2 + 0.6*math.Max(0, 2-star.Magnitude)) * k
		b.disc(at.X, at.Y, r, light, none, 0)
		if star.Chosen {
			b.disc(at.X, at.Y, 8*k, none, b.C.BrassHi, 2.2*k)
		}
		room.take(paint.R(at.X-8*k, at.Y-8*k, 16*k, 16*k), textHurts)
		room.marks = append(room.marks, at)
	}
	for _, star := range stars {
		b.label(room, label{
			at: s.place(star), clear: 5 * k, first: above, must: star.Chosen,
			lines: []words{{star.Name, look.Regular, b.K.Figure(12.5), light}},
		}, dark)
	}
}

// keepIn keeps names inside the horizon.
func (s SkyDisc) keepIn(room *Room) {
	for y := room.box.Y; y < room.box.Bottom(); y += roomCell {
		half := math.Sqrt(math.Max(0, s.R*s.R-(y+roomCell/2-s.Y)*(y+roomCell/2-s.Y)))
		for _, q := range []paint.Rect{
			paint.R(room.box.X, y, s.X-half-room.box.X, roomCell/2), paint.R(s.X+half, y, room.box.Right()-s.X-half, roomCell/2),
		} {
			room.TakeText(q)
		}
	}
}

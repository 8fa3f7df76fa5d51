package sighting

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// check is a hand at the heading check.
type check struct {
	base
	ring      float64 // degrees under the lubber mark
	variation units.Variation
	compass   units.CompassHeading
}

// The heading check: a fine step and what the radius of the view spans, degrees.
const (
	checkStep = 0.1
	checkSpan = 15.0
)

func (c *check) See(s *aboard.Scene, v *aboard.View) {
	if c.see(s) {
		c.ring = math.Mod(math.Round(degrees(s.Heading)/5)*5+10, 360)
	}
	c.variation, c.compass = v.VariationSet, v.Compass
}

func (c *check) Turn(steps float64)        { c.ring = math.Mod(c.ring+steps*checkStep+720, 360) }
func (c *check) Drag(clockwise, _ float64) { c.Turn(-clockwise / 4 / checkStep) }

func (c *check) Draw(b *picture.Brush, x, y, r float64) {
	sway := 0.05 * math.Sin(float64(c.scene.Tick)/40)
	h := picture.HeadingCheck{
		Ring: c.ring, BodyX: math.Remainder(degrees(c.scene.Heading)-c.ring, 360) / checkSpan, BodyY: sway,
		Sun: c.aim.Source == "Sun", Name: c.aim.Source,
	}
	if c.scene.Missing != aboard.Had {
		h.BodyX = 9
	}
	picture.DrawHeadingCheck(b, x, y, r, h)
}

func (c *check) Value() string { return aboard.TenthsTrue(c.angle()) }

// Told gives the deviation that the reading stands for.
func (c *check) Told() string {
	if c.Wanting() != "" {
		return c.Wanting()
	}
	d := airplot.DeviationFound(units.TrueHeading(c.angle()), c.variation, c.compass)
	return look.Textf(look.CheckTold, d.Tenths())
}

func (c *check) angle() units.Angle {
	return units.Wrap(units.Angle(math.Round(10*c.ring)/10) * units.Degree)
}

func (c *check) Reading() aboard.Reading { return aboard.Reading{Aim: c.aim, Angle: c.angle()} }

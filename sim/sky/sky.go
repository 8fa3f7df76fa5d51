package sky

import (
	"math"
	"time"

	"stillair/integrator/sight"
	"stillair/integrator/units"
)

// Sky is where everything stands at an instant. It is a value without pointers,
// made by At; the zero Sky is of no instant and must not be asked.
type Sky struct {
	aries    units.Angle // GAST
	years    float64     // Julian years of TT from J2000.0
	turn     matrix      // from the mean equator of J2000.0 to the true one of date
	velocity vector      // of the earth, in units of the velocity of light
	sun      vector      // apparent direction
	moon     vector      // apparent direction
	earth    vector      // from the Sun, au
	sunAU    float64     // distances
	moonFar  units.Length
}

// At works the sky of an instant; UTC is taken as UT1.
func At(t time.Time) Sky { return at(momentOf(t)) }

func at(m moment) Sky {
	c := m.centuries
	dpsi, deps := nutation(c)
	eps := obliquity(c)
	// From the mean ecliptic of date to the true equator.
	ecliptic := toTrue(eps, dpsi, deps).after(aboutX(-eps))

	sunLon, sunLat, r := sunOfDate(c)
	moonLon, moonLat, far := moonOfDate(c)
	seen := sunLon - sunAberration*units.Angle(1/r)
	s := Sky{
		aries:    units.Wrap(m.meanSidereal() + dpsi*units.Angle(math.Cos((eps+deps).Radians()))),
		years:    c * 100,
		turn:     toTrue(eps, dpsi, deps).after(precession(c)),
		velocity: ecliptic.turn(velocity(c, sunLon)),
		sun:      ecliptic.turn(spherical(seen, sunLat)),
		moon:     ecliptic.turn(spherical(moonLon, moonLat)),
		sunAU:    r,
		moonFar:  far,
	}
	s.earth = vector{}.plus(-r, ecliptic.turn(spherical(sunLon, sunLat)))
	return s
}

// Aries is the Greenwich hour angle of the first point of Aries, which is the
// apparent sidereal time of Greenwich.
func (s *Sky) Aries() units.Angle { return s.aries }

// direction is the apparent direction of a body from the centre of the earth.
// No body is a fault of the caller.
func (s *Sky) direction(b Body) vector {
	switch {
	case b == Sun:
		return s.sun
	case b == Moon:
		return s.moon
	case b.IsStar():
		return s.star(&catalogue[b])
	}
	panic("sky: no such body")
}

// star applies space motion, precession, nutation, annual parallax and
// aberration.
func (s *Sky) star(e *entry) vector {
	p := s.turn.turn(e.mean(s.years)).plus(-e.parallax, s.earth).unit()
	return p.plus(1, s.velocity).unit()
}

// Apparent gives the right ascension and declination, true equator and equinox
// of date, from the centre of the earth.
func (s *Sky) Apparent(b Body) (ra, declination units.Angle) {
	return s.direction(b).angles()
}

// Place gives the Greenwich hour angle, [0, 360), and the declination.
func (s *Sky) Place(b Body) (gha, declination units.Angle) {
	ra, declination := s.Apparent(b)
	return units.Wrap(s.aries - ra), declination
}

// SHA is the sidereal hour angle, [0, 360): from Aries westward.
func (s *Sky) SHA(b Body) units.Angle {
	ra, _ := s.Apparent(b)
	return units.Wrap(-ra)
}

// Parallax is the horizontal parallax, at the equator for the Moon; 0 for stars.
func (s *Sky) Parallax(b Body) units.Angle {
	switch b {
	case Sun:
		return sunParallax * units.Angle(1/s.sunAU)
	case Moon:
		return units.Angle(math.Asin(float64(earthRadius / s.moonFar)))
	}
	return 0
}

// Semidiameter is half the apparent diameter from the centre of the earth; 0
// for stars.
func (s *Sky) Semidiameter(b Body) units.Angle {
	switch b {
	case Sun:
		return sunSemidiameter * units.Angle(1/s.sunAU)
	case Moon:
		return units.Angle(math.Asin(moonRadius * float64(earthRadius/s.moonFar)))
	}
	return 0
}

// Horizontal gives altitude and azimuth from a place, as if from the centre of
// the earth and without refraction: what a computed altitude is compared with.
func (s *Sky) Horizontal(b Body, at units.Position) (altitude, azimuth units.Angle) {
	gha, declination := s.Place(b)
	return sight.Reduce(at, gha, declination)
}

// Seen is Horizontal as an eye at the place has it: the centre of the body
// lowered by parallax and lifted by refraction; thin is sight.ThinAir of the
// air there. The height of the place counts only in that.
func (s *Sky) Seen(b Body, at units.Position, thin float64) (altitude, azimuth units.Angle) {
	altitude, azimuth = s.Horizontal(b, at)
	altitude -= sight.ParallaxInAltitude(s.Parallax(b), altitude)
	return sight.Lifted(altitude, thin), azimuth
}

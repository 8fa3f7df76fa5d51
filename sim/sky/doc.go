// Package sky is the sky of the world: Sun, Moon, the 57 selected stars of
// navigation and Polaris, where they stand at an instant and how they are seen
// from a place, for the years 1900 to 2030.
//
//	s := sky.At(t)                          // once for an instant
//	gha, dec := s.Place(sky.Sun)            // what an almanac prints
//	alt, az := s.Horizontal(sky.Sun, here)  // geocentric, without refraction
//
// # Notation
//
//	t     UTC, taken as UT1 (they differ by less than a second)
//	T     Julian centuries of 36525 days of Terrestrial Time (TT = UT1 + delta T)
//	      from J2000.0, 2000 January 1, 12h
//	RA    right ascension, from the true equinox of date, eastward +
//	dec   declination from the true equator of date, N +
//	GAST  Greenwich apparent sidereal time = GHA of Aries
//	GHA   Greenwich hour angle = GAST - RA, westward +;  SHA = -RA
//	dpsi, deps  nutation in longitude and obliquity;  eps obliquity
//	HP    horizontal parallax;  SD semidiameter
//
// Vectors are of the true equator and equinox of date: x to the equinox, z to
// the north pole.
//
// # Theories
//
// Precession is that of IAU 1976, nutation IAU 1980 cut to 63 terms, mean
// sidereal time IAU 1982: one set, whose printed examples are in the tests.
// Stars come from the embedded catalogue with space motion, annual parallax and
// aberration; the Sun from VSOP87 and the Moon from ELP-2000/82, both cut to
// the terms that 'Astronomical Algorithms' (2nd ed., 1998) and NREL/TP-560-34302
// print. The coefficients are from memory of these; the tests compare what
// comes out with independent libraries over the whole span.
//
// # Accuracy
//
// Measured by the tests at 126 instants from 1900 to 2030: stars within 0.12"
// and the Sun within 0.74" of ERFA 2.0.0.1 (IAU 2006/2000A); the Moon within
// 7.9" (0.0022 deg; usually 3") of the full ELP-2000/82; a tenth of a minute of arc, to which
// almanacs print, is 6". Rigil Kentaurus, Sirius and Procyon swing by up to 4"
// round their companions, which is left out here as in the computed rows. Outside
// those years nothing is promised.
package sky

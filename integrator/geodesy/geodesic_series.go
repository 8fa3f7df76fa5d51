package geodesy

import "math"

// The series of a geodesic in eps, order 6 (Karney 2013, eqs. 15-25). With
// k2 = ep2 cos^2 alpha0, eps = k2/(2(1+sqrt(1+k2)) + k2):
//
//	s/b      = (1+A1)(sigma + sum C1 sin 2j sigma)         distance
//	J        = (A1-A2) sigma + sum ((1+A1)C1 - (1+A2)C2) sin 2j sigma
//	lambda   = omega - f sin alpha0 A3 (sigma + sum C3 sin 2j sigma)

func epsilon(k2 float64) float64 { return k2 / (2*(1+math.Sqrt(1+k2)) + k2) }

// seriesA1 is A1, which is small.
func seriesA1(eps float64) float64 {
	x := eps * eps
	return (eps + x*(64+x*(4+x))/256) / (1 - eps)
}

// seriesA2 is A2, which is small.
func seriesA2(eps float64) float64 {
	x := eps * eps
	return (-eps - x*(192+x*(28+11*x))/256) / (1 + eps)
}

func seriesC1(e float64) fourier {
	x := e * e
	e3, e5 := e*x, e*x*x
	return fourier{
		-e * (16 - x*(6-x)) / 32,
		-x * (128 - x*(64-9*x)) / 2048,
		-e3 * (16 - 9*x) / 768,
		-x * x * (5 - 3*x) / 512,
		-e5 * 7 / 1280,
		-x * x * x * 7 / 2048,
	}
}

// seriesC1Inverse gives sigma = tau + sum C1' sin 2j tau, tau = s/(b(1+A1)).
func seriesC1Inverse(e float64) fourier {
	x := e * e
	e3, e5 := e*x, e*x*x
	return fourier{
		e * (768 - x*(432-205*x)) / 1536,
		x * (3840 - x*(4736-4005*x)) / 12288,
		e3 * (116 - 225*x) / 384,
		x * x * (2695 - 7173*x) / 7680,
		e5 * 3467 / 7680,
		x * x * x * 38081 / 61440,
	}
}

func seriesC2(e float64) fourier {
	x := e * e
	e3, e5 := e*x, e*x*x
	return fourier{
		e * (16 + x*(2+x)) / 32,
		x * (384 + x*(64+35*x)) / 2048,
		e3 * (80 + 15*x) / 768,
		x * x * (35 + 7*x) / 512,
		e5 * 63 / 1280,
		x * x * x * 77 / 2048,
	}
}

// seriesA3 is A3, near 1.
func seriesA3(e float64) float64 {
	return 1 - e*((1-n1)/2+e*((2+n1-3*n2)/8+e*((1+3*n1+n2)/16+e*((3+2*n1)/64+e*3/128))))
}

func seriesC3(e float64) fourier {
	x := e * e
	return fourier{
		e * ((1-n1)/4 + e*((1-n2)/8+e*((3+3*n1-n2)/64+e*((5+2*n1)/128+e*3/128)))),
		x * ((2-3*n1+n2)/32 + e*((3-2*n1-3*n2)/64+e*((3+n1)/128+e*5/256))),
		x * e * ((5-9*n1+5*n2)/192 + e*((9-10*n1)/384+e*7/512)),
		x * x * ((7-14*n1)/512 + e*7/512),
		x * x * e * 21 / 2560,
		0,
	}
}

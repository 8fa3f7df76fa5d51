// Package geomag is the earth's magnetic field: the International Geomagnetic
// Reference Field, 14th generation (IGRF-14, IAGA 2024), from 1900 to 2030, and
// a patch that interpolates it along a flight.
//
// # Notation
//
//	symbol   meaning                                            unit
//	phi      geodetic latitude (WGS-84), N +                    rad
//	lambda   longitude, E +                                     rad
//	h        height above the ellipsoid                         m
//	phi'     geocentric latitude; theta = pi/2 - phi'           rad
//	r        distance from the centre of the earth              m
//	a        reference radius of the model, 6371200 m (exact)   m
//	g, h_nm  Gauss coefficients, Schmidt semi-normalised,       nT
//	         without the phase (-1)^m
//	X, Y, Z  north, east and downward component                 nT
//	H, F     horizontal and total intensity                     nT
//	D, I     declination (variation), E +; inclination, down +  rad
//
// The field is the gradient of the potential (WMM technical report, section
// 1.2; IGRF is the same to degree 13)
//
//	V = a sum_n (a/r)^(n+1) sum_m (g_nm cos m lambda + h_nm sin m lambda) P_nm(cos theta)
//
// so that, with rho_n = (a/r)^(n+2),
//
//	X' =  sum rho_n (g cos m lambda + h sin m lambda) dP_nm/dtheta
//	Y' =  sum rho_n m (g sin m lambda - h cos m lambda) P_nm/sin theta
//	Z' = -sum rho_n (n+1) (g cos m lambda + h sin m lambda) P_nm
//
// turned from the geocentric to the geodetic vertical by phi' - phi. For m > 0
// the sums carry Q_nm = P_nm/sin theta, which stays finite at the poles:
//
//	Q_nm = A Q_n-1,m cos theta - B Q_n-2,m
//	A = (2n-1)/sqrt(n^2-m^2),  B = sqrt(((n-1)^2-m^2)/(n^2-m^2))
//	dP_nm/dtheta = n cos theta Q_nm - sqrt(n^2-m^2) Q_n-1,m
//
// # Special cases
//
// At a geographic pole north and east are those of the meridian given. At a
// magnetic pole H is nought and D is without meaning. Longitudes may have any
// size. Between the five-year epochs the coefficients are linear in time;
// after 2025 they follow the secular variation of the model to 2030. The year
// is refused outside 1900 to 2030; positions are not checked; NaN gives NaN.
//
// # Accuracy
//
// The sums agree with the printed results of the official programs to their
// rounding (see the tests). The model itself differs from the field on a
// quiet day by 100 to 200 nT (1 sigma, WMM2025 error model), some 0.3 degrees
// of D in middle latitudes, more before 1945 (from memory).
package geomag

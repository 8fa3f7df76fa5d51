// Package integrator is the mechanism: from pressures, temperature and compass
// to counters, a marker and nothing else. It knows only what its inputs tell it.
//
//	pitot, static, temperature -> air log -+-> drive -> resolver -> northing, easting
//	                                       |               ^             |
//	                              air log counter          |     latitude train, secant gear
//	compass -> variation setter -> repeater ---------------+             |
//	                                                              air position counters
//	wind setter, clock -> wind shafts -> second trains -> ground position, marker
//
// Laws, signs and the order of work are this project's own design; the earth of
// the mechanism is a sphere on which a minute of latitude is a nautical mile.
// Everything up to the resolver is a rate, the counters hold its sum.
//
// What a link passes on at one moment (links.go; for those who open the
// instrument), from the same laws that move it, so that over a straight run
// each sum is the integral of its rate:
//
//	V    air log's shaft                 Vd = V (1-slip)(1+gear)     behind the drive
//	bN = cos H, bE = sin H               where the balls stand, as the resolver has them
//	vN = Vd bN (1-slip), vE likewise     shafts; 0 while play is taken up
//	dphi/dt = vN minutes                 dlambda/dt = vE sec(gear) minutes
//	vN + uN, vE + uE                     adders; (uN, uE) the wind in force x clock
//
// A counter that is jammed or at its stop has no rate, one that is reversed the
// opposite one. The ripple of the regulator is evened out in V.
//
// A hand may hold an input (hands.go): the heading of the repeater at the
// resolver, the latitude of the first secant gear, the wind of the wind shafts,
// the speed of the air log's shaft. What comes to that input turns nothing; the
// links before it go on, and so does, unseen, a second set of Trains that no
// hand has touched (State.Unheld). It is what the pilot goes by, so that the
// aircraft flies on. Taken off, a hand leaves what was turned and nothing else;
// when the counters are next set, not even that but the air log counter and
// the turns of the drive.
//
// What is wrong with it is the struct Imperfections, a level: it says how things
// are while a step is run, and every step may be given another. Its zero value
// is the ideal instrument. What a fault leaves behind (miles lost, a carry
// missed, play taken up) is in the plain State and goes on whatever is given.
// The faults of the trade's catalogue and the fields that make them:
//
//	density-standard-temperature  AirLog.Source = Standard
//	temperature-mis-set           AirLog.TemperatureError
//	compressibility-neglected     AirLog.Incompressible
//	tas-scale                     AirLog.Scale
//	low-speed-threshold           AirLog.Threshold, .Hysteresis
//	regulator-ripple              AirLog.Ripple {Amount, Period, Duty}
//	air-log-frozen                AirLog.Frozen
//	drive-slip                    Drive.Slip
//	drive-broken                  Drive.Parted
//	wrong-gear-ratio              Drive.GearError = ratio - 1
//	backlash                      Drive.Play
//	resolver-zero-off             Resolver.Zero
//	resolver-gain-mismatch        Resolver.NorthGain, .EastGain
//	resolver-not-orthogonal       Resolver.Skew
//	quadrant-error                Resolver.NorthCrossed or .EastCrossed = Quadrant(n)
//	resolver-stiction             Resolver.Stiction
//	disc-centre-offset            Resolver.NorthCentre, .EastCentre
//	disc-slip                     Resolver.NorthSlip or .EastSlip
//
// in the trains, Train for the air position and Ground.Train for the ground
// position:
//
//	secant-gear-held              .SecantHeld, .HeldLatitude
//	secant-gear-at-limit          .SecantLimit, .Disengages
//	latitude-coupling             .GearOffset
//	latitude-drum-jam             .LatJammed
//	longitude-drum-jam            .LonJammed
//	carry-failure                 .LatCarry or .LonCarry {Drum, Count}
//	counter-mis-set               .LatMisSet or .LonMisSet, minutes
//	latitude-sense-reversed       .LatReversed
//	longitude-sense-reversed      .LonReversed
//
// on the ground side:
//
//	wind-direction-reversed       Ground.Wind.Reversed
//	wind-direction-mis-set        Ground.Wind.Turn
//	wind-speed-mis-set            Ground.Wind.Speed = factor - 1
//	wind-clock-late               Ground.ClockLate, s
//	wind-clock-not-reset          Ground.ClockOld, s (plotted design)
//	clock-rate-wrong              Ground.ClockRate = ppm / 1e6
//	marker-origin-mis-set         Ground.Marker.North, .East, NM
//	chart-scale-wrong             Ground.Marker.Scale = factor - 1
//	mercator-scale-fixed          Ground.Marker.Fixed, .ScaleLatitude
//
// A counter mis-set is turned once, when its field appears or grows; a carry is
// missed Count times and no more until the field has been empty. A late clock
// stands from when its field appears, and again after each reset.
package integrator

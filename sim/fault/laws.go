package fault

import (
	"maps"

	"stillair/integrator"
	"stillair/integrator/airlog"
	"stillair/integrator/train"
	"stillair/integrator/units"
	"stillair/sim/sensor"
)

// law is what an entry of the catalogue writes while it acts, and does once.
type law struct {
	write  func(v Values, since float64, w Wrong)
	varies bool // write depends on since
	deed   func(v Values) Deed
}

func degrees(x float64) units.Angle { return units.Angle(x) * units.Degree }

// senses and mechanism are laws that write one side only.
func senses(write func(v Values, w *sensor.Imperfection)) law {
	return law{write: func(v Values, _ float64, w Wrong) { write(v, w.Senses) }}
}

func mechanism(write func(v Values, w *integrator.Imperfections)) law {
	return law{write: func(v Values, _ float64, w Wrong) { write(v, w.Mechanism) }}
}

// trains is a law of one or both pairs of trains; the parameter that says which
// has the index at.
func trains(at int, write func(v Values, w *train.Imperfection)) law {
	const air, ground, both = 0, 1, 2 // choices of the catalogue
	return mechanism(func(v Values, w *integrator.Imperfections) {
		if v[at] == air || v[at] == both {
			write(v, &w.Train)
		}
		if v[at] == ground || v[at] == both {
			write(v, &w.Ground.Train)
		}
	})
}

func crew(deed func(v Values) Deed) law { return law{deed: deed} }

// laws are those of every entry that can be given, by its id; a parameter is
// known by its place in the catalogue. A setting fault acts on top of what is
// set; of two faults that write one field the later order counts, of settings
// the sum.
var laws = together(lineLaws, airLogLaws, driveLaws, headingLaws, resolverLaws, trainLaws, groundLaws, crewLaws)

func together(parts ...map[string]law) map[string]law {
	all := map[string]law{}
	for _, p := range parts {
		maps.Copy(all, p)
	}
	return all
}

// lineLaws are those of the pitot and static lines.
var lineLaws = map[string]law{
	"pitot-ram-blocked": senses(func(v Values, w *sensor.Imperfection) {
		w.Pitot.RamBlocked, w.Pitot.Decay = true, v[0]
	}),
	"pitot-and-drain-blocked": senses(func(_ Values, w *sensor.Imperfection) { w.Pitot.Trapped = true }),
	"static-blocked":          senses(func(_ Values, w *sensor.Imperfection) { w.Static.Trapped = true }),
	"static-leak": senses(func(v Values, w *sensor.Imperfection) {
		w.Static.Leak, w.Static.CabinOverQc, w.Static.Settle = v[0], v[1], v[2]
	}),
	"pitot-leak":     senses(func(v Values, w *sensor.Imperfection) { w.Pitot.Leak = v[0] }),
	"position-error": senses(func(v Values, w *sensor.Imperfection) { w.Static.PositionError = v[0] }),
	"capsule-lag":    senses(func(v Values, w *sensor.Imperfection) { w.LineLag = v[0] }),
	"water-in-pitot-line": {varies: true, write: func(v Values, since float64, w Wrong) {
		w.Senses.Pitot.Surge = sensor.Surge{Amplitude: v[0], Period: v[1], Since: since}
	}},
	"water-head-in-pitot-line": senses(func(v Values, w *sensor.Imperfection) {
		w.Pitot.WaterHead = units.Length(v[0] / 1000)
	}),
}

// airLogLaws are those of the air log.
var airLogLaws = map[string]law{
	"density-standard-temperature": mechanism(func(_ Values, w *integrator.Imperfections) { w.AirLog.Source = airlog.Standard }),
	"temperature-mis-set":          mechanism(func(v Values, w *integrator.Imperfections) { w.AirLog.TemperatureError += v[0] }),
	"temperature-ram-rise":         senses(func(v Values, w *sensor.Imperfection) { w.Thermometer.Recovery = v[0] }),
	"compressibility-neglected":    mechanism(func(_ Values, w *integrator.Imperfections) { w.AirLog.Incompressible = true }),
	"tas-scale":                    mechanism(func(v Values, w *integrator.Imperfections) { w.AirLog.Scale = v[0] }),
	"low-speed-threshold": mechanism(func(v Values, w *integrator.Imperfections) {
		w.AirLog.Threshold, w.AirLog.Hysteresis = units.Speed(v[0])*units.Knot, units.Speed(v[1])*units.Knot
	}),
	"regulator-ripple": mechanism(func(v Values, w *integrator.Imperfections) {
		w.AirLog.Ripple = airlog.Ripple{Amount: v[0], Period: v[1], Duty: v[2]}
	}),
	"air-log-frozen": mechanism(func(_ Values, w *integrator.Imperfections) { w.AirLog.Frozen = true }),
}

// driveLaws are those of the drive.
var driveLaws = map[string]law{
	"drive-slip":       mechanism(func(v Values, w *integrator.Imperfections) { w.Drive.Slip = v[0] }),
	"drive-broken":     mechanism(func(_ Values, w *integrator.Imperfections) { w.Drive.Parted = true }),
	"backlash":         mechanism(func(v Values, w *integrator.Imperfections) { w.Drive.Play = v[0] }),
	"wrong-gear-ratio": mechanism(func(v Values, w *integrator.Imperfections) { w.Drive.GearError = v[0] - 1 }),
}

// headingLaws are those of compass, setter and repeater.
var headingLaws = map[string]law{
	"compass-deviation": senses(func(v Values, w *sensor.Imperfection) {
		w.Compass = sensor.Compass{A: degrees(v[0]), B: degrees(v[1]), C: degrees(v[2]), D: degrees(v[3]), E: degrees(v[4])}
	}),
	"variation-mis-set":           mechanism(func(v Values, w *integrator.Imperfections) { w.Heading.MisSet += degrees(v[0]) }),
	"variation-wrong-sign":        mechanism(func(_ Values, w *integrator.Imperfections) { w.Heading.WrongSign = true }),
	"variation-left-at-old-value": {write: func(_ Values, _ float64, w Wrong) { w.Habit.SetterLeft = true }},
	"gyro-drift-unslaved": senses(func(v Values, w *sensor.Imperfection) {
		w.Gyro.Free, w.Gyro.Drift = true, v[0]*sensor.DegreePerHour
		w.Gyro.EarthRate, w.Gyro.Transport = v[1] != 0, v[2] != 0
	}),
	"slaving-hang-off": senses(func(v Values, w *sensor.Imperfection) { w.Gyro.Residual = degrees(v[0]) }),
	"turning-error": senses(func(v Values, w *sensor.Imperfection) {
		w.Gyro.Drag, w.Gyro.CutOut = v[0]*sensor.DegreePerMinute, v[1]*sensor.DegreePerSecond
	}),
	"repeater-lost-steps": mechanism(func(v Values, w *integrator.Imperfections) { w.Heading.Lost = degrees(v[0] * v[1]) }),
	"repeater-stuck":      mechanism(func(_ Values, w *integrator.Imperfections) { w.Heading.Stuck = true }),
	"repeater-lag":        mechanism(func(v Values, w *integrator.Imperfections) { w.Heading.Lag = v[0] }),
}

// resolverLaws are those of resolver and discs.
var resolverLaws = map[string]law{
	"resolver-zero-off": mechanism(func(v Values, w *integrator.Imperfections) { w.Resolver.Zero = degrees(v[0]) }),
	"resolver-gain-mismatch": mechanism(func(v Values, w *integrator.Imperfections) {
		w.Resolver.NorthGain, w.Resolver.EastGain = v[0], v[1]
	}),
	"resolver-not-orthogonal": mechanism(func(v Values, w *integrator.Imperfections) { w.Resolver.Skew = degrees(v[0]) }),
	"quadrant-error": mechanism(func(v Values, w *integrator.Imperfections) {
		if q := integrator.Quadrant(int(v[0])); v[1] == 0 { // N
			w.Resolver.NorthCrossed |= q
		} else {
			w.Resolver.EastCrossed |= q
		}
	}),
	"resolver-stiction": mechanism(func(v Values, w *integrator.Imperfections) { w.Resolver.Stiction = v[0] }),
	"disc-centre-offset": mechanism(func(v Values, w *integrator.Imperfections) {
		w.Resolver.NorthCentre, w.Resolver.EastCentre = v[0], v[1]
	}),
	"disc-slip": mechanism(func(v Values, w *integrator.Imperfections) {
		if v[0] == 0 { // N
			w.Resolver.NorthSlip = v[1]
		} else {
			w.Resolver.EastSlip = v[1]
		}
	}),
}

// trainLaws are those of the trains of latitude and longitude.
var trainLaws = map[string]law{
	"secant-gear-held": trains(1, func(v Values, w *train.Imperfection) { w.SecantHeld, w.HeldLatitude = true, degrees(v[0]) }),
	"secant-gear-at-limit": trains(2, func(v Values, w *train.Imperfection) {
		w.SecantLimit, w.Disengages = degrees(v[0]), v[1] == 1
	}),
	"latitude-drum-jam":  trains(0, func(_ Values, w *train.Imperfection) { w.LatJammed = true }),
	"longitude-drum-jam": trains(0, func(_ Values, w *train.Imperfection) { w.LonJammed = true }),
	"carry-failure": trains(3, func(v Values, w *train.Imperfection) {
		c := train.Carry{Drum: train.Minutes + train.Drum(v[1]), Count: int(v[2])}
		if v[0] == 0 { // lat
			w.LatCarry = c
		} else {
			w.LonCarry = c
		}
	}),
	"counter-mis-set": trains(2, func(v Values, w *train.Imperfection) {
		if v[1] == 0 { // lat
			w.LatMisSet += v[0]
		} else {
			w.LonMisSet += v[0]
		}
	}),
	"latitude-sense-reversed":  trains(0, func(_ Values, w *train.Imperfection) { w.LatReversed = true }),
	"longitude-sense-reversed": trains(0, func(_ Values, w *train.Imperfection) { w.LonReversed = true }),
}

// groundLaws are those of the ground side.
var groundLaws = map[string]law{
	"wind-direction-reversed": mechanism(func(_ Values, w *integrator.Imperfections) { w.Ground.Wind.Reversed = true }),
	"wind-direction-mis-set":  mechanism(func(v Values, w *integrator.Imperfections) { w.Ground.Wind.Turn += degrees(v[0]) }),
	"wind-speed-mis-set": mechanism(func(v Values, w *integrator.Imperfections) {
		w.Ground.Wind.Speed = (1+w.Ground.Wind.Speed)*v[0] - 1
	}),
	"wind-clock-late":      mechanism(func(v Values, w *integrator.Imperfections) { w.Ground.ClockLate = 60 * v[0] }),
	"wind-clock-not-reset": mechanism(func(v Values, w *integrator.Imperfections) { w.Ground.ClockOld = 60 * v[0] }),
	"marker-origin-mis-set": mechanism(func(v Values, w *integrator.Imperfections) {
		w.Ground.Marker.North, w.Ground.Marker.East = v[0], v[1]
	}),
	"chart-scale-wrong": mechanism(func(v Values, w *integrator.Imperfections) { w.Ground.Marker.Scale = v[0] - 1 }),
	"mercator-scale-fixed": mechanism(func(v Values, w *integrator.Imperfections) {
		w.Ground.Marker.Fixed, w.Ground.Marker.ScaleLatitude = true, degrees(v[0])
	}),
}

// crewLaws are those of the crew.
var crewLaws = map[string]law{
	"reset-applied-late": crew(func(v Values) Deed { return Deed{Done: true, Late: 60 * v[0]} }),
	"fix-time-wrong":     crew(func(v Values) Deed { return Deed{Done: true, Late: 60 * v[0]} }),
	"reset-to-wrong-fix": crew(func(v Values) Deed { return Deed{Done: true, North: v[0], East: v[1]} }),
	"clock-rate-wrong":   mechanism(func(v Values, w *integrator.Imperfections) { w.Ground.ClockRate = v[0] / 1e6 }),
}

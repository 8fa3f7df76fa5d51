package integrator

import (
	"stillair/integrator/airlog"
	"stillair/integrator/train"
	"stillair/integrator/units"
)

// links is what is wrong by fault id, for a row's parameters and its length in
// seconds. What is not here is not in these links, but in the senses.
var links = map[string]func(p map[string]float64, seconds float64) trial{
	"tas-scale": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{AirLog: airlog.Imperfection{Scale: p["scale"]}})}
	},
	"drive-slip": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Drive: DriveImperfection{Slip: p["slip"]}})}
	},
	"drive-broken": func(p map[string]float64, seconds float64) trial {
		return trial{wrong: func(at, _ float64) (w Imperfections) {
			if at >= seconds*p["break_at_fraction"] {
				w.Drive.Parted = true
			}
			return w
		}}
	},
	"wrong-gear-ratio": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Drive: DriveImperfection{GearError: p["ratio"] - 1}})}
	},
	"variation-mis-set": func(p map[string]float64, _ float64) trial {
		return trial{set: p["set_minus_true_deg"]}
	},
	"variation-wrong-sign": func(p map[string]float64, _ float64) trial {
		v := p["true_variation"]
		return trial{set: -v, variation: func(float64) float64 { return v }}
	},
	"variation-left-at-old-value": func(p map[string]float64, _ float64) trial {
		return trial{variation: func(miles float64) float64 { return -p["gradient_deg_per_nm"] * miles }}
	},
	"repeater-lost-steps": func(p map[string]float64, _ float64) trial {
		e := units.Angle(p["steps"]*p["step_deg"]) * units.Degree
		return trial{wrong: always(Imperfections{Heading: HeadingImperfection{Repeater: e}})}
	},
	"repeater-stuck": func(p map[string]float64, _ float64) trial {
		return trial{wrong: func(at, heading float64) (w Imperfections) {
			if at >= p["after_s"] {
				w.Heading.Repeater = units.Angle(p["stuck_at"]-heading) * units.Degree
			}
			return w
		}}
	},
	"resolver-zero-off": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Resolver: ResolverImperfection{Zero: units.Angle(p["zero_deg"]) * units.Degree}})}
	},
	"resolver-gain-mismatch": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Resolver: ResolverImperfection{NorthGain: p["north_gain_error"], EastGain: p["east_gain_error"]}})}
	},
	"secant-gear-held": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Train: train.Imperfection{SecantHeld: true, HeldLatitude: units.Angle(p["held_lat_deg"]) * units.Degree}})}
	},
	"secant-gear-at-limit": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Train: train.Imperfection{SecantLimit: units.Angle(p["limit_deg"]) * units.Degree}})}
	},
	"latitude-coupling": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Train: train.Imperfection{GearOffset: units.Angle(p["lat_error_deg"]) * units.Degree}})}
	},
	"counter-mis-set": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Train: train.Imperfection{LatMisSet: p["offset_min"]}})}
	},
	"low-speed-threshold": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{AirLog: airlog.Imperfection{Threshold: units.Speed(p["threshold_kt"]) * units.Knot}})}
	},
	"regulator-ripple": func(p map[string]float64, _ float64) trial {
		r := airlog.Ripple{Amount: p["ripple"], Period: p["period_s"], Duty: p["duty"]}
		return trial{wrong: always(Imperfections{AirLog: airlog.Imperfection{Ripple: r}})}
	},
	"backlash": func(p map[string]float64, _ float64) trial {
		return trial{wrong: always(Imperfections{Drive: DriveImperfection{Play: p["backlash_nm"]}})}
	},
	"resolver-not-orthogonal": resolver(func(w *ResolverImperfection, p map[string]float64, _ bool) {
		w.Skew = units.Angle(p["angle_deg"]) * units.Degree
	}),
	"quadrant-error": resolver(func(w *ResolverImperfection, p map[string]float64, north bool) {
		q := Quadrant(int(p["quadrant"]))
		if north {
			w.NorthCrossed = q
		} else {
			w.EastCrossed = q
		}
	}),
	"resolver-stiction": resolver(func(w *ResolverImperfection, p map[string]float64, _ bool) { w.Stiction = p["threshold"] }),
	"disc-centre-offset": resolver(func(w *ResolverImperfection, p map[string]float64, _ bool) {
		w.NorthCentre, w.EastCentre = p["north_centre"], p["east_centre"]
	}),
	"disc-slip": resolver(func(w *ResolverImperfection, p map[string]float64, north bool) {
		if north {
			w.NorthSlip = p["slip"]
		} else {
			w.EastSlip = p["slip"]
		}
	}),
	"carry-failure": func(p map[string]float64, _ float64) trial {
		c := train.Carry{Drum: drumOf[p["drum"]], Count: int(p["missed_count"])}
		w := Imperfections{Train: train.Imperfection{LatCarry: c}}
		if p["axis"] == axisLon {
			w.Train.LatCarry, w.Train.LonCarry = train.Carry{}, c
		}
		return trial{wrong: always(w)}
	},
	"latitude-sense-reversed": jam(func(w *train.Imperfection) { w.LatReversed = true }),
	"longitude-sense-reversed": jam(func(w *train.Imperfection) {
		w.LonReversed = true
	}),
	"latitude-drum-jam":  jam(func(w *train.Imperfection) { w.LatJammed = true }),
	"longitude-drum-jam": jam(func(w *train.Imperfection) { w.LonJammed = true }),
}

// jam is something wrong with a train for the time of the row, or throughout.
func jam(spoil func(w *train.Imperfection)) func(p map[string]float64, _ float64) trial {
	return func(p map[string]float64, _ float64) trial {
		return trial{wrong: func(at, _ float64) (w Imperfections) {
			to, limited := p["to_s"]
			if at >= p["jam_from_s"] && (!limited || at < to) {
				spoil(&w.Train)
			}
			return w
		}}
	}
}

// resolver is something wrong with the resolver throughout; north tells it of
// an axis that the row names.
func resolver(spoil func(w *ResolverImperfection, p map[string]float64, north bool)) func(p map[string]float64, _ float64) trial {
	return func(p map[string]float64, _ float64) trial {
		var w Imperfections
		spoil(&w.Resolver, p, p["axis"] == axisN)
		return trial{wrong: always(w)}
	}
}

package integrator

import "stillair/integrator/units"

// ofTheHeading are the faults of heading and setter that this package can show
// with what it has: each as a trial for a row's parameters.
var ofTheHeading = map[string]func(p params) trial{
	"variation-mis-set": func(p params) trial { return trial{set: p["set_minus_true_deg"]} },
	"variation-wrong-sign": func(p params) trial {
		v := p["true_variation"]
		return trial{set: -v, variation: func(float64) float64 { return v }}
	},
	"variation-left-at-old-value": func(p params) trial {
		return trial{variation: func(miles float64) float64 { return -p["gradient_deg_per_nm"] * miles }}
	},
	"repeater-lost-steps": func(p params) trial {
		e := units.Angle(p["steps"]*p["step_deg"]) * units.Degree
		return trial{wrong: always(Imperfections{Heading: HeadingImperfection{Repeater: e}})}
	},
	"repeater-stuck": func(p params) trial {
		return trial{wrong: func(at, heading float64) (w Imperfections) {
			if at >= p["after_s"] {
				w.Heading.Repeater = units.Angle(p["stuck_at"]-heading) * units.Degree
			}
			return w
		}}
	},
}

// trialOf is what a row of so many seconds asks for; false if these links do
// not have it.
func trialOf(id string, p params, seconds float64) (trial, bool) {
	if f, ok := ofTheHeading[id]; ok {
		return f(p), true
	}
	spoil, ok := faults[id]
	if !ok {
		return trial{}, false
	}
	from := p["jam_from_s"] + seconds*p["break_at_fraction"]
	to, limited := p["to_s"]
	return trial{wrong: func(at, _ float64) (w Imperfections) {
		if at >= from && (!limited || at < to) {
			spoil(&w, p)
		}
		return w
	}}, true
}

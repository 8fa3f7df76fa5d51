package fault

import (
	_ "embed"
	"strconv"
	"sync"
)

//go:embed data/mech_service.csv
var serviceCSV string

// ServiceValue is one healthy imperfection of the service class.
type ServiceValue struct {
	Link, Name, Unit string
	Value            float64 // of a number
	Min, Max         float64 // legal range of a number
	Word             string  // of the one row that is a choice, else ""
	Choices          []string
}

// serviceRanges are the legal ranges of the single values of the service
// table. They are a choice of this project: wide enough for a badly worn
// instrument, and that of the fault of the same name where there is one.
var serviceRanges = map[string][2]float64{
	"line_lag_s":            {0, 30},     // as capsule-lag
	"tas_scale":             {-0.3, 0.3}, // as tas-scale
	"threshold_kt":          {0, 150},    // as low-speed-threshold
	"regulator_ripple":      {0, 0.3},    // as regulator-ripple
	"train_play_nm":         {0, 3},      // as backlash
	"deviation_b_deg":       {-15, 15},   // as compass-deviation
	"deviation_c_deg":       {-15, 15},
	"slaving_deg_min":       {0.1, 60},
	"slaving_dead_band_deg": {0, 5},
	"repeater_step_deg":     {0, 5},
	"repeater_lag_s":        {0, 30},  // as repeater-lag
	"secant_limit_deg":      {60, 85}, // as secant-gear-at-limit
}

// temperatureSources are the words for where the air log takes its
// temperature from; the first is the default.
var temperatureSources = []string{"bulb", "standard", "hand-set"}

// Service gives the table of the service class. The slice is shared.
func Service() []ServiceValue { return service() }

var service = sync.OnceValue(func() []ServiceValue {
	var out []ServiceValue
	for _, r := range records(serviceCSV) {
		v := ServiceValue{Link: r["link"], Name: r["name"], Unit: r["unit"]}
		x, err := strconv.ParseFloat(r["value"], 64)
		if err != nil {
			v.Word, v.Choices = r["value"], temperatureSources
		} else {
			lim, ok := serviceRanges[v.Name]
			if !ok {
				panic("no range for " + v.Name)
			}
			v.Value, v.Min, v.Max = x, lim[0], lim[1]
		}
		out = append(out, v)
	}
	return out
})

package export

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"time"

	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// instant is what a row of the CSV is made of.
type instant struct {
	view  aboard.View
	truth sim.Snapshot
}

// Column is a column of the CSV.
type Column struct {
	Name, Unit, Means string
	truth             bool // only where the truth is shown
	cell              func(*instant) string
}

// readingShare is the standard uncertainty of reading a display, of one step of
// its last figure: 1 / root 12 (JCGM 100:2008, F.2.2.1).
var readingShare = 1 / math.Sqrt(12)

// Steps of the last figures that the displays show.
const (
	positionStep  = units.ArcMinute / 10
	headingStep   = units.Degree
	speedStep     = units.Knot
	heightStep    = units.Foot
	celsiusStep   = 1.0
	directionStep = units.Degree
	variationStep = units.Degree / 10
	airLogStep    = units.NM / 10
)

// Columns are all columns, in their order; those of the truth last.
func Columns() []Column {
	var all []Column
	for _, group := range [][]Column{timeColumns(), placeColumns(), speedColumns(), airColumns(), windColumns(), sumColumns(), trueColumns()} {
		all = append(all, group...)
	}
	return all
}

// WriteCSV writes a row for the start, for each step of flight time, and for the
// end. It moves the engine, and leaves it where it was.
func WriteCSV(w io.Writer, e *sim.Engine, every time.Duration, reveal bool) error {
	var columns []Column
	var cells []string
	for _, c := range Columns() {
		if reveal || !c.truth {
			columns, cells = append(columns, c), append(cells, c.Name)
		}
	}
	out := csv.NewWriter(w)
	if err := out.Write(cells); err != nil {
		return err
	}
	end := e.Tick()
	defer e.GoTo(end)
	for tick := int64(0); ; tick = min(end, tick+max(1, sim.TicksOf(every))) {
		e.GoTo(tick)
		now := instant{e.View(), e.Snapshot()}
		for i, c := range columns {
			cells[i] = c.cell(&now)
		}
		if err := out.Write(cells); err != nil {
			return err
		}
		if tick == end {
			out.Flush()
			return out.Error()
		}
	}
}

// WriteColumns writes what the columns mean, as a CSV.
func WriteColumns(w io.Writer) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{"column", "unit", "meaning"}) // its error comes again below
	for _, c := range Columns() {
		_ = out.Write([]string{c.Name, c.Unit, c.Means})
	}
	out.Flush()
	return out.Error()
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// column makes a column of a figure.
func column(name, unit, means string, of func(*aboard.View) float64) Column {
	return Column{name, unit, means, false, func(n *instant) string { return number(figure(of(&n.view))) }}
}

// uncertainty is a column with the standard uncertainty of reading a display.
func uncertainty(name, unit, of string, step float64) Column {
	text := strconv.FormatFloat(readingShare*step, 'g', 3, 64)
	return Column{name, unit, "standard uncertainty of reading " + of, false, func(*instant) string { return text }}
}

func timeColumns() []Column {
	return []Column{
		{"elapsed_s", "s", "flight time", false, func(n *instant) string { return number(n.view.Elapsed.Seconds()) }},
		{"utc", "", "time by the clock aboard", false, func(n *instant) string { return stamp(n.view.Clock) }},
	}
}

func placeColumns() []Column {
	u := func(name string) []Column {
		return []Column{
			uncertainty("u_"+name+"_min", "minute of arc", "a counter, to a tenth of a minute", positionStep.Minutes()),
			uncertainty("u_"+name+"_m", "m", "a latitude, in metres (a longitude: times the cosine of the latitude)", positionStep.Minutes()*units.NM.Metres()),
		}
	}
	place := func(name, what string, of func(*aboard.View) units.Position) []Column {
		return []Column{
			{name + "_lat_deg", "degree", "latitude of the " + what + " shown, N positive", false, func(n *instant) string { return number(degrees(of(&n.view).Lat)) }},
			{name + "_lon_deg", "degree", "longitude of the " + what + " shown, E positive", false, func(n *instant) string { return number(longitude(of(&n.view).Lon)) }},
		}
	}
	all := place("air", "air position", func(v *aboard.View) units.Position { return units.Position(v.Air) })
	all = append(all, place("ground", "ground position", func(v *aboard.View) units.Position { return units.Position(v.Ground) })...)
	return append(all, u("position")...)
}

// both are a speed in knots and in metres a second, with the uncertainty of reading
// it.
func both(name, means string, of func(*aboard.View) units.Speed) []Column {
	return []Column{
		column(name+"_kt", "knot", means, func(v *aboard.View) float64 { return of(v).Knots() }),
		column(name+"_m_s", "m/s", means, func(v *aboard.View) float64 { return of(v).MetresPerSecond() }),
		uncertainty("u_"+name+"_kt", "knot", "it, to a knot", speedStep.Knots()),
		uncertainty("u_"+name+"_m_s", "m/s", "it, to a knot", speedStep.MetresPerSecond()),
	}
}

func speedColumns() []Column {
	all := []Column{
		column("heading_true_deg", "degree", "true heading by the repeater at the resolver", func(v *aboard.View) float64 { return v.Heading.Degrees() }),
		uncertainty("u_heading_deg", "degree", "it, to a degree", headingStep.Degrees()),
		column("compass_deg", "degree", "standby compass", func(v *aboard.View) float64 { return v.Compass.Degrees() }),
		column("variation_set_deg", "degree", "variation set, E positive", func(v *aboard.View) float64 { return v.VariationSet.Degrees() }),
		uncertainty("u_variation_set_deg", "degree", "it, to a tenth of a degree", variationStep.Degrees()),
	}
	all = append(all, both("tas", "true airspeed of the air log", func(v *aboard.View) units.Speed { return v.TAS })...)
	return append(all, both("ias", "indicated airspeed", func(v *aboard.View) units.Speed { return v.IAS })...)
}

func airColumns() []Column {
	return []Column{
		column("pressure_altitude_ft", "foot", "pressure altitude by the altimeter at 1013.25 hPa", func(v *aboard.View) float64 { return v.PressureAltitude.Feet() }),
		column("pressure_altitude_m", "m", "the same", func(v *aboard.View) float64 { return v.PressureAltitude.Metres() }),
		uncertainty("u_pressure_altitude_ft", "foot", "it, to a foot", heightStep.Feet()),
		uncertainty("u_pressure_altitude_m", "m", "it, to a foot", heightStep.Metres()),
		column("air_temperature_c", "degree Celsius", "outside air temperature by the thermometer", func(v *aboard.View) float64 { return v.AirTemperature.Celsius() }),
		column("air_temperature_k", "K", "the same", func(v *aboard.View) float64 { return v.AirTemperature.Celsius() + 273.15 }),
		uncertainty("u_air_temperature_k", "K", "it, to a degree", celsiusStep),
	}
}

func windColumns() []Column {
	return append([]Column{
		column("wind_set_from_deg_true", "degree", "wind set: direction it comes from, true", func(v *aboard.View) float64 { return units.Wrap(v.WindSet.From).Degrees() }),
		uncertainty("u_wind_set_from_deg", "degree", "it, to a degree", directionStep.Degrees()),
	}, both("wind_set", "wind set: its speed", func(v *aboard.View) units.Speed { return v.WindSet.Speed })...)
}

func sumColumns() []Column {
	length := func(name, means string, of func(*aboard.View) units.Length) []Column {
		return []Column{
			column(name+"_nm", "nautical mile", means, func(v *aboard.View) float64 { return of(v).NM() }),
			column(name+"_m", "m", means, func(v *aboard.View) float64 { return of(v).Metres() }),
		}
	}
	all := length("air_log", "air log counter: air miles, before the drive", func(v *aboard.View) units.Length { return v.AirLog })
	all = append(all, uncertainty("u_air_log_nm", "nautical mile", "it, to a tenth of a mile", airLogStep.NM()),
		uncertainty("u_air_log_m", "m", "it, to a tenth of a mile", airLogStep.Metres()))
	all = append(all, length("northing", "northing shaft since the counters were set, N positive", func(v *aboard.View) units.Length { return v.Northing })...)
	return append(all, length("easting", "easting shaft since the counters were set, E positive", func(v *aboard.View) units.Length { return v.Easting })...)
}

// trueColumns are for those who may see the truth.
func trueColumns() []Column {
	column := func(name, unit, means string, of func(*sim.Snapshot) float64) Column {
		return Column{name, unit, means, true, func(n *instant) string { return number(figure(of(&n.truth))) }}
	}
	nm := units.NM.Metres()
	return []Column{
		column("true_lat_deg", "degree", "true latitude", func(s *sim.Snapshot) float64 { return degrees(s.Truth.Position.Lat) }),
		column("true_lon_deg", "degree", "true longitude", func(s *sim.Snapshot) float64 { return longitude(s.Truth.Position.Lon) }),
		column("true_air_lat_deg", "degree", "latitude of the true air position", func(s *sim.Snapshot) float64 { return degrees(s.Truth.Air.Lat) }),
		column("true_air_lon_deg", "degree", "longitude of the true air position", func(s *sim.Snapshot) float64 { return longitude(s.Truth.Air.Lon) }),
		column("true_heading_deg", "degree", "true heading", func(s *sim.Snapshot) float64 { return s.Truth.Heading.Degrees() }),
		column("true_tas_kt", "knot", "true airspeed as it is", func(s *sim.Snapshot) float64 { return s.Truth.TAS.Knots() }),
		column("true_tas_m_s", "m/s", "the same", func(s *sim.Snapshot) float64 { return s.Truth.TAS.MetresPerSecond() }),
		column("true_track_deg", "degree", "true track", func(s *sim.Snapshot) float64 { return s.Truth.Track.Degrees() }),
		column("true_groundspeed_kt", "knot", "groundspeed as it is", func(s *sim.Snapshot) float64 { return s.Truth.Groundspeed.Knots() }),
		column("true_groundspeed_m_s", "m/s", "the same", func(s *sim.Snapshot) float64 { return s.Truth.Groundspeed.MetresPerSecond() }),
		column("true_wind_from_deg_true", "degree", "direction the wind comes from", func(s *sim.Snapshot) float64 { return s.Truth.Wind.From.Degrees() }),
		column("true_wind_kt", "knot", "its speed", func(s *sim.Snapshot) float64 { return s.Truth.Wind.Speed.Knots() }),
		column("true_wind_m_s", "m/s", "the same", func(s *sim.Snapshot) float64 { return s.Truth.Wind.Speed.MetresPerSecond() }),
		column("true_variation_deg", "degree", "variation of the field, E positive", func(s *sim.Snapshot) float64 { return s.Truth.Variation.Degrees() }),
		column("ground_error_north_nm", "minute called NM", "ground position shown less the true one, northward", func(s *sim.Snapshot) float64 { return s.Error.Ground.North }),
		column("ground_error_east_nm", "minute called NM", "the same, eastward", func(s *sim.Snapshot) float64 { return s.Error.Ground.East }),
		column("ground_error_m", "m", "its length, at 1852 m to a minute", func(s *sim.Snapshot) float64 { return s.Error.Ground.NM() * nm }),
		column("air_error_north_nm", "minute called NM", "air position shown less the true one, northward", func(s *sim.Snapshot) float64 { return s.Error.Air.North }),
		column("air_error_east_nm", "minute called NM", "the same, eastward", func(s *sim.Snapshot) float64 { return s.Error.Air.East }),
	}
}

package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"time"

	"stillair/sim"
)

// moment is the JSON of `reckon fly --json`: the last tick.
type moment struct {
	ElapsedS float64      `json:"elapsed_s"`
	Tick     int64        `json:"tick"`
	Hash     string       `json:"hash"`
	Truth    truthMoment  `json:"truth"`
	Sensed   sensedMoment `json:"sensed"`
	Shown    shownMoment  `json:"shown"`
	Error    errorMoment  `json:"error"`
}

type truthMoment struct {
	LatDeg             float64 `json:"lat_deg"`
	LonDeg             float64 `json:"lon_deg"`
	AirLatDeg          float64 `json:"air_lat_deg"`
	AirLonDeg          float64 `json:"air_lon_deg"`
	HeadingTrueDeg     float64 `json:"heading_true_deg"`
	TASKt              float64 `json:"tas_kt"`
	TrackTrueDeg       float64 `json:"track_true_deg"`
	GroundspeedKt      float64 `json:"groundspeed_kt"`
	WindFromDegTrue    float64 `json:"wind_from_deg_true"`
	WindKt             float64 `json:"wind_kt"`
	PressureAltitudeFt float64 `json:"pressure_altitude_ft"`
	VariationDeg       float64 `json:"variation_deg"`
}

type sensedMoment struct {
	PitotPa            float64 `json:"pitot_pa"`
	StaticPa           float64 `json:"static_pa"`
	AirTemperatureC    float64 `json:"air_temperature_c"`
	HeadingMagneticDeg float64 `json:"heading_magnetic_deg"`
}

type shownMoment struct {
	NorthingNM      float64 `json:"northing_nm"`
	EastingNM       float64 `json:"easting_nm"`
	AirLatDeg       float64 `json:"air_lat_deg"`
	AirLonDeg       float64 `json:"air_lon_deg"`
	GroundLatDeg    float64 `json:"ground_lat_deg"`
	GroundLonDeg    float64 `json:"ground_lon_deg"`
	MarkerLatDeg    float64 `json:"marker_lat_deg"`
	MarkerLonDeg    float64 `json:"marker_lon_deg"`
	AirDistanceNM   float64 `json:"air_distance_nm"`
	HeadingTrueDeg  float64 `json:"heading_true_deg"`
	TASKt           float64 `json:"tas_kt"`
	WindFromDegTrue float64 `json:"wind_from_deg_true"`
	WindKt          float64 `json:"wind_kt"`
	VariationDeg    float64 `json:"variation_deg"`
}

type errorMoment struct {
	AirNM    float64 `json:"air_nm"`
	GroundNM float64 `json:"ground_nm"`
}

func momentOf(e *sim.Engine) moment {
	s := e.Snapshot()
	t, sh := &s.Truth, &s.Shown
	return moment{
		ElapsedS: float64(s.Tick) / sim.TicksPerSecond,
		Tick:     s.Tick,
		Hash:     fmt.Sprintf("%016x", e.Hash()),
		Truth: truthMoment{
			t.Position.Lat.Degrees(), t.Position.Lon.Degrees(), t.Air.Lat.Degrees(), t.Air.Lon.Degrees(),
			t.Heading.Degrees(), t.TAS.Knots(), t.Track.Degrees(), t.Groundspeed.Knots(),
			t.Wind.From.Degrees(), t.Wind.Speed.Knots(), t.Height.Feet(), t.Variation.Degrees(),
		},
		Sensed: sensedMoment{
			s.Sensed.Pitot.Pascals(), s.Sensed.Static.Pascals(), s.Sensed.Temperature.Celsius(),
			s.Sensed.Heading.Degrees(),
		},
		Shown: shownMoment{
			sh.North.NM(), sh.East.NM(), sh.Air.Lat.Degrees(), sh.Air.Lon.Degrees(),
			sh.Ground.Lat.Degrees(), sh.Ground.Lon.Degrees(), sh.Marker.Lat.Degrees(), sh.Marker.Lon.Degrees(),
			sh.AirMiles.NM(), sh.Heading.Degrees(), sh.TAS.Knots(),
			sh.Wind.From.Degrees(), sh.Wind.Speed.Knots(), sh.Variation.Degrees(),
		},
		Error: errorMoment{s.Error.Air.NM(), s.Error.Ground.NM()},
	}
}

func writeJSON(w io.Writer, e *sim.Engine) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(momentOf(e))
}

// minuteColumns are the columns of `reckon fly --csv`.
var minuteColumns = []string{
	"elapsed_s", "utc",
	"shown_air_lat_deg", "shown_air_lon_deg", "shown_ground_lat_deg", "shown_ground_lon_deg",
	"shown_air_distance_nm", "shown_heading_true_deg", "shown_tas_kt", "shown_wind_from_deg_true",
	"shown_wind_kt", "shown_variation_deg", "pressure_altitude_ft", "air_temperature_c",
	"true_lat_deg", "true_lon_deg", "true_air_lat_deg", "true_air_lon_deg", "true_heading_deg",
	"true_tas_kt", "true_track_deg", "true_groundspeed_kt", "true_wind_from_deg_true", "true_wind_kt",
	"true_variation_deg", "air_error_nm", "ground_error_nm",
}

// writeMinutes flies to a tick and writes a row at the start, at each minute
// and at the end.
func writeMinutes(w io.Writer, e *sim.Engine, last int64) error {
	const minute = 60 * sim.TicksPerSecond
	out := csv.NewWriter(w)
	if err := out.Write(minuteColumns); err != nil {
		return err
	}
	for {
		if err := out.Write(minuteRow(e)); err != nil {
			return err
		}
		if e.Over() || e.Tick() >= last {
			out.Flush()
			return out.Error()
		}
		e.Advance(min(last, (e.Tick()/minute+1)*minute) - e.Tick())
	}
}

func minuteRow(e *sim.Engine) []string {
	m := momentOf(e)
	t, s := &m.Truth, &m.Shown
	row := []string{
		strconv.FormatFloat(m.ElapsedS, 'f', -1, 64),
		e.Plan().Start.Add(sim.TimeOf(m.Tick)).UTC().Format(time.RFC3339Nano),
	}
	for _, x := range []float64{
		s.AirLatDeg, s.AirLonDeg, s.GroundLatDeg, s.GroundLonDeg,
		s.AirDistanceNM, s.HeadingTrueDeg, s.TASKt, s.WindFromDegTrue,
		s.WindKt, s.VariationDeg, t.PressureAltitudeFt, m.Sensed.AirTemperatureC,
		t.LatDeg, t.LonDeg, t.AirLatDeg, t.AirLonDeg, t.HeadingTrueDeg,
		t.TASKt, t.TrackTrueDeg, t.GroundspeedKt, t.WindFromDegTrue, t.WindKt,
		t.VariationDeg, m.Error.AirNM, m.Error.GroundNM,
	} {
		row = append(row, strconv.FormatFloat(x, 'f', -1, 64))
	}
	return row
}

// Package scenarios reads flights and waters.
//
// A flight is a TOML file that says who flies where in what weather, what the
// crew has set and does, and what breaks. Load compiles it into a sim.Plan, or
// says everything that is wrong with it at once, each problem with its file,
// line, key, value and what would be right:
//
//	round.toml:14: leg[2].heading_true_deg = 400: must be 0 to 360
//
// Entries of [[...]] are counted from 1. example.toml beside this file shows
// every key once, with comments; the shipped flights in flights/ are models.
//
// # Rules for the whole file
//
//   - An unknown or doubled key or table is an error.
//   - An integer will do for any number; a number with a point will not do for
//     an integer. NaN and infinities are refused.
//   - Durations and flight times are strings as Go writes them: "1h30m",
//     "90s". They round up to the tick of 1/16 s. None is longer than 48h.
//   - Positions are "47 10.0 S 178 30.0 E" (whole degrees and minutes, or
//     degrees alone; latitude first) or [latitude, longitude] in degrees,
//     N and E positive, -90 to 90 and -180 to 180.
//   - Directions are 0 to 360, true unless the key says otherwise; 360 is 0.
//     A wind's direction is where it comes FROM.
//   - Limits: 4 MB, 2000 entries of any [[...]], a flight of 48 h, tables and
//     arrays 16 deep, titles and summaries of 200
//     characters.
//
// # Before the first table
//
//	schema   integer, required: 1
//	title    string, required: one line
//	summary  string: what the flight shows, in one sentence of one line
//	start    time with offset, required: 1900-01-01T00:00:00Z to
//	         2030-01-01T00:00:00Z
//	seed     integer >= 0, required: what chance is drawn from
//	waters   string: "tern-islands"; gives the chart and the places for to
//	pilot    "steady" (default): holds the heading that the repeater shows, the
//	         planned true airspeed and height; "by-instruments": holds speed
//	         and height by the dials too; "as-planned": holds all exactly
//
// # [aircraft], required: the state at the start
//
//	position              required
//	heading_true_deg      required, 0 to 360
//	pressure_altitude_ft  required, -1000 to 40000
//	cas_kt or tas_kt      one required, 40 to 450, below the speed of sound
//
// # [[leg]], at least one: flown in order
//
//	heading_true_deg, heading_magnetic_deg, heading_compass_deg,
//	track_true_deg, to    exactly one; to is a place of the waters or a position
//	duration              above 0
//	distance_nm           air miles, above 0; exactly one of the two, but neither
//	                      with to, which ends at the place
//	cas_kt or tas_kt      a new speed, kept on later legs
//	pressure_altitude_ft  a new height, kept on later legs
//	climb_ft_min          50 to 6000, default 500, up or down; a leg that orders
//	                      neither height nor rate goes on at the last rate
//	turn_rate_deg_s       0 to 30, default 3 on every leg; 0 turns at once
//
// The 48 h are checked with an estimate for legs by distance or to a place:
// ordered true airspeed, no wind.
//
// # [field]: instead of the earth's own (IGRF-14)
//
//	variation_deg         required, -180 to 180, E positive: the same everywhere
//
// # [air]: absent, standard and calm
//
//	isa_deviation_c       -60 to 60, default 0
//	qnh_hpa               850 to 1085, default 1013.25
//
// [[air.wind]]: any number; no two for the same height and time
//
//	from_deg_true         required, 0 to 360
//	speed_kt              required, 0 to 250
//	base_ft               -1000 to 40000: linear in height (as vectors) between
//	                      such levels; absent: at all heights, and then no other
//	                      wind may overlap in time
//	from, until           flight time, default from the start, to the end; time
//	                      without a wind is calm
//
// [[air.cloud]]: any number: a closed layer of cloud below, which hides sea and land
//
//	from, until           flight time, default from the start, to the end
//
// # [mechanism]: absent, an ideal one
//
//	class                 "ideal" (default: no imperfection, no limit of the
//	                      secant gear) or "service" (the values below)
//	ground                "running" (default: wind shafts sum what was set) or
//	                      "plotted" (air position + present wind x time)
//	counters              "auto" (default: E/W letter drum), "east360" or "lever"
//
// and single values, in either class (the figure is that of the service class):
//
//	line_lag_s            0.3     0 to 30
//	tas_scale             0.005   -0.3 to 0.3
//	threshold_kt          60      0 to 150
//	regulator_ripple      0.01    0 to 0.3
//	temperature_source    "bulb"  or "standard" or "hand-set"
//	train_play_nm         0.05    0 to 3
//	deviation_b_deg       1       -15 to 15
//	deviation_c_deg       -0.5    -15 to 15
//	slaving_deg_min       2       0.1 to 60
//	slaving_dead_band_deg 0.5     0 to 5
//	repeater_step_deg     0.5     0 to 5
//	repeater_lag_s        0.3     0 to 30
//	secant_limit_deg      70      60 to 85
//
// # [setting]: what the crew has set at the start
//
//	variation_deg         -180 to 180, or "true-to-field" (default): the setter
//	                      follows the field at the true place throughout
//	wind_from_deg_true, wind_kt
//	                      0 to 360 and 0 to 250, both or neither; default calm
//	counters              "as-start" (default) or a position
//
// # [[crew]]: what the crew does by the clock
//
//	at                    required: flight time, from "0s"
//
// and exactly one of
//
//	set_variation_deg     -180 to 180 or "true-to-field"
//	set_wind              { from_deg_true = 0 to 360, speed_kt = 0 to 250 }
//	set_counters          a position: air and ground counters, and the marker
//	alternate_static      true or false
//	resynchronise         true: the repeater is brought into step with the master
//	throw_lever           "E" or "W"; only with mechanism.counters = "lever"
//	take                  a reading through an aid: "drift", "sextant BODY", "loop
//	                      BEACON", "pulse STATION" (against the master, the first
//	                      chain station of the waters), "heading BODY", "pinpoint
//	                      PLACE"; with error, that of the hand, +-: 30 degrees (drift,
//	                      loop, heading), 120 minutes (sextant), 100 us (pulse), 20 NM
//	                      to the north (pinpoint); absent: none
//	timed                 with take = "drift": true has something on the sea timed
//	                      between the wires of the drift sight, 20 degrees ahead and
//	                      20 astern, too; with the pressure altitude that gives the
//	                      groundspeed. With timing_error_s, that of the hand, +-60
//	                      seconds
//
// # [aids]: what is wrong with the navigator's aids
//
//	out_of_order          a list of them: "drift", "sextant", "loop", "pulse",
//	                      "heading", "pinpoint"
//	drift_error_deg, loop_error_deg, heading_error_deg
//	                      -30 to 30, added to what the aid shows
//	sextant_error_min     -120 to 120
//	pulse_error_us        -100 to 100
//	timing_error_percent  -30 to 30: the sea seems to run so much faster under the
//	                      timing wires of the drift sight
//
// # [[fault]]: what breaks, is set wrong or was built so
//
//	id                    required: of the catalogue (package sim/fault); what
//	                      is only an explanation there is refused, and
//	                      wind-clock-not-reset needs mechanism.ground = "plotted"
//	at                    required: flight time of the onset, from "0s"
//	for                   how long; absent: to the end
//	shape                 "step" (default, for every fault), "ramp" (with ramp,
//	                      the time it takes) or "intermittent" (with on and off);
//	                      as the catalogue allows
//
// and the fault's parameters, each with the default and range of the catalogue.
//
// # [[lesson]]: guided steps, taken in the order of the file
//
//	title                 required: one line of at most 48 characters
//	text                  required: at most 420 characters; an empty line parts
//	                      paragraphs, other line ends do not count
//	light                 what to look at, 1 to 6 of: the links pitot, static,
//	                      capsules, air-log, air-log-counter, drive, compass,
//	                      deviation, variation-setter, repeater, resolver,
//	                      north-disc, east-disc, latitude-counter, secant-gear,
//	                      longitude-counter, clock, wind-setter, adders,
//	                      ground-secant-gear, ground-counters, marker; on the Chart
//	                      table chart, air-counters, heading, airspeed, dials,
//	                      time-strip, reveal, and those of the links that it has;
//	                      in the Navigator aids
//	view                  "table", "linkage", "both" or "navigator" (the chart with the
//	                      aids beside it); absent: the one that is open
//
// What the engine does as the step begins:
//
//	go_to                 flight time, from "0s"; what was done in flight from then
//	                      on is taken back
//	run                   true, or the flight time at which the clock stops again
//	stop                  true; not with run. Neither: the clock does what it did
//	rate                  0.25, 1, 2, 5, 10, 30, 60, 120 or 240
//	reveal                true or false: the truth
//
// What the learner does:
//
//	do                    at most 160 characters; wants until
//	until                 a table with exactly one of these, each with what stands
//	                      behind it (the value of within_... if it is absent):
//	  variation_deg       -180 to 180; within_deg (1): the variation setter
//	  wind_from_deg_true  0 to 360; wind_kt 0 to 250, required; within_deg (10),
//	                      within_kt (5): the wind setter
//	  counters            a position; within_nm (1): the counters have been set there
//	  fault               id of the catalogue; among: 2 to 4 ids, it among them: it
//	                      has been named
//	  link                a link: its card has been opened in the Linkage
//	  time                flight time, later than go_to
//	  reading             an aid and what it is pointed at, or the aid alone
//	  answer              "any" or "right": the question has been answered
//	  revealed            true: the truth is to be seen
//	  mended              id of the catalogue
//	  alternate_static    true: it has been opened
//	  hand_heading_deg_true, hand_latitude_deg, hand_speed_kt
//	                      0 to 360, -89 to 89, 0 to 600; within_deg (1), within_kt (5):
//	                      resolver, secant gear (N or S) or air log is held there
//	                      by hand
//	within_...            above 0, up to 90 degrees, 50 kt, 60 NM
//	hint                  at most 120 characters
//	hint_after            "0s" to "10m" on the wall clock, default "30s"
//	note                  what the lecturer is reminded of, in the notes alone: at most
//	                      420 characters
//	question, answers, right, why
//	                      all or none: at most 140 characters; 2 to 4 answers of at
//	                      most 36; the number of the right one, from 1; at most 200
//	predict               { at = flight time }: pins are put on the chart, and held
//	                      against the truth at that time; not with until
//
// # [[moment]]: named times to go to, with the digit keys
//
//	at                    required: flight time, from "0s"; each later than the
//	                      one before it
//	name                  required: one line of at most 60 characters
//
// There are 9 at most.
//
// # [spread]: how widely errors are drawn when the flight is flown many times
//
//	preset                "well-kept", "ordinary" or "neglected": the law that the
//	                      figures below change; absent: what is not given is not
//	                      drawn
//
// and standard deviations, 0 and up, of errors constant in each flight but for
// the wander:
//
//	wind_kt               to 60: wind met from the wind of the flight, each
//	                      component
//	wander_kt             to 60: the same, changing on the way
//	wander_time           1m to 48h, wanted with wander_kt: the time after which
//	                      the wander keeps 1/e of what it was
//	compass_deg           to 10: deviation not known
//	variation_deg         to 10: variation set against the field
//	repeater_deg          to 10: heading transmission
//	resolver_deg          to 10: crank of the resolver
//	position_error        to 0.1: static vents, part of the impact pressure
//	thermometer_c         to 30
//	air_log_scale         to 0.1: part of the speed
//	drive_ratio           to 0.1: part of the miles
//	start_nm              to 60: position set at the start, each component
//
// # [exercise]: what is asked of a trainee who does not know the faults
//
//	task                  required: what the trainee is told, at most 420 characters
//	finds                 required: what there is to be found, told after landing, at
//	                      most 420 characters
//	level                 1 to 9, the hardest; absent: not graded
//	report_within         from the onset of a fault, whole marks; default "10m"
//	hold_nm               0.1 to 60, how far off the position may be; default 5
//	log_every             how often something must be written; default "10m"
//	marks                 how a hundred marks are shared out: report, link, fault,
//	                      position, log, each 0 to 100; default 25, 15, 20, 25, 15
//	sealed                a seed, a whole number, 0 or above: the faults are drawn by
//	                      it, and nobody knows them before landing; task and finds
//	                      may then be left out, and [[fault]] and [[lesson]] must be
//	                      absent
//
// # A cue file: what a film shows when
//
// LoadCues reads it, beside a flight or a record; it is a file of its own, by the same
// rules. example-cues.toml beside this file shows every key.
//
//	length                how long the film is, above 0s, up to 12h; absent: until
//	                      the flight ends; required if the last cue stands still
//
// and [[cue]], in the order of their times:
//
//	at                    required: film time, from "0s", to the nanosecond; each
//	                      later than the one before it
//	flight                flight time that is shown from then on
//	speed                 0 to 3600 seconds of flight in a second of film; 0 stands
//	                      still. A cue without a speed, before one with a flight
//	                      time, runs so as to be there when that one begins
//	view                  "chart", "linkage", "both" or "counters"
//	link                  a link, by the names of [[lesson]]: the view is framed on
//	                      it; only in linkage and both. "" ends it
//	caption               one line of at most 200 characters. "" ends it
//
// What a cue does not say stays as it was; before the first it is as the command line
// says.
package scenarios

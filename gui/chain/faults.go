package chain

import (
	"stillair/gui/look"
	"stillair/gui/picture"
	"stillair/sim"
	"stillair/sim/fault"
)

// place is where an entry of the catalogue shows in the mechanism, and what it
// is called on a flag.
type place struct {
	at   picture.Link
	east picture.Link // where its axis is that of east or longitude; 0: none
	low  picture.Link // where it is in the trains of the ground position; 0: none
	flag look.Key
	// excused are links that pass a wrong value on but are in order: what is
	// wrong belongs to the link at.
	excused []picture.Link
	once    bool // it puts a counter wrong once: in force while that stands
}

// places holds every entry of the catalogue, also those that explain and cannot
// be given.
var places = map[string]place{
	"pitot-ram-blocked":            {at: picture.LinkPitot, flag: look.FlagRamBlocked},
	"pitot-and-drain-blocked":      {at: picture.LinkPitot, flag: look.FlagPitotTrapped},
	"static-blocked":               {at: picture.LinkStatic, flag: look.FlagStaticBlocked},
	"static-leak":                  {at: picture.LinkStatic, flag: look.FlagStaticLeak},
	"pitot-leak":                   {at: picture.LinkPitot, flag: look.FlagPitotLeak},
	"position-error":               {at: picture.LinkStatic, flag: look.FlagPositionError},
	"capsule-lag":                  {at: picture.LinkCapsules, flag: look.FlagCapsuleLag, excused: []picture.Link{picture.LinkPitot, picture.LinkStatic}},
	"water-in-pitot-line":          {at: picture.LinkPitot, flag: look.FlagWaterSurge},
	"water-head-in-pitot-line":     {at: picture.LinkPitot, flag: look.FlagWaterHead},
	"density-standard-temperature": {at: picture.LinkAirLog, flag: look.FlagStandardTemperature},
	"temperature-mis-set":          {at: picture.LinkAirLog, flag: look.FlagTemperature},
	"temperature-ram-rise":         {at: picture.LinkAirLog, flag: look.FlagRamRise},
	"compressibility-neglected":    {at: picture.LinkAirLog, flag: look.FlagIncompressible},
	"tas-scale":                    {at: picture.LinkAirLog, flag: look.FlagScale},
	"low-speed-threshold":          {at: picture.LinkAirLog, flag: look.FlagThreshold},
	"regulator-ripple":             {at: picture.LinkAirLog, flag: look.FlagRipple},
	"air-log-frozen":               {at: picture.LinkAirLog, flag: look.FlagFrozen},
	"drive-slip":                   {at: picture.LinkDrive, flag: look.FlagSlip},
	"drive-broken":                 {at: picture.LinkDrive, flag: look.FlagParted},
	"wrong-gear-ratio":             {at: picture.LinkDrive, flag: look.FlagRatio},
	"backlash":                     {at: picture.LinkNorthDisc, flag: look.FlagPlay},

	"compass-deviation":           {at: picture.LinkDeviation, flag: look.FlagDeviation, excused: []picture.Link{picture.LinkCompass}},
	"variation-mis-set":           {at: picture.LinkVariation, flag: look.FlagVariation},
	"variation-wrong-sign":        {at: picture.LinkVariation, flag: look.FlagVariation},
	"variation-left-at-old-value": {at: picture.LinkVariation, flag: look.FlagVariation},
	"gyro-drift-unslaved":         {at: picture.LinkCompass, flag: look.FlagGyroFree},
	"slaving-hang-off":            {at: picture.LinkCompass, flag: look.FlagHangOff},
	"turning-error":               {at: picture.LinkCompass, flag: look.FlagTurning},
	"repeater-lost-steps":         {at: picture.LinkRepeater, flag: look.FlagLostSteps},
	"repeater-stuck":              {at: picture.LinkRepeater, flag: look.FlagStuck},
	"repeater-lag":                {at: picture.LinkRepeater, flag: look.FlagLag},
	"resolver-zero-off":           {at: picture.LinkResolver, flag: look.FlagZero},
	"resolver-gain-mismatch":      {at: picture.LinkResolver, flag: look.FlagGains},
	"resolver-not-orthogonal":     {at: picture.LinkResolver, flag: look.FlagSkew},
	"quadrant-error":              {at: picture.LinkResolver, flag: look.FlagQuadrant},
	"resolver-stiction":           {at: picture.LinkResolver, flag: look.FlagStiction},
	"disc-centre-offset":          {at: picture.LinkNorthDisc, east: picture.LinkEastDisc, flag: look.FlagCentre, excused: []picture.Link{picture.LinkResolver}},
	"disc-slip":                   {at: picture.LinkNorthDisc, east: picture.LinkEastDisc, flag: look.FlagDiscSlip},

	"secant-gear-held":         {at: picture.LinkSecant, low: picture.LinkGroundSecant, flag: look.FlagGearHeld},
	"secant-gear-at-limit":     {at: picture.LinkSecant, low: picture.LinkGroundSecant, flag: look.FlagGearLimit},
	"latitude-coupling":        {at: picture.LinkSecant, flag: look.FlagCoupling},
	"earth-model":              {at: picture.LinkLatitude, flag: look.FlagSphere},
	"latitude-drum-jam":        {at: picture.LinkLatitude, low: picture.LinkGround, flag: look.FlagLatitudeJam},
	"longitude-drum-jam":       {at: picture.LinkLongitude, low: picture.LinkGround, flag: look.FlagLongitudeJam},
	"carry-failure":            {at: picture.LinkLatitude, east: picture.LinkLongitude, low: picture.LinkGround, flag: look.FlagCarry, once: true},
	"counter-mis-set":          {at: picture.LinkLatitude, east: picture.LinkLongitude, low: picture.LinkGround, flag: look.FlagMisSet, once: true},
	"latitude-sense-reversed":  {at: picture.LinkLatitude, low: picture.LinkGround, flag: look.FlagLatitudeSense},
	"longitude-sense-reversed": {at: picture.LinkLongitude, low: picture.LinkGround, flag: look.FlagLongitudeSense},

	"wind-direction-reversed":    {at: picture.LinkWind, flag: look.FlagWind},
	"wind-direction-mis-set":     {at: picture.LinkWind, flag: look.FlagWind},
	"wind-speed-mis-set":         {at: picture.LinkWind, flag: look.FlagWind},
	"wind-clock-late":            {at: picture.LinkClock, flag: look.FlagClockLate},
	"wind-clock-not-reset":       {at: picture.LinkClock, flag: look.FlagClockOld},
	"wind-changed-without-reset": {at: picture.LinkWind, flag: look.FlagWindUnset},
	"wind-changes-with-time":     {at: picture.LinkWind, flag: look.FlagWind},
	"wind-changes-with-place":    {at: picture.LinkWind, flag: look.FlagWind},
	"wind-changes-with-height":   {at: picture.LinkWind, flag: look.FlagWind},
	"clock-rate-wrong":           {at: picture.LinkClock, flag: look.FlagClockRate},
	"air-plot-method":            {at: picture.LinkGround, flag: look.FlagMethod},
	"marker-origin-mis-set":      {at: picture.LinkMarker, flag: look.FlagMarkerPut},
	"chart-scale-wrong":          {at: picture.LinkMarker, flag: look.FlagMarkerScale},
	"mercator-scale-fixed":       {at: picture.LinkMarker, flag: look.FlagMarkerFixed},

	"reset-applied-late": {at: picture.LinkLatitude, flag: look.FlagSetLate, once: true},
	"fix-time-wrong":     {at: picture.LinkLatitude, flag: look.FlagFixTime, once: true},
	"reset-to-wrong-fix": {at: picture.LinkLatitude, flag: look.FlagWrongFix, once: true},
}

// param is a parameter of an order by its name; ok is false without it.
func param(o *fault.Order, name string) (x float64, ok bool) {
	entry, known := fault.Lookup(o.ID)
	if !known {
		return 0, false
	}
	for i := range entry.Params {
		if entry.Params[i].Name == name && i < len(o.Params) {
			return o.Params[i], true
		}
	}
	return 0, false
}

// linksOf are the links at which an order is seen.
func linksOf(o *fault.Order) (at []picture.Link) {
	p, ok := places[o.ID]
	if !ok {
		return nil
	}
	const ground, both = 1, 2 // choices of the parameter train
	train, _ := param(o, "train")
	if train != ground || p.low == 0 {
		at = append(at, p.axes(o)...)
	}
	if train == ground || train == both {
		at = append(at, p.low)
	}
	return at
}

// axes are the links of the axis or axes that an order names.
func (p *place) axes(o *fault.Order) []picture.Link {
	if p.east == 0 {
		return []picture.Link{p.at}
	}
	if axis, named := param(o, "axis"); named {
		if axis == 0 {
			return []picture.Link{p.at}
		}
		return []picture.Link{p.east}
	}
	north, _ := param(o, "north_centre")
	east, _ := param(o, "east_centre")
	switch {
	case east == 0:
		return []picture.Link{p.at}
	case north == 0:
		return []picture.Link{p.east}
	}
	return []picture.Link{p.at, p.east}
}

// inForce are the faults that act now, by the links at which they are seen, and
// the links that are in order whatever they pass on. The trace of a fault that
// ends at this very tick, as one mended while the clock stands, goes with the
// next: till then its links are not held against their laws.
func (s *Story) inForce() (at map[picture.Link]*fault.Order, excused map[picture.Link]bool) {
	at, excused = map[picture.Link]*fault.Order{}, map[picture.Link]bool{}
	for i := range s.Faults {
		f := &s.Faults[i]
		justOver := f.Stands > sim.FaultInForce && s.View != nil && f.Ends == s.View.Tick
		if f.Stands != sim.FaultInForce && !justOver {
			continue
		}
		for _, of := range linksOf(&f.Order) {
			if justOver {
				excused[of] = true
			} else if at[of] == nil {
				at[of] = &f.Order
			}
		}
		for _, of := range places[f.Order.ID].excused {
			excused[of] = true
		}
	}
	return at, excused
}

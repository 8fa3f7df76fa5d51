package papers

import (
	"math"
	"strconv"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// PlanPage is one sheet of a flight plan.
type PlanPage struct {
	Line       string
	Head       []blank
	Form       form
	Rows       [][]string
	Note       string
	Number, Of int
}

var planForm = form{rowH: 8, size: 3.1, cols: []column{
	{look.PaperToGroup, look.PaperPoint, "", 24, true, false},
	{look.PaperToGroup, look.PaperLatitude, "", 19.5, false, false},
	{look.PaperToGroup, look.PaperLongitude, "", 21.5, false, true},
	{look.PaperToGroup, look.PaperHeight, look.PaperUnitFt, 13, false, false},
	{look.PaperRequiredGroup, look.PaperTrack, look.PaperUnitT, 11, false, false},
	{look.PaperRequiredGroup, look.PaperDistance, look.PaperUnitNM, 14, false, false},
	{look.PaperForecastGroup, look.PaperWind, look.PaperUnitWind, 15, false, false},
	{look.PaperForecastGroup, look.PaperTAS, look.PaperUnitKt, 10.5, false, false},
	{look.PaperForecastGroup, look.PaperDrift, "", 10.5, false, false},
	{look.PaperHeadingGroup, look.PaperTrue, look.PaperUnitT, 11, false, false},
	{look.PaperHeadingGroup, look.PaperVar, "", 11, false, false},
	{look.PaperHeadingGroup, look.PaperMagnetic, look.PaperUnitM, 11, false, false},
	{look.PaperTimeGroup, look.PaperGS, look.PaperUnitKt, 10.5, false, false},
	{look.PaperTimeGroup, look.PaperTime, look.PaperUnitMin, 10.5, false, false},
	{look.PaperTimeGroup, look.PaperETA, look.PaperUnitZ, 13, false, false},
	{look.PaperFlownGroup, look.PaperATA, look.PaperUnitZ, 15, false, false},
	{look.PaperFlownGroup, look.PaperGS, look.PaperUnitKt, 14, false, false},
	{look.PaperFlownGroup, look.PaperRemarks, "", 0, true, false},
}}

// plannedRow is a leg worked for the plan.
type plannedRow struct {
	point             string
	leg               atlas.PlannedLeg
	track             units.Angle
	distance          units.Length
	tas, groundspeed  units.Speed
	heading           units.TrueHeading
	variation         *units.Variation
	tenths, from, eta int // distance as printed; minutes since the start as printed
}

// planRows works the legs: track and distance by rhumb line from turning point
// to turning point, heading and time by the wind of the forecast, which is the
// one set at the start.
func planRows(p *sim.Plan) ([]plannedRow, error) {
	at, _ := variationOf(p)
	var out []plannedRow
	elapsed := 0.0 // minutes
	for i, leg := range atlas.Planned(p) {
		r := plannedRow{point: leg.Letter, leg: leg}
		if p.Legs[i].Steer == sim.ToPlace {
			r.point = leg.Letter + " " + p.Legs[i].Place
		}
		r.track, r.distance = geodesy.RhumbInverse(leg.From, leg.To)
		_, air := geodesy.RhumbInverse(leg.AirFrom, leg.AirTo)
		r.tas = units.Speed(air.Metres() / (leg.Ends - leg.Begins).Seconds())
		var err error
		if r.heading, r.groundspeed, err = airplot.HeadingFor(r.track, r.tas, p.Setting.Wind); err != nil {
			return nil, err
		}
		if at != nil {
			v := at(middle(leg.From, leg.To))
			r.variation = &v
		}
		minutes := r.distance.Metres() / r.groundspeed.MetresPerSecond() / 60
		r.from = int(math.Round(elapsed))
		elapsed += minutes
		r.eta, r.tenths = int(math.Round(elapsed)), int(math.Round(r.distance.NM()*10))
		out = append(out, r)
	}
	return out, nil
}

// middle is the middle of a leg.
func middle(a, b units.Position) units.Position {
	course, length := geodesy.RhumbInverse(a, b)
	m, err := geodesy.RhumbDirect(a, course, length/2)
	if err != nil { // only beyond a pole
		return a
	}
	return m
}

func (r *plannedRow) cells(p *sim.Plan) []string {
	variation, magnetic := "", ""
	if r.variation != nil {
		variation = r.variation.String()
		magnetic = units.Degrees3(units.Angle(whole(units.Angle(r.heading)) - units.Angle(*r.variation)))
	}
	return []string{
		r.point, units.LatitudeText(r.leg.To.Lat), units.LongitudeText(r.leg.To.Lon), units.Figure(r.leg.Height.Feet(), 0),
		units.Degrees3(r.track), units.Figure(float64(r.tenths)/10, 1),
		p.Setting.Wind.String(), units.Figure(r.tas.Knots(), 0), aboard.DriftText(units.WrapHalf(whole(r.track)-whole(units.Angle(r.heading))), 0),
		units.Degrees3(units.Angle(r.heading)), variation, magnetic,
		units.Figure(r.groundspeed.Knots(), 0), strconv.Itoa(r.eta - r.from), clock4(p.Start.Add(time.Duration(r.eta) * time.Minute)),
	}
}

// whole is a direction as it is printed, so that printed sums hold.
func whole(a units.Angle) units.Angle { return units.Angle(math.Round(a.Degrees())) * units.Degree }

// total is the last line: the sums of what is printed.
func total(rows []plannedRow) []string {
	tenths := 0
	for i := range rows {
		tenths += rows[i].tenths
	}
	out := make([]string, len(planForm.cols))
	out[0], out[5], out[13] = look.Text(look.PaperTotal), units.Figure(float64(tenths)/10, 1), strconv.Itoa(rows[len(rows)-1].eta)
	return out
}

// Plan is the flight plan.
func Plan(p *sim.Plan, on Paper) ([]Page, error) {
	legs, err := planRows(p)
	if err != nil {
		return nil, err
	}
	from, to := ends(p)
	page := PlanPage{
		Line: flightLine(p), Form: planForm.stretched(on.W - 2*margin), Note: look.Text(look.PaperPlanNote),
		Head: []blank{
			{look.PaperNavigator, "", 44}, {look.PaperFrom, from, 34}, {look.PaperPosition, startOf(p).String(), 50}, {look.PaperDestination, to, 34},
			{look.PaperDeparture, units.TimeText(p.Start), 22}, {look.PaperForecastWind, p.Setting.Wind.String(), 26}, {look.PaperAircraft, "", 34},
		},
	}
	if len(legs) < len(p.Legs) {
		page.Note = look.Textf(look.PaperPlanBroken, len(legs)+1) + " " + page.Note
	}
	var rows [][]string
	for i := range legs {
		rows = append(rows, legs[i].cells(p))
	}
	if len(legs) > 0 {
		rows = append(rows, total(legs))
	}
	n := page.rows(on)
	page.Of = max(1, (len(rows)+n-1)/n)
	var pages []Page
	for i := range page.Of {
		page.Number, page.Rows = i, rows[min(i*n, len(rows)):min((i+1)*n, len(rows))]
		pages = append(pages, page)
	}
	return pages, nil
}

// startOf is where the crew know themselves to be at the start.
func startOf(p *sim.Plan) units.Position {
	if p.Setting.Counters != nil {
		return *p.Setting.Counters
	}
	return p.Aircraft.Position
}

// planTail is what stands under the form: the note, mm.
const planTail = 11.0

func (l *PlanPage) rows(on Paper) int {
	return l.Form.rowsIn(on.H - margin - 7.5 - planTail - logTop - blankHeight - 3)
}

func (l PlanPage) draw(d *draft) {
	width := d.paper.W - 2*margin
	d.head(look.Text(look.PaperPlanTitle), l.Line, join(look.Text(look.PaperPlanUnits), sheetOf(l.Number, l.Of)))
	d.blanks(margin, logTop, width, blankHeight, l.Head)
	y := d.form(margin, logTop+blankHeight+3, l.Form, l.rows(d.paper), l.Rows)
	d.foot()
	d.paragraph(margin, y+4, width, l.Note, look.Regular, small, d.c.Ink2)
}

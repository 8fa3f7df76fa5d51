package papers

import (
	"fmt"
	"math"
	"strings"
	"time"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/overlay"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/isa"
	"stillair/integrator/sight"
	"stillair/integrator/units"
	"stillair/sim"
	"stillair/sim/sky"
)

// StarsOrder is what is wanted of star curves.
type StarsOrder struct {
	SheetOrder                // of the sheet they are laid on
	At         *time.Duration // flight time; nil: every ten minutes of an hour
	Pair       [2]sky.Body    // none of them: the best one
}

// StarPage is an overlay of star curves, to be laid over a plotting sheet.
type StarPage struct {
	Sheet  Sheet // the one it is laid on
	Order  overlay.StarOrder
	Curves overlay.StarSheet
	Height units.Length // in whose air the altitudes are read
}

// The times of star curves.
const (
	starsEvery = 10 * time.Minute // between two overlays of an hour
	starsHour  = time.Hour
)

// starCell is the size of a cell on which curves are found, mm.
const starCell = 4.0

// Stars are overlays of star curves for a time of the flight, or for each ten
// minutes of the first hour of it in which stars are to be seen. It is refused by
// day, and where no pair of stars is up.
func Stars(p *sim.Plan, on Paper, o StarsOrder) ([]Page, error) {
	legs := atlas.Planned(p)
	if len(legs) == 0 {
		return nil, fmt.Errorf("stars: the first leg cannot be held with the wind set: there is no plan to lay curves on")
	}
	end := legs[len(legs)-1].Ends
	all, err := sheets(p, on, o.SheetOrder)
	if err != nil {
		return nil, err
	}
	if o.At != nil {
		if *o.At < 0 || *o.At > end {
			return nil, fmt.Errorf("at = %v: must be 0s to %v, the end of the plan", *o.At, end)
		}
		page, err := starPage(p, on, legs, all, *o.At, o)
		if err != nil {
			return nil, err
		}
		return []Page{page}, nil
	}
	return starHour(p, on, legs, all, o)
}

// starHour makes the overlays of the first hour with stars, all of one pair.
func starHour(p *sim.Plan, on Paper, legs []atlas.PlannedLeg, sheets []Sheet, o StarsOrder) (pages []Page, err error) {
	end := legs[len(legs)-1].Ends
	first := p.Start.Truncate(starsEvery).Sub(p.Start)
	if first < 0 {
		first += starsEvery
	}
	if first > end { // a flight between two such times
		first = 0
	}
	var why error
	var from time.Duration
	for at := first; at <= end && (len(pages) == 0 || at <= from+starsHour); at += starsEvery {
		page, err := starPage(p, on, legs, sheets, at, o)
		switch {
		case err != nil && len(pages) > 0: // they have set, or it has dawned
			return pages, nil
		case err != nil && why == nil:
			why = err
		case err == nil:
			if len(pages) == 0 {
				from, o.Pair = at, page.Order.Pair
			}
			pages = append(pages, page)
		}
	}
	if len(pages) == 0 {
		return nil, fmt.Errorf("%w; nor is there a pair at any other time of the flight, up to %s", why, units.TimeText(p.Start.Add(end)))
	}
	return pages, nil
}

// starPage makes one overlay.
func starPage(p *sim.Plan, on Paper, legs []atlas.PlannedLeg, sheets []Sheet, at time.Duration, o StarsOrder) (StarPage, error) {
	near, height := plannedAt(legs, at)
	if o.Centre != nil { // a sheet somewhere else is looked up from
		near = *o.Centre
	}
	pair := o.Pair
	page := StarPage{Sheet: nearestSheet(sheets, on, near), Height: height}
	c := page.Sheet.above(on, timeMarks)
	page.Order = overlay.StarOrder{
		Sky:    overlay.Sky{Time: p.Start.Add(at), Near: near, Thin: sight.ThinAir(isa.Pressure(height), isa.Temperature(height))},
		Window: c.window(starCell), Step: overlay.AltitudeStep(mm(c.merc.PaperLength(c.mid.Lat, units.NM)) / symbolScale), Pair: pair,
	}
	page.Curves = overlay.Stars(page.Order)
	when := units.TimeText(page.Order.Time) + " " + units.DateText(page.Order.Time)
	s := &page.Curves
	switch {
	case !s.Dark:
		return page, fmt.Errorf("stars: at %s near %v it is day, and no star is to be seen", when, near)
	case s.Pair.A.Body == 0 && len(s.Up) < 2:
		return page, fmt.Errorf("stars: at %s near %v there are %d stars high enough for a sight: curves take two", when, near, len(s.Up))
	case pair[0] != 0 && pair != [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body}:
		return page, fmt.Errorf("pair = %v, %v: not both of them are up at %s near %v; up are %s", pair[0], pair[1], when, near, names(s.Up))
	case s.Pair.A.Body == 0:
		return page, fmt.Errorf("stars: at %s near %v no two stars make a pair", when, near)
	}
	page.Order.Pair = [2]sky.Body{s.Pair.A.Body, s.Pair.B.Body}
	return page, nil
}

func names(up []sky.Sighted) string {
	all := make([]string, len(up))
	for i, b := range up {
		all[i] = b.Body.String()
	}
	return strings.Join(all, ", ")
}

// plannedAt is where the plan has the aircraft at a flight time, and how high it
// flies when that leg is over.
func plannedAt(legs []atlas.PlannedLeg, at time.Duration) (units.Position, units.Length) {
	leg := legs[len(legs)-1]
	for _, l := range legs {
		if at < l.Ends {
			leg = l
			break
		}
	}
	part := 1.0
	if leg.Ends > leg.Begins {
		part = math.Max(0, math.Min(1, float64(at-leg.Begins)/float64(leg.Ends-leg.Begins)))
	}
	course, length := geodesy.RhumbInverse(leg.From, leg.To)
	place, err := geodesy.RhumbDirect(leg.From, course, length*units.Length(part))
	if err != nil { // only beyond a pole
		place = leg.From
	}
	return place, leg.Height
}

// nearestSheet is the sheet in whose middle a place lies best.
func nearestSheet(sheets []Sheet, on Paper, at units.Position) Sheet {
	best, least := sheets[0], math.Inf(1)
	for _, s := range sheets {
		if d := s.chart(on).at(at).Dist(frameOf(on).Centre()); d < least {
			best, least = s, d
		}
	}
	return best
}

// above is the piece of the earth in the frame of a sheet but for a strip at its foot.
func (s *Sheet) above(on Paper, strip float64) chart {
	c := s.chart(on)
	box := c.box
	box.H -= strip
	mid := units.Position{Lat: c.position(box.Centre()).Lat, Lon: s.Centre.Lon}
	return newChart(box, mid, s.Latitude, s.Denominator)
}

// view is a piece of a sheet as the pictures of the chart have it, in pixels of
// symbolScale millimetres.
func (c chart) view() picture.View {
	const k = symbolScale
	return picture.View{Centre: c.mid, Scale: mm(c.merc.Degree()) / k, Box: paint.R(c.box.X/k, c.box.Y/k, c.box.W/k, c.box.H/k)}
}

// window is what lines are wanted for, on cells of so many millimetres.
func (c chart) window(cell float64) overlay.Window {
	south, north := c.position(paint.Pt(c.box.X, c.box.Bottom())).Lat, c.position(paint.Pt(c.box.X, c.box.Y)).Lat
	half := units.Angle(c.box.W/2/mm(c.merc.Degree())) * units.Degree
	return overlay.Window{
		South: max(south, -overlay.Steepest), North: min(north, overlay.Steepest),
		West: c.mid.Lon - half, East: c.mid.Lon + half,
		Columns: int(c.box.W / cell), Rows: int(c.box.H / cell),
	}
}

// timeMarks is the height of the strip with the marks of time, mm.
const timeMarks = 9.0

func (p StarPage) draw(d *draft) {
	c := p.Sheet.chart(d.paper)
	pair := p.Curves.Pair
	lay := look.Text(look.PaperStarsLay)
	if p.Sheet.Of > 1 {
		lay = look.Textf(look.PaperStarsLayOn, p.Sheet.Number+1, p.Sheet.Of)
	}
	d.head(look.Textf(look.PaperStarsTitle, units.TimeText(p.Order.Time), pair.A.Body, pair.B.Body),
		join(p.Sheet.scaleText(), lay), join(units.DateText(p.Order.Time), p.Sheet.Title))
	d.registers(c)
	d.gridLabels(c)
	o := atlas.StarOverlay(p.Order, &p.Curves)
	o.PlateAll = true
	d.overlay(p.Sheet.above(d.paper, timeMarks), o)
	mark := d.times(c, p.Order.Time)
	d.box(c.box, heavy, d.c.Ink)
	d.foot()
	d.checkBar(c.box.X, c.box.Bottom()+10.2, p.Sheet.barText())
	d.starKey(c, p, mark)
}

// overlay draws curves as they are drawn on the screen.
func (d *draft) overlay(c chart, o *picture.Overlay) {
	d.PushClip(c.box)
	picture.DrawOverlay(picture.NewBrush(paint.NewScaled(d.Surface, symbolScale), &d.c, look.Size{Part: 1, Device: 1}), c.view(), o, nil)
	d.PopClip()
}

// registers marks the crossings of the lines each 30 minutes, and draws the edges of
// the graticule.
func (d *draft) registers(c chart) {
	const arm = 2.5
	foot := c.box.Bottom() - timeMarks
	for _, m := range c.meridians(gridStep) {
		d.line(m.at, c.box.Y, m.at, c.box.Y+1.5, hair, d.c.Ink)
		if m.minutes%heavyStep != 0 {
			continue
		}
		for _, l := range c.parallels(heavyStep) {
			if l.at < foot-arm {
				d.line(m.at-arm, l.at, m.at+arm, l.at, thin, d.c.Ink2)
				d.line(m.at, l.at-arm, m.at, l.at+arm, thin, d.c.Ink2)
			}
		}
	}
	for _, l := range c.parallels(gridStep) {
		if l.at < foot {
			d.line(c.box.X, l.at, c.box.X+1.5, l.at, hair, d.c.Ink)
			d.line(c.box.Right()-1.5, l.at, c.box.Right(), l.at, hair, d.c.Ink)
		}
	}
}

// times draws the marks of time along the foot of the frame, a minute apart, with
// smaller ones each ten seconds, about the meridian in the middle, and gives that
// meridian. Later ones stand to the east: when a mark is laid on the meridian, the
// curves have gone west by as much as the sky has turned.
func (d *draft) times(c chart, at time.Time) units.Angle {
	y := c.box.Bottom() - timeMarks
	d.line(c.box.X, y, c.box.Right(), y, line, d.c.Ink)
	minutes := int(math.Round(c.mid.Lon.Minutes()/gridStep)) * gridStep
	meridian := units.WrapHalf(units.Angle(minutes) * units.ArcMinute)
	x := c.at(units.Position{Lat: c.mid.Lat, Lon: meridian}).X
	minute := overlay.Turning(time.Minute).Degrees() * mm(c.merc.Degree())
	second := int(at.Unix() % 60)
	every := 1 // minutes from label to label
	if minute < 1.3*look.Engraved.Font().Width("0000Z", note) {
		every = 2
	}
	most := int(c.box.W / minute * 6)
	for n := -most; n <= most; n++ { // ten seconds
		s := 10*n - second%10
		tick := x + float64(s)/60*minute
		if tick < c.box.X+1 || tick > c.box.Right()-1 {
			continue
		}
		long, width := 1.2, hair
		if when := at.Add(time.Duration(s) * time.Second); when.Second() == 0 {
			long, width = 3.4, line
			if text := units.TimeText(when); when.Minute()%every == 0 && standsIn(c.box, tick, text) {
				d.write(tick, y+6.8, text, look.Engraved, note, paint.Middle, d.c.Ink)
			}
		}
		d.line(tick, y, tick, y+long, width, d.c.Ink)
	}
	d.Fill(d.path.Reset().Polygon(paint.Pt(x, y), paint.Pt(x-1.3, y-2.4), paint.Pt(x+1.3, y-2.4)), d.c.Ink)
	return meridian
}

// standsIn says whether words about a place stand in a frame.
func standsIn(box paint.Rect, x float64, words string) bool {
	half := look.Engraved.Font().Width(words, note)/2 + 0.8
	return x-half > box.X && x+half < box.Right()
}

// starKey writes which curves are whose, and how the overlay is used.
func (d *draft) starKey(c chart, p StarPage, meridian units.Angle) {
	const sample = 14.0
	x, y := c.box.X+barLength+19, c.box.Bottom()+7.4
	wide := d.right() - x
	for i, b := range []sky.Sighted{p.Curves.Pair.A, p.Curves.Pair.B} {
		at := x + float64(i)*wide/2
		d.brush.InkSample(i, paint.Pt(at, y-0.9), paint.Pt(at+sample, y-0.9))
		words := look.Textf(look.PaperStarsKey, b.Body, units.TrueText(b.Azimuth))
		d.write(at+sample+2, y, words, look.Semibold, fit(words, look.Semibold, note, wide/2-sample-4), paint.Start, d.c.Ink)
	}
	minute := overlay.Turning(time.Minute)
	words := look.Textf(look.PaperStarsUse, units.LongitudeLabel(meridian), units.TimeText(p.Order.Time),
		units.Figure(minute.Minutes(), 0), units.Figure(minute.Degrees()*mm(c.merc.Degree()), 1), units.HeightText(p.Height))
	d.paragraph(x, y+4.2, wide, words, look.Regular, small, d.c.Ink)
}

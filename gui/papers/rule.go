package papers

import (
	"math"
	"strconv"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// RulePage has the rules and the protractor to be cut out, GridPage the grid for
// wind triangles, DiscPage the two discs for height and airspeed.
type (
	RulePage struct {
		Line      string
		Latitude  units.Angle   // standard latitude of the sheet
		Latitudes []units.Angle // those of the edges, from the smallest to the greatest
	}
	GridPage struct{ Line string }
	DiscPage struct{ Line string }
)

// ruleMost is the latitude beyond which there is no rule, degrees.
const ruleMost = 85

// Rule are the things to be cut out, for the sheet of a flight that is true on a
// latitude.
func Rule(p *sim.Plan, latitude units.Angle) []Page {
	lo, hi := startOf(p).Lat, startOf(p).Lat
	for _, leg := range atlas.Planned(p) {
		lo, hi = min(lo, leg.To.Lat), max(hi, leg.To.Lat)
	}
	page := RulePage{Line: flightLine(p), Latitude: latitude}
	mid := math.Round((lo + hi).Degrees() / 2)
	step := max(1, math.Ceil((hi-lo).Degrees()/3))
	for i := range 4 {
		lat := mid + (float64(i)-1.5)*step
		if step == 1 {
			lat = mid + float64(i) - 1
		}
		lat = max(-ruleMost, min(math.Round(lat), ruleMost))
		page.Latitudes = append(page.Latitudes, units.Angle(lat)*units.Degree)
	}
	return []Page{page, GridPage{flightLine(p)}, DiscPage{flightLine(p)}}
}

// The layout of rules and protractor, mm.
const (
	protractor  = 54.0 // radius
	ruleHeight  = 18.0
	ruleBetween = 4.0
)

func (p RulePage) draw(d *draft) {
	d.head(look.Text(look.PaperRuleTitle), p.Line, look.Textf(look.PaperRuleOf, latitudeWords(math.Copysign(p.Latitude.Degrees(), p.Latitudes[0].Degrees()))))
	d.foot()
	at := paint.Pt(margin+protractor+7, 22+protractor+7)
	d.protractor(at)
	x := at.X + protractor + 16
	y := d.paragraph(x, 30, d.right()-x, look.Text(look.PaperRuleUse), look.Regular, body, d.c.Ink)
	y = d.paragraph(x, y+2, d.right()-x, look.Text(look.PaperProtractorUse), look.Regular, body, d.c.Ink)
	d.checkBar(x, y+12, look.Text(look.PaperBarAny))
	top := at.Y + protractor + 10
	m := geodesy.NewMercator(units.Position{}, p.Latitude, StandardScale)
	for i := 0; i+1 < len(p.Latitudes); i += 2 {
		box := paint.R(margin, top+float64(i/2)*(ruleHeight+ruleBetween), d.paper.W-2*margin, ruleHeight)
		d.box(box, thin, d.c.Ink2)
		d.edge(box, box.Y, 1, mm(m.PaperLength(p.Latitudes[i], 1*units.NM)), p.Latitudes[i])
		d.edge(box, box.Bottom(), -1, mm(m.PaperLength(p.Latitudes[i+1], 1*units.NM)), p.Latitudes[i+1])
	}
}

// edge graduates one edge of a rule in miles of a latitude; side is +1 for an
// upper edge. Nought stands 8 mm from the end, that the corner may be cut.
func (d *draft) edge(box paint.Rect, y, side, mile float64, lat units.Angle) {
	const lead = 8.0
	from := box.X + lead
	for n := 0; from+float64(n)*mile <= box.Right()-2; n++ {
		x, length, width := from+float64(n)*mile, 1.5, hair
		switch {
		case n%10 == 0:
			length, width = 3.4, line
		case n%5 == 0:
			length = 2.4
		}
		d.line(x, y, x, y+side*length, width, d.c.Ink)
		if n%10 == 0 && x+3 < box.Right() {
			base := y + side*4.4
			if side > 0 {
				base += 1.5
			} else {
				base += 0.4
			}
			d.write(x, base, strconv.Itoa(n), look.Engraved, small, paint.Middle, d.c.Ink)
		}
	}
	words := look.Textf(look.PaperMilesOn, latitudeWords(lat.Degrees()))
	if side > 0 {
		d.write(from, y+9.2, words, look.Semibold, note, paint.Start, d.c.Ink)
	} else {
		d.write(box.Right()-lead, y-7.4, words, look.Semibold, note, paint.End, d.c.Ink)
	}
}

// protractor draws a round protractor with lines to lay along a meridian.
func (d *draft) protractor(at paint.Point) {
	r := protractor
	for off := -40.0; off <= 40; off += 5 {
		half := math.Sqrt(math.Max(0, 42*42-off*off))
		width, c := hair, d.c.Graticule
		if off == 0 {
			width, c = line, d.c.Ink
		}
		d.line(at.X+off, at.Y-half, at.X+off, at.Y+half, width, c)
	}
	d.line(at.X-42, at.Y, at.X+42, at.Y, line, d.c.Ink)
	for deg := 0; deg < 360; deg++ {
		length, width := 1.6, hair
		switch {
		case deg%10 == 0:
			length, width = 3.6, line
		case deg%5 == 0:
			length = 2.6
		}
		d.ray(at, float64(deg), r-length, r, width, d.c.Ink)
	}
	for deg := 0; deg < 360; deg += 10 {
		q := paint.Polar(at.X, at.Y, r-5.6, float64(deg))
		d.over(q.X, q.Y+0.9, units.Degrees3(degrees(deg)), look.Engraved, small, paint.Middle, d.c.Ink)
	}
	d.circle(at.X, at.Y, r, line, d.c.Ink)
	d.circle(at.X, at.Y, r+3, thin, d.c.Ink2)
	d.circle(at.X, at.Y, 0.5, thin, d.c.Ink)
	d.arrow(at, 0, 36, 42, d.c.Ink)
}

// The grid for wind triangles, mm and kt.
const (
	gridTop   = 22.0
	gridFoot  = 34.0
	gridLead  = 8.0 // of the origin from the left
	knot      = 1.0 // mm
	gridLeast = 40  // kt, from which on each degree has its ray
)

func (p GridPage) draw(d *draft) {
	d.head(look.Text(look.PaperGridTitle), p.Line, look.Text(look.PaperGridScale))
	d.foot()
	box := paint.R(margin, gridTop, d.paper.W-2*margin, d.paper.H-gridTop-gridFoot)
	o := paint.Pt(box.X+gridLead, box.Centre().Y)
	d.PushClip(box)
	for kt := 10; float64(kt)*knot < box.W-gridLead; kt += 10 {
		width, c := hair, d.c.Graticule
		if kt%50 == 0 {
			width, c = line, d.c.Rod
		}
		// Only the arc inside the box, so that no line leaves the paper.
		half := 90.0
		if s := box.H / 2 / (float64(kt) * knot); s < 1 {
			half = math.Asin(s) * 180 / math.Pi
		}
		var pts []paint.Point // half a degree apart: within 0.003 mm of the arc
		n := math.Ceil(4 * half)
		for i := 0.0; i <= n; i++ {
			pts = append(pts, paint.Polar(o.X, o.Y, float64(kt)*knot, 90-half+2*half*i/n))
		}
		d.Stroke(d.path.Reset().Polyline(pts...), paint.Pen{Width: width}, c)
	}
	for deg := -85; deg <= 85; deg++ {
		from, width, c := float64(gridLeast), hair, d.c.Graticule
		switch {
		case deg%10 == 0:
			from, width, c = 0, line, d.c.Rod
		case deg%5 == 0:
			from, width, c = 10, thin, d.c.Ink2
		}
		a := paint.Polar(o.X, o.Y, from*knot, 90+float64(deg))
		z := paint.Polar(o.X, o.Y, 400, 90+float64(deg))
		if p, q, ok := paint.ClipSegment(a, z, box); ok {
			d.line(p.X, p.Y, q.X, q.Y, width, c)
		}
	}
	d.line(o.X, o.Y, box.Right(), o.Y, heavy, d.c.Ink)
	d.PopClip()
	d.box(box, 0.3, d.c.Ink)
	for kt := 50; float64(kt)*knot < box.W-gridLead-6; kt += 50 {
		d.over(o.X+float64(kt)*knot, o.Y-1, strconv.Itoa(kt), look.Engraved, note, paint.Middle, d.c.Ink)
	}
	for deg := -40; deg <= 40; deg += 5 {
		if deg == 0 {
			continue
		}
		d.gridLabel(box, o, deg)
	}
	d.paragraph(margin, box.Bottom()+4, d.paper.W-2*margin, look.Text(look.PaperGridUse), look.Regular, note, d.c.Ink)
}

// gridLabel writes a ray's angle off the middle just inside the edge it meets.
func (d *draft) gridLabel(box paint.Rect, o paint.Point, deg int) {
	s, c := math.Sincos(float64(deg) * math.Pi / 180)
	long := (box.Right() - o.X) / c
	if up := box.H / 2 / math.Abs(s); up < long {
		long = up
	}
	at := paint.Polar(o.X, o.Y, long-6, 90+float64(deg))
	d.over(at.X, at.Y+1, aboard.DriftText(degrees(deg), 0), look.Engraved, note, paint.Middle, d.c.Ink)
}

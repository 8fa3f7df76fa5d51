package papers

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stillair/gui/atlas"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
	"stillair/sim"
)

// LandfallPage is the chart of one port, with rings of distance and a rose of
// bearings from it.
type LandfallPage struct {
	Line      string
	Name      string
	At        units.Position
	Waters    picture.Waters
	Variation *units.Variation
	Year      int
	Near      []nearPlace
}

// nearPlace is a place with its bearing and distance from the port.
type nearPlace struct {
	name     string
	bearing  units.Angle
	distance units.Length
}

// The chart of a port: its scale there and its rings.
const (
	landfallScale = 500_000
	ringStep      = 5 // NM
	rings         = 4
	reach         = ringStep * rings * units.NM
)

// farthestLandfall is the latitude beyond which a Mercator chart of a port is of
// no use.
const farthestLandfall = 80 * units.Degree

// Landfall is the chart of a place, by name; "" is the place the flight is bound
// for, or the nearest one to its end.
func Landfall(p *sim.Plan, name string) ([]Page, error) {
	w, err := atlas.Of(p)
	if err != nil {
		return nil, err
	}
	port, err := portOf(p, &w, name)
	if err != nil {
		return nil, err
	}
	if port.At.Lat > farthestLandfall || port.At.Lat < -farthestLandfall {
		return nil, fmt.Errorf("%s lies too near a pole for a chart of it: a landfall must be 80 S to 80 N", port.Name)
	}
	page := LandfallPage{Line: flightLine(p), Name: port.Name, At: port.At, Waters: w}
	if at, year := variationOf(p); at != nil {
		v := at(port.At)
		page.Variation, page.Year = &v, year
	}
	for _, q := range w.Places {
		bearing, _, d := geodesy.GeodesicInverse(port.At, q.At)
		if q.Mark && q.Name != port.Name && d > 0.2*units.NM && d <= reach {
			page.Near = append(page.Near, nearPlace{q.Name, bearing, d})
		}
	}
	slices.SortFunc(page.Near, func(a, b nearPlace) int { return int(math.Copysign(1, float64(a.distance-b.distance))) })
	return []Page{page}, nil
}

// portOf finds the place that is charted.
func portOf(p *sim.Plan, w *picture.Waters, name string) (picture.Place, error) {
	if name != "" {
		var names []string
		for _, q := range w.Places {
			if strings.EqualFold(q.Name, name) {
				return q, nil
			}
			names = append(names, q.Name)
		}
		if len(names) == 0 {
			return picture.Place{}, fmt.Errorf("place = %s: the flight has no waters, hence no places", name)
		}
		return picture.Place{}, fmt.Errorf("place = %s: there is none; there are %s", name, strings.Join(names, ", "))
	}
	for _, leg := range slices.Backward(p.Legs) {
		if leg.Steer == sim.ToPlace {
			return picture.Place{Name: leg.Place, At: leg.Target}, nil
		}
	}
	end := startOf(p)
	if legs := atlas.Planned(p); len(legs) > 0 {
		end = legs[len(legs)-1].To
	}
	best, found := math.Inf(1), picture.Place{Name: end.String(), At: end}
	for _, q := range w.Places {
		if d := geodesy.Distance(end, q.At); q.Mark && q.Rank == 0 && d.NM() < best {
			best, found = d.NM(), q
		}
	}
	return found, nil
}

// The layout of the chart, mm.
const (
	portSide  = 172.0 // width of the frame
	portTop   = 23.0
	portFoot  = 28.5
	portPanel = 14.0 // between the frame and what stands beside it
)

func (p LandfallPage) draw(d *draft) {
	box := paint.R(margin+13, portTop, portSide, d.paper.H-portTop-portFoot)
	c := newChart(box, p.At, units.Angle(math.Abs(float64(p.At.Lat))), landfallScale)
	d.head(look.Textf(look.PaperLandfallTitle, p.Name), p.Line, join(look.Textf(look.PaperScaleAt, grouped(landfallScale), latitudeWords(math.Round(p.At.Lat.Degrees()*10)/10)), look.Text(look.PaperMercator)))
	d.foot()
	land := d.coasts(c, p.Waters.Coasts)
	d.portGrid(c)
	r := &room{box: c.box.Inset(0.8)}
	r.take(paint.R(c.box.Centre().X-3, c.box.Centre().Y-3, 6, 6))
	d.rings(c, p, r)
	d.names(c, &p.Waters, land, r)
	d.box(c.box, heavy, d.c.Ink)
	d.portPanel(box.Right()+portPanel, box.Y+1, p)
	d.mileBar(box.Right()+portPanel, box.Bottom()-4.5, mm(c.merc.PaperLength(p.At.Lat, 1*units.NM)))
}

// portGrid draws the graticule each five minutes, labelled each ten.
func (d *draft) portGrid(c chart) {
	const step = 5
	every := gridStep
	if 10*mm(c.merc.Degree())/60 < 15.5 { // the labels would touch
		every = heavyStep
	}
	for _, l := range c.meridians(step) {
		d.line(l.at, c.box.Y, l.at, c.box.Bottom(), hair, d.c.Graticule)
		if l.minutes%every == 0 {
			text := units.LongitudeLabel(units.Angle(units.WrapHalfDegrees(float64(l.minutes)/60)) * units.Degree)
			if half := look.Engraved.Font().Width(text, note) / 2; l.at-half > margin {
				d.write(l.at, c.box.Y-1.3, text, look.Engraved, note, paint.Middle, d.c.Ink)
			}
		}
	}
	for _, l := range c.parallels(step) {
		d.line(c.box.X, l.at, c.box.Right(), l.at, hair, d.c.Graticule)
		if l.minutes%gridStep == 0 {
			text := units.LatitudeLabel(units.Angle(l.minutes) * units.ArcMinute)
			d.write(c.box.X-1, l.at+0.9, text, look.Engraved, small, paint.End, d.c.Ink)
		}
	}
	for _, l := range c.parallels(1) {
		half := tickOf(l.minutes)
		d.line(c.box.X, l.at, c.box.X+2*half, l.at, hair, d.c.Ink)
		d.line(c.box.Right()-2*half, l.at, c.box.Right(), l.at, hair, d.c.Ink)
	}
	for _, l := range c.meridians(1) {
		half := tickOf(l.minutes)
		d.line(l.at, c.box.Bottom()-2*half, l.at, c.box.Bottom(), hair, d.c.Ink)
	}
}

// out is the place at a bearing and distance from the port.
func (p *LandfallPage) out(c chart, bearing, nm float64) paint.Point {
	at, _ := geodesy.GeodesicDirect(p.At, units.Angle(bearing)*units.Degree, units.Length(nm)*units.NM)
	return c.at(at)
}

// rings draws the rings of distance as they are on the earth, and on the
// outermost the rose of bearings from the port, true and magnetic.
func (d *draft) rings(c chart, p LandfallPage, r *room) {
	for k := 1; k <= rings; k++ {
		nm := float64(k * ringStep)
		var pts []paint.Point
		for b := 0.0; b < 360; b += 3 {
			pts = append(pts, p.out(c, b, nm))
		}
		d.Stroke(d.path.Reset().Polygon(pts...), paint.Pen{Width: 0.22}, d.c.Ink)
		if k < rings { // the label stands where the ring is cut by the north-east ray
			at := p.out(c, 45, nm)
			text := strconv.Itoa(k * ringStep)
			d.over(at.X, at.Y+1, text, look.Engraved, note, paint.Middle, d.c.Ink)
			r.take(paint.R(at.X-3, at.Y-2, 6, 4))
		}
	}
	outer := float64(ringStep * rings)
	ray := func(b, from, to, width float64, col colour) {
		a, z := p.out(c, b, from), p.out(c, b, to)
		d.line(a.X, a.Y, z.X, z.Y, width, col)
	}
	for b := 0; b < 360; b += 2 {
		length, width := 0.25, hair
		switch {
		case b%30 == 0:
			length, width = 0.7, line
		case b%10 == 0:
			length, width = 0.5, thin
		}
		ray(float64(b), outer-length, outer, width, d.c.Ink)
		if b%30 == 0 {
			ray(float64(b), 1.2, outer-2.4, hair, d.c.Ink2)
			d.figure(p.out(c, float64(b), outer-1.35), b, note, d.c.Ink, r)
		}
	}
	if p.Variation == nil {
		return
	}
	for b := 0; b < 360; b += 10 {
		on := p.Variation.Degrees() + float64(b)
		length := 0.3
		if b%30 == 0 {
			length = 0.5
			d.figure(p.out(c, on, outer-3.6), b, small, d.c.BrassText, r)
		}
		ray(on, outer-2.9, outer-2.9+length, thin, d.c.BrassText)
	}
	var pts []paint.Point
	for b := 0.0; b < 360; b += 3 {
		pts = append(pts, p.out(c, b, outer-2.9))
	}
	d.Stroke(d.path.Reset().Polygon(pts...), paint.Pen{Width: thin}, d.c.BrassText)
}

// figure writes a direction in the middle of a place.
func (d *draft) figure(at paint.Point, deg int, size float64, c colour, r *room) {
	text := units.Degrees3(degrees(deg))
	d.over(at.X, at.Y+size*0.36, text, look.Engraved, size, paint.Middle, c)
	w := look.Engraved.Font().Width(text, size)
	r.take(paint.R(at.X-w/2, at.Y-size/2, w, size))
}

// mileBar is a bar of ten miles at the port.
func (d *draft) mileBar(x, y, mile float64) {
	const miles = 10
	d.line(x, y, x+miles*mile, y, heavy, d.c.Ink)
	for i := range miles + 1 {
		length := 1.4
		if i%5 == 0 {
			length = 2.6
			d.write(x+float64(i)*mile, y+3, strconv.Itoa(i), look.Engraved, note, paint.Middle, d.c.Ink)
		}
		d.line(x+float64(i)*mile, y-length, x+float64(i)*mile, y, hair, d.c.Ink)
	}
	d.write(x+miles*mile+4, y+3, look.Text(look.PaperUnitNM), look.Regular, note, paint.Start, d.c.Ink2)
}

// portPanel writes what belongs to the port beside its chart.
func (d *draft) portPanel(x, y float64, p LandfallPage) {
	w := d.right() - x
	y = d.paragraph(x, y+3, w, p.Name, look.Semibold, 4.2, d.c.Ink)
	y = d.paragraph(x, y, w, p.At.String(), look.Regular, body, d.c.Ink) + 1.5
	y = d.paragraph(x, y, w, look.Textf(look.PaperRings, ringStep), look.Regular, note, d.c.Ink2)
	if p.Variation != nil {
		text := p.Variation.String()
		if p.Year > 0 {
			text = look.Textf(look.PaperOfYear, text, p.Year)
		}
		y = d.paragraph(x, y, w, look.Textf(look.PaperMagneticRing, text), look.Regular, note, d.c.BrassText)
	}
	y += 3
	y = d.paragraph(x, y, w, look.Text(look.PaperNear), look.Semibold, note, d.c.Ink)
	for _, q := range p.Near[:min(len(p.Near), 9)] {
		d.write(x, y, q.name, look.Regular, fit(q.name, look.Regular, note, w-28), paint.Start, d.c.Ink)
		d.write(x+w-15, y, units.TrueText(q.bearing), look.Regular, note, paint.End, d.c.Ink)
		d.write(x+w, y, units.DistanceText(q.distance), look.Regular, note, paint.End, d.c.Ink)
		y += 4.1
	}
	y += 3
	y = d.paragraph(x, y, w, look.Text(look.PaperPassage), look.Semibold, note, d.c.Ink) + 3
	for _, k := range []look.Key{look.PaperExpected, look.PaperTrackIn, look.PaperWindForLandfall, look.PaperSighted, look.PaperOffTrack} {
		words := look.Text(k)
		d.write(x, y, words, look.Regular, small, paint.Start, d.c.Ink2)
		d.line(x+look.Regular.Font().Width(words, small)+1.5, y+0.4, d.right(), y+0.4, hair, d.c.Ink2)
		y += 7.2
	}
}

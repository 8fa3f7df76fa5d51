package charttable

import (
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/units"
)

// shownTrack is track and groundspeed as the crew know them: heading, airspeed and
// the wind set.
func shownTrack(v *aboard.View) (units.Angle, units.Speed) {
	sin, cos := math.Sincos(float64(v.Heading))
	n, e := v.WindSet.Velocity()
	north, east := float64(v.TAS)*cos+float64(n), float64(v.TAS)*sin+float64(e)
	return units.Wrap(units.Angle(math.Atan2(east, north))), units.Speed(math.Hypot(north, east))
}

func (k *curvesCard) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, p, u := k.curves, k.paper.Palette(), z.Device
	pad := curvesPad * u
	title := look.CurvesTitle
	if c.kind == pulseLattice {
		title = look.LatticeTitle
	}
	keys := float64(k.place.x+k.place.w-k.lift.Position().X) * u
	text := paint.Type{Font: look.Bold.Font(), Size: titleSize(z)}
	lines := wrapped(look.Text(title), text, w-pad-keys-8*u)
	if len(lines) > 1 {
		text.Size *= 0.8
	}
	y := float64(k.head)*u + 28*u - float64(len(lines)-1)*0.6*text.Size
	for _, line := range lines {
		d.Text(pad, y+0.35*text.Size, line, text, p.Ink)
		y += 1.2 * text.Size
	}
	read := look.CurvesRead
	if c.kind == pulseLattice {
		read = look.LatticeRead
		k.paintLines(d, pad, float64(k.sky)*u, k.whoLines(z, w-2*pad), z)
	} else {
		k.paintSky(d, w, z)
		k.headed(d, w, float64(k.time)*u, look.Text(look.CurvesTime), units.TimeText(c.time()), z)
	}
	k.headed(d, w, float64(k.reads)*u, look.Text(read), "", z)
	k.paintFix(d, z)
	k.paintNotes(d, w, z)
}

// headed writes a heading and, at its right end, what goes with it.
func (k *curvesCard) headed(d *paint.Raster, w, y float64, words, right string, z look.Size) {
	p, text := k.paper.Palette(), k.heading(z)
	y += 14 * z.Device
	d.Text(curvesPad*z.Device, y, words, text, p.Ink)
	if right != "" {
		figure := paint.Type{Font: look.Engraved.Font(), Size: text.Size * 1.15, Anchor: paint.End}
		d.Text(w-curvesPad*z.Device, y, right, figure, p.Ink)
	}
}

func (k *curvesCard) paintLines(d *paint.Raster, x, y float64, lines []string, z look.Size) float64 {
	text := noteType(z)
	for _, line := range lines {
		y += 1.3 * text.Size
		d.Text(x, y-0.3*text.Size, line, text, k.paper.Palette().Ink2)
	}
	return y
}

// paintSky draws the sky beside the pairs, or what stands in the way of the curves.
func (k *curvesCard) paintSky(d *paint.Raster, w float64, z look.Size) {
	c, p, u := k.curves, k.paper.Palette(), z.Device
	pad, top := curvesPad*u, float64(k.sky)*u
	if words := c.note(); words != "" {
		text := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}
		for i, line := range wrapped(words, text, w-2*pad) {
			d.Text(pad, top+(float64(i)+1)*1.3*text.Size, line, text, p.Ink)
		}
		return
	}
	done := c.job.done
	if k.disc == 0 || done == nil || done.stars == nil {
		return
	}
	k.headed(d, w*0.55+pad, top-2*u, look.Textf(look.CurvesSky, units.TimeText(done.starOrder.Time)), "", z)
	small := k.heading(z)
	d.Text(float64(k.pairs[0].Position().X-k.place.x)*u, top+12*u, look.Text(look.CurvesPairs), small, p.Ink2)
	r := math.Min((float64(k.disc)-curvesLine-44)/2, 0.235*w/u) * u
	disc := picture.SkyDisc{X: pad + 0.27*(w-2*pad), Y: top + (float64(k.disc)+curvesLine)/2*u, R: r}
	for _, s := range done.stars.Up {
		chosen := s.Body == c.pair[0] || s.Body == c.pair[1]
		disc.Stars = append(disc.Stars, picture.SkyStar{Name: s.Body.String(), Altitude: s.Altitude, Azimuth: s.Azimuth, Chosen: chosen, Magnitude: s.Body.Magnitude()})
	}
	picture.DrawSkyDisc(picture.NewBrush(d, p, z), disc)
}

// paintFix writes where the two readings cross.
func (k *curvesCard) paintFix(d *paint.Raster, z look.Size) {
	c, p, u := k.curves, k.paper.Palette(), z.Device
	left, mid := curvesPad*u, (float64(k.fixTop)+28)*u
	room := float64(k.put.Position().X-k.place.x)*u - left - 8*u
	at, _, ok := c.fix()
	if !ok {
		text := noteType(z)
		lines := wrapped(c.why(), text, room)
		for i, line := range lines {
			d.Text(left, mid+(float64(i)-float64(len(lines)-1)/2)*1.3*text.Size+0.35*text.Size, line, text, p.Ink2)
		}
		return
	}
	b := picture.NewBrush(d, p, z)
	b.FixTriangle(paint.Pt(left+14*u, mid), 1.1*u)
	text := paint.Type{Font: look.Engraved.Font(), Size: max(17*u, z.Px(look.TextLarge))}
	for i, line := range []string{units.LatitudeText(at.Lat), units.LongitudeText(at.Lon)} {
		d.Text(left+36*u, mid+(float64(i)-0.5)*1.2*text.Size+0.35*text.Size, line, text, p.Ink)
	}
}

// paintNotes writes what is worth of the fix and what the user should know, as far
// as there is room.
func (k *curvesCard) paintNotes(d *paint.Raster, w float64, z look.Size) {
	c, u := k.curves, z.Device
	pad, y, end := curvesPad*u, float64(k.notes)*u, (float64(k.foot)-4)*u
	if n := len(c.puts); n > 0 && c.puts[n-1].wind != nil {
		last := c.puts[n-1]
		words := look.Textf(look.FixWind, *last.wind, units.Figure(last.since.Minutes(), 0))
		text := paint.Type{Font: look.Semibold.Font(), Size: z.Text(look.TextBody)}
		if y+1.4*text.Size <= end {
			y += 1.4 * text.Size
			d.Text(pad, y-0.4*text.Size, words, text, k.paper.Palette().Wind)
		}
	}
	if worth, ok := c.worth(); ok {
		y = k.paintWorth(d, w, y, worth, z)
	}
	text := noteType(z)
	for _, words := range c.lore() {
		lines := wrapped(words, text, w-2*pad)
		if y+float64(len(lines))*1.3*text.Size > end {
			return
		}
		y = k.paintLines(d, pad, y, lines, z) + 3*u
	}
}

// worth is what the lattice is worth at the fix.
func (c *curves) worth() (l airplot.Lattice, ok bool) {
	d := c.job.done
	if _, _, ok := c.fix(); !ok || d.lattice == nil || len(d.lattice.Worth) == 0 {
		return l, false
	}
	return d.lattice.Worth[0], true
}

func (k *curvesCard) paintWorth(d *paint.Raster, w, y float64, l airplot.Lattice, z look.Size) float64 {
	p, pad := k.paper.Palette(), curvesPad*z.Device
	text := noteType(z)
	bold := paint.Type{Font: look.Semibold.Font(), Size: text.Size, Anchor: paint.End}
	for _, row := range [][2]string{
		{look.Text(look.LatticeCut), units.Figure(l.Cut.Degrees(), 0) + "°"},
		{look.Textf(look.LatticeShift, "A"), miles(l.ShiftA)},
		{look.Textf(look.LatticeShift, "B"), miles(l.ShiftB)},
		{look.Text(look.LatticeAxes), look.Textf(look.AxesText, units.Figure(l.Ellipse.Major.NM(), 1), units.DistanceText(l.Ellipse.Minor), units.TrueText(l.Ellipse.Bearing))},
	} {
		y += 1.45 * text.Size
		d.Text(pad, y-0.4*text.Size, row[0], text, p.Ink2)
		d.Text(w-pad, y-0.4*text.Size, row[1], bold, p.Ink)
	}
	return y + 4*z.Device
}

// miles is a shift of a line, to a hundredth where it is small.
func miles(l units.Length) string {
	if l.NM() < 1 {
		return units.Figure(l.NM(), 2) + " " + look.Text(look.NauticalMiles)
	}
	return units.DistanceText(l)
}

package picture

import (
	"image"
	"math"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// The picture of the mechanism is drawn in units of a design of 1920 by 1080, of
// which it takes this part.
const (
	linkX, linkY = 24.0, 88.0
	LinkageW     = 1872.0
	LinkageH     = 836.0
)

// LinkageScene is the picture of the mechanism in a box: what stays, kept as an
// image, and the parts that move, each repainted only when it has.
type LinkageScene struct {
	size   look.Size
	box    paint.Rect
	base   []part // that hardly ever change: they belong to what stays
	parts  []part
	keys   []uint64
	seen   seen
	d      draft
	key    partKey
	faults []faultMark
	strip  strip

	standing uint64      // of all that is not motion
	still    *image.RGBA // what stays, over the whole surface
	palette  *look.Palette
	changed  []image.Rectangle
}

// part is a piece of the picture, in paint order: what it is of, where it may
// paint (in units of the design), what it depends on, and how it is drawn.
type part struct {
	link Link
	room paint.Rect
	key  func(l *seen, k *partKey)
	draw func(d *draft)
}

// NewLinkageScene lays the picture out in a box, as large as it goes in its
// middle.
func NewLinkageScene(z look.Size, box paint.Rect) *LinkageScene {
	s := &LinkageScene{size: z, box: box}
	for _, add := range []func(*LinkageScene){airParts, headingParts, splitParts, degreeParts, groundParts} {
		add(s)
	}
	s.keys = make([]uint64, len(s.parts))
	return s
}

func (s *LinkageScene) add(of Link, x, y, w, h float64, key func(*seen, *partKey), draw func(*draft)) {
	s.parts = append(s.parts, part{of, paint.R(x, y, w, h), key, draw})
}

// fixed adds a part that belongs to what stays: nothing that moves lies under it.
func (s *LinkageScene) fixed(of Link, key func(*seen, *partKey), draw func(*draft)) {
	s.base = append(s.base, part{link: of, key: key, draw: draw})
}

// look takes a moment in and makes ready to draw it.
func (s *LinkageScene) look(b *Brush, l *Linkage) *draft {
	f, at := fitted(s.box)
	s.seen.take(l, f)
	s.d = draft{Brush: b, o: at, f: f, small: f/s.size.Device < 0.8 || s.size.Larger, l: &s.seen, strip: &s.strip}
	s.d.takeStrip()
	s.faults = s.d.takeFaults(s.faults)
	return &s.d
}

// fitted is the scale of a picture that fills a box as far as it goes, and where
// its corner lies.
func fitted(box paint.Rect) (f float64, at paint.Point) {
	f = math.Min(box.W/LinkageW, box.H/LinkageH)
	return f, paint.Pt(box.X+(box.W-LinkageW*f)/2, box.Y+(box.H-LinkageH*f)/2)
}

// Draw draws the whole picture on any surface.
func (s *LinkageScene) Draw(b *Brush, l *Linkage) {
	d := s.look(b, l)
	s.under(d)
	s.above(d, s.box)
}

// under draws what stays.
func (s *LinkageScene) under(d *draft) {
	d.ground()
	for i := range s.base {
		s.base[i].draw(d)
	}
}

// above draws all that lies over the ground and meets a rectangle.
func (s *LinkageScene) above(d *draft, q paint.Rect) {
	for i := range s.parts {
		if p := &s.parts[i]; d.rect(p.room).Overlaps(q) {
			p.draw(d)
		}
	}
	d.handSigns()
	d.wrongs(s.faults, q)
	d.lighting(q)
}

// Begin draws the whole picture, on the ground of the window, and keeps what
// stays. It is what the first Repaint does, and every one after a change that is
// no motion.
func (s *LinkageScene) Begin(b *Brush, r *paint.Raster, l *Linkage) {
	d := s.look(b, l)
	defer whole(r)()
	all := rectOf(pixels(s.box))
	r.PushClip(all)
	d.Fill(d.path.Reset().Rect(all), d.C.Ground)
	s.under(d)
	im := r.Pixels()
	if s.still == nil || s.still.Rect != im.Rect {
		s.still = image.NewRGBA(im.Rect)
	}
	copy(s.still.Pix, im.Pix)
	s.above(d, s.box)
	r.PopClip()
	s.standing, s.palette = s.standingOf(d.l), b.C
	for i := range s.parts {
		s.keys[i] = s.parts[i].keyOf(d.l, &s.key)
	}
}

// whole makes shapes the same whatever the clip, until it is undone.
func whole(r *paint.Raster) func() {
	was := r.Whole
	r.Whole = true
	return func() { r.Whole = was }
}

// Repaint draws into the image of the last Repaint what has changed since, and
// nothing else, and gives where; the slice holds until the next call. After any
// number of them the image is what Begin would draw.
func (s *LinkageScene) Repaint(b *Brush, r *paint.Raster, l *Linkage) []image.Rectangle {
	s.changed = s.changed[:0]
	d := s.look(b, l)
	if s.still == nil || s.still.Rect != r.Pixels().Rect || s.palette != b.C || s.standingOf(d.l) != s.standing {
		s.Begin(b, r, l)
		return append(s.changed, pixels(s.box).Intersect(r.Pixels().Rect))
	}
	for i := range s.parts {
		if k := s.parts[i].keyOf(d.l, &s.key); k != s.keys[i] {
			s.keys[i] = k
			s.join(pixels(d.rect(s.parts[i].room)).Intersect(pixels(s.box)))
		}
	}
	defer whole(r)()
	for _, q := range s.changed {
		s.renew(d, r, q)
	}
	return s.changed
}

// join takes in a rectangle to be renewed. Two that are hardly smaller than the
// one round both are renewed as that.
func (s *LinkageScene) join(q image.Rectangle) {
	area := func(r image.Rectangle) int { return r.Dx() * r.Dy() }
	for i, was := range s.changed {
		if both := was.Union(q); 10*area(both) <= 11*(area(was)+area(q)) {
			s.changed[i] = both
			return
		}
	}
	s.changed = append(s.changed, q)
}

// pixels are the whole pixels round a rectangle.
func pixels(r paint.Rect) image.Rectangle {
	return image.Rect(int(math.Floor(r.X)), int(math.Floor(r.Y)), int(math.Ceil(r.Right())), int(math.Ceil(r.Bottom())))
}

func rectOf(q image.Rectangle) paint.Rect {
	return paint.R(float64(q.Min.X), float64(q.Min.Y), float64(q.Dx()), float64(q.Dy()))
}

// renew draws all that lies in a rectangle.
func (s *LinkageScene) renew(d *draft, r *paint.Raster, q image.Rectangle) {
	im := r.Pixels()
	q = q.Intersect(im.Rect)
	if q.Empty() {
		return
	}
	for y := q.Min.Y; y < q.Max.Y; y++ {
		at := y*im.Stride + 4*q.Min.X
		copy(im.Pix[at:at+4*q.Dx()], s.still.Pix[at:])
	}
	clip := rectOf(q)
	r.PushClip(clip)
	s.above(d, clip)
	r.PopClip()
}

// standingOf sums up all that changes the whole picture.
func (s *LinkageScene) standingOf(l *seen) uint64 {
	k := partKey{keySeed}
	for i := range l.Links {
		n := &l.Links[i]
		k.mix(uint64(n.Stands)<<1 | uint64(b2i(n.Held)))
		k.words(n.Flag)
	}
	k.mix(uint64(l.Lit)<<16 | uint64(l.Chosen)<<1 | uint64(b2i(l.Fast)))
	k.put(l.Run)
	if l.Lit == LinkLongitude || l.Chosen == LinkLongitude || len(s.faults) > 0 { // rings slide with the pinions
		k.put(float64(l.Hands.Gear), float64(l.Hands.GroundGear))
	}
	for i := range s.base {
		k.mix(s.base[i].keyOf(l, &s.key))
	}
	return k.sum
}

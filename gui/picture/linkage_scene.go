package picture

import (
	"hash/fnv"
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
	size     look.Size
	box      paint.Rect
	parts    []part
	keys     []uint64
	standing uint64      // of all that is not motion
	still    *image.RGBA // what stays, over the whole surface
	strip    strip
}

// part is a piece of the picture, in paint order: what it is of, where it may
// paint (in units of the design), what it depends on, and how it is drawn.
type part struct {
	link Link
	room paint.Rect
	key  func(l *Linkage, k *partKey)
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

func (s *LinkageScene) add(of Link, x, y, w, h float64, key func(*Linkage, *partKey), draw func(*draft)) {
	s.parts = append(s.parts, part{of, paint.R(x, y, w, h), key, draw})
}

// Draw draws the whole picture on any surface.
func (s *LinkageScene) Draw(b *Brush, l *Linkage) {
	d := s.draft(b, l)
	d.ground()
	s.above(d, s.box)
}

// above draws all that lies over the ground and meets a rectangle.
func (s *LinkageScene) above(d *draft, q paint.Rect) {
	draw := func(only Link) {
		for i := range s.parts {
			if p := &s.parts[i]; (only == LinkCount || p.link == only) && d.rect(p.room).Overlaps(q) {
				p.draw(d)
			}
		}
	}
	draw(LinkCount)
	d.wrongs()
	if lit := d.l.Lit; lit < LinkCount {
		d.dim(q, d.rect(linkRooms[lit]))
		draw(lit)
		d.ringed(lit)
	}
	if d.l.Chosen < LinkCount {
		d.ringed(d.l.Chosen)
	}
}

// dim lays paper over q, but not where a link stands.
func (d *draft) dim(q, link paint.Rect) {
	link = link.Snap()
	r := link.Intersect(q)
	if r.W <= 0 || r.H <= 0 {
		r = paint.R(q.X, q.Y, 0, 0)
	}
	d.path.Reset()
	for _, side := range []paint.Rect{
		paint.R(q.X, q.Y, q.W, r.Y-q.Y), paint.R(q.X, r.Bottom(), q.W, q.Bottom()-r.Bottom()),
		paint.R(q.X, r.Y, r.X-q.X, r.H), paint.R(r.Right(), r.Y, q.Right()-r.Right(), r.H),
	} {
		if side.W > 0 && side.H > 0 {
			d.path.Rect(side)
		}
	}
	d.Fill(&d.path, paint.Alpha(d.C.Card, dimmed))
}

// dimmed is how much paper lies over what the walk does not speak of.
const dimmed = 0.55

// Begin draws the whole picture, on the ground of the window, and keeps what
// stays.
func (s *LinkageScene) Begin(b *Brush, r *paint.Raster, l *Linkage) {
	d := s.draft(b, l)
	r.PushClip(s.box)
	d.Fill(d.path.Reset().Rect(s.box), d.C.Ground)
	d.ground()
	im := r.Pixels()
	if s.still == nil || s.still.Rect != im.Rect {
		s.still = image.NewRGBA(im.Rect)
	}
	copy(s.still.Pix, im.Pix)
	s.above(d, s.box)
	r.PopClip()
	s.standing = l.standing()
	for i := range s.parts {
		s.keys[i] = s.parts[i].keyOf(l)
	}
}

// Repaint draws into the image of the last Begin or Repaint what has changed
// since, and nothing else.
func (s *LinkageScene) Repaint(b *Brush, r *paint.Raster, l *Linkage) {
	if l.standing() != s.standing || s.still == nil {
		s.Begin(b, r, l)
		return
	}
	d := s.draft(b, l)
	for i := range s.parts {
		if k := s.parts[i].keyOf(l); k != s.keys[i] {
			s.keys[i] = k
			s.renew(d, r, d.rect(s.parts[i].room).Intersect(s.box))
		}
	}
}

// renew draws all that lies in a rectangle.
func (s *LinkageScene) renew(d *draft, r *paint.Raster, q paint.Rect) {
	im := r.Pixels()
	q = q.Snap().Intersect(paint.R(0, 0, float64(im.Rect.Dx()), float64(im.Rect.Dy())))
	if q.W <= 0 || q.H <= 0 {
		return
	}
	x0, x1 := int(q.X), int(q.Right())
	for y := int(q.Y); y < int(q.Bottom()); y++ {
		at := y*im.Stride + 4*x0
		copy(im.Pix[at:at+4*(x1-x0)], s.still.Pix[at:])
	}
	r.PushClip(q)
	s.above(d, q)
	r.PopClip()
}

func (s *LinkageScene) draft(b *Brush, l *Linkage) *draft {
	f, at := fitted(s.box)
	return &draft{Brush: b, o: at, f: f, small: f/s.size.Device < 0.8, l: l, strip: &s.strip}
}

// fitted is the scale of a picture that fills a box as far as it goes, and where
// its corner lies.
func fitted(box paint.Rect) (f float64, at paint.Point) {
	f = math.Min(box.W/LinkageW, box.H/LinkageH)
	return f, paint.Pt(box.X+(box.W-LinkageW*f)/2, box.Y+(box.H-LinkageH*f)/2)
}

// partKey gathers what a part depends on.
type partKey struct{ sum uint64 }

func (p *part) keyOf(l *Linkage) uint64 {
	k := partKey{14695981039346656037}
	if p.key != nil {
		p.key(l, &k)
	}
	return k.sum
}

// add takes a value in, to so many steps of a unit.
func (k *partKey) add(v, steps float64) {
	k.mix(uint64(int64(math.Floor(v * steps))))
}

func (k *partKey) mix(v uint64) { k.sum = (k.sum ^ v) * 1099511628211 }

func (k *partKey) words(all ...string) {
	for _, s := range all {
		for i := range len(s) {
			k.mix(uint64(s[i]))
		}
		k.mix(1 << 20)
	}
}

// turn takes in the part of a turn that shows, or that none does.
func (k *partKey) turn(l *Linkage, turns float64) {
	if !l.Fast {
		k.add(turns-math.Floor(turns), 2*turnPitch)
	}
}

// standing sums up all that changes the whole picture.
func (l *Linkage) standing() uint64 {
	h := fnv.New64a()
	put := func(s string) {
		h.Write([]byte(s))
		h.Write([]byte{0})
	}
	for i := range l.Links {
		s := &l.Links[i]
		h.Write([]byte{byte(s.Stands), byte(b2i(s.Held))})
		put(s.Flag)
	}
	h.Write([]byte{byte(l.Lit), byte(l.Chosen), byte(b2i(l.Fast)), byte(int(l.Run * 60))})
	return h.Sum64()
}

// Package exhibit is the third way of use: the window that stands among visitors. What
// it does is decided by package conduct, what it shows is drawn by package scene, what
// it writes down by package keep; here are the toolkit, the clock and the crew.
package exhibit

import (
	"image"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/keep"
	"stillair/gui/exhibit/scene"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/scenarios"
)

func setWind(w units.Wind) aboard.Action { return aboard.Action{Kind: aboard.SetWind, Wind: w} }

// View is the whole screen: one picture, which is touched where it shows something.
type View struct {
	widget.BaseWidget
	raster  *canvas.Raster
	surface *paint.Raster
	shifted *image.RGBA
	scale   float64 // device pixels to a unit

	machine *conduct.Machine
	crew    *crew
	counts  *keep.Counts
	scene   scene.Scene
	tongues []*tongue.Tongue
	names   []string
	touch   []string
	page    scene.KeeperPage
	spoken  *tongue.Tongue
	finger  finger
	leave   func()
	repaint func(fyne.CanvasObject) // the canvas's own Refresh; nil: by way of the toolkit

	now        time.Duration // since the start
	wall       time.Time
	drawn      time.Duration
	stale      bool
	frameEvery time.Duration
	took       time.Duration // the last drawing, for the probe
}

// finger is a touch that lasts.
type finger struct {
	down   bool
	target conduct.Target
	began  time.Duration
	next   time.Duration // when a target that repeats acts again
	x, y   float64
}

// When a target that is held acts again; and how long a finger in the upper left
// corner opens the keeper's page.
const (
	againAfter = 400 * time.Millisecond
	againEvery = 110 * time.Millisecond
	cornerFor  = 8 * time.Second
)

// attractEvery is how long a frame of the attract loop stands: it runs all day.
const attractEvery = 48 * time.Millisecond

// NewView makes a view of an exhibit. leave is called when the keeper closes it.
func NewView(f *keep.Found, counts *keep.Counts, lastFault string, seed uint64, leave func()) (*View, error) {
	c, err := newCrew(f.Exhibit)
	if err != nil {
		return nil, err
	}
	v := &View{crew: c, counts: counts, leave: leave, scale: 1, frameEvery: 30 * time.Millisecond}
	for _, code := range f.Exhibit.Languages {
		t := f.Tongues[code]
		v.tongues, v.names, v.touch = append(v.tongues, t), append(v.names, t.Text(tongue.Name)), append(v.touch, t.Text(tongue.Touch))
	}
	v.page = scene.KeeperPage{Fault: lastFault, Problems: keep.Problems(f.Wrong)}
	v.machine = conduct.New(f.Exhibit, c, counts, seed, f.Wrong != nil)
	v.raster = canvas.NewRaster(v.generate)
	v.ExtendBaseWidget(v)
	return v, nil
}

// CreateRenderer is part of the toolkit's contract.
func (v *View) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(v.raster) }

// MinSize is part of the toolkit's contract.
func (v *View) MinSize() fyne.Size { return fyne.NewSize(320, 320) }

// Cursor hides the pointer unless the exhibit has a mouse.
func (v *View) Cursor() desktop.Cursor {
	if v.exhibit().Cursor {
		return desktop.DefaultCursor
	}
	return desktop.HiddenCursor
}

func (v *View) exhibit() *scenarios.Exhibit { return v.machine.Exhibit() }

// show is the state to be drawn.
func (v *View) show() *scene.Show {
	t := v.tongues[v.machine.Language()]
	if t != v.spoken {
		v.spoken = t
		look.Speak(t.Picture)
	}
	v.page.Up, v.page.Wall = v.now, v.wall
	v.page.Today, v.page.Counting = v.counts.Today(v.wall), v.counts.Err
	in := &scene.Show{
		Machine: v.machine, Tongue: t, Names: v.names, Touch: v.touch, Plan: v.crew.plan, Ground: v.crew.ground, Strip: v.crew.strip, Keeper: v.page,
	}
	in.Moment = v.crew.moment()
	return in
}

// generate is called by the toolkit with the pixels it has.
func (v *View) generate(w, h int) image.Image {
	if w < 16 || h < 16 { // while the layout settles
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	if u := v.Size().Width; u > 0 {
		v.scale = float64(w) / float64(u)
	}
	if v.surface == nil || v.surface.Pixels().Rect != image.Rect(0, 0, w, h) {
		v.surface = paint.NewImage(w, h)
	}
	began := time.Now()
	v.scene.Draw(v.surface, v.scale, v.show())
	im := v.wandered(v.surface.Pixels())
	v.took = time.Since(began)
	return im
}

// wandered is the picture a few pixels aside; what lies beyond it repeats its edge.
func (v *View) wandered(im *image.RGBA) image.Image {
	dx, dy := v.machine.Shift()
	if dx == 0 && dy == 0 {
		return im
	}
	if v.shifted == nil || v.shifted.Rect != im.Rect {
		v.shifted = image.NewRGBA(im.Rect)
	}
	w, h := im.Rect.Dx(), im.Rect.Dy()
	for y := range h {
		from := im.Pix[max(0, min(h-1, y-dy))*im.Stride:][:4*w]
		to := v.shifted.Pix[y*v.shifted.Stride:][:4*w]
		switch {
		case dx >= 0:
			for x := range dx {
				copy(to[4*x:4*x+4], from[:4])
			}
			copy(to[4*dx:], from)
		default:
			copy(to, from[-4*dx:])
			for x := w + dx; x < w; x++ {
				copy(to[4*x:4*x+4], from[4*w-4:])
			}
		}
	}
	return v.shifted
}

// Step brings everything up to a time: now only goes on, wall is the clock on the wall.
func (v *View) Step(now time.Duration, wall time.Time) {
	v.now, v.wall = max(v.now, now), wall
	stage := v.machine.Stage()
	if m := v.crew.moment(); m != nil {
		v.machine.See(m)
	}
	v.machine.Pass(v.now, wall)
	v.holding()
	if v.machine.Leaving() && v.leave != nil {
		v.leave()
		return
	}
	if v.machine.Stage() != stage || v.stale || v.now-v.drawn >= v.pause() {
		v.drawn, v.stale = v.now, false
		v.refresh()
	}
}

// refresh has the picture drawn anew. The toolkit looks up in a cache on which canvas
// an object stands and forgets it when the program could not run for some seconds, a
// machine being put to sleep or short of memory; what asks it then is never drawn again.
// The canvas itself forgets nothing.
func (v *View) refresh() {
	if v.repaint != nil {
		v.repaint(v.raster)
		return
	}
	v.raster.Refresh()
}

// pause is how long a frame stands: what moves is drawn thirty times a second (the
// attract loop twenty), what does not twice, a dark screen every ten seconds.
func (v *View) pause() time.Duration {
	switch v.machine.Stage() {
	case conduct.Attract:
		if v.exhibit().ReducedMotion {
			return time.Second
		}
		return attractEvery
	case conduct.Playing, conduct.Cloud, conduct.Parting:
		return v.frameEvery
	case conduct.Shut:
		return 10 * time.Second
	}
	return time.Second / 2
}

// after has what was done shown at the next frame.
func (v *View) after() { v.stale = true }

// holding goes on with a finger that stays down.
func (v *View) holding() {
	f := &v.finger
	switch {
	case !f.down:
	case f.target.Repeats() && v.now >= f.next:
		f.next = v.now + againEvery
		v.machine.Again(f.target, v.now-f.began)
		v.after()
	case v.now-f.began >= cornerFor && math.Max(f.x, f.y) < scene.Least*v.scale:
		f.down = false
		v.machine.Open()
		v.after()
	}
}

// at is a place in device pixels of the picture, wherever that has wandered.
func (v *View) at(p fyne.Position) (x, y float64) {
	dx, dy := v.machine.Shift()
	return float64(p.X)*v.scale - float64(dx), float64(p.Y)*v.scale - float64(dy)
}

// places is where everything stands now.
func (v *View) places() *scene.Places {
	size := v.Size()
	w, h := int(math.Round(float64(size.Width)*v.scale)), int(math.Round(float64(size.Height)*v.scale))
	return v.scene.Places(w, h, v.scale, v.show())
}

// MouseDown is a finger that comes down; part of the toolkit's contract.
func (v *View) MouseDown(e *desktop.MouseEvent) {
	x, y := v.at(e.Position)
	size := v.Size()
	testing := v.machine.Stage() == conduct.Test
	t := v.places().At(x, y)
	v.finger = finger{down: true, target: t, began: v.now, next: v.now + againAfter, x: x, y: y}
	switch {
	case testing:
		v.machine.TouchAt(float64(e.Position.X/size.Width), float64(e.Position.Y/size.Height))
	case t.Drags():
		v.drag(x, y)
	case v.machine.Stage() == conduct.Trouble:
		v.machine.Touch(conduct.Anywhere)
	default:
		v.machine.Touch(t)
	}
	v.after()
}

// MouseUp is a finger that goes; part of the toolkit's contract.
func (v *View) MouseUp(*desktop.MouseEvent) { v.finger.down = false }

// Dragged is a finger that moves; part of the toolkit's contract.
func (v *View) Dragged(e *fyne.DragEvent) {
	x, y := v.at(e.Position)
	v.finger.x, v.finger.y = x, y
	switch {
	case v.machine.Stage() == conduct.Test:
		size := v.Size()
		v.machine.TouchAt(float64(e.Position.X/size.Width), float64(e.Position.Y/size.Height))
	case v.finger.down && v.finger.target.Drags():
		v.drag(x, y)
	}
	v.after()
}

// DragEnd is part of the toolkit's contract.
func (v *View) DragEnd() { v.finger.down = false }

// drag turns the knob under the finger to where the finger is.
func (v *View) drag(x, y float64) {
	p := v.places()
	degrees := func(d scene.Dialled) float64 { return math.Atan2(x-d.X, d.Y-y) * 180 / math.Pi }
	switch v.finger.target {
	case conduct.SteerRim:
		v.machine.Drag(conduct.Heading, degrees(p.Heading))
	case conduct.WindRim:
		v.machine.Drag(conduct.WindFrom, degrees(p.From))
	case conduct.SpeedSlide:
		if p.Slot.W > 0 {
			share := math.Max(0, math.Min(1, (x-p.Slot.X)/p.Slot.W))
			kt := conduct.SlowestKt + share*(conduct.FastestKt-conduct.SlowestKt)
			v.machine.Drag(conduct.Speed, 5*math.Round(kt/5))
		}
	}
}

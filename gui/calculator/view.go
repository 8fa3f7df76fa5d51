// Package calculator is the view in which wind triangles are solved and airspeeds
// worked: six boxes and a figure whose corners are dragged, and two rings of which the
// brass one turns. It may take up what the dials show; nothing in it changes a flight.
package calculator

import (
	"errors"
	"io"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/calc"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
)

// View is the calculator of a window.
type View struct {
	screen *kit.Screen
	canvas func() fyne.Canvas
	dials  func() *aboard.View // what the dials show now

	triangle *calc.Triangle
	computer *calc.Computer
	sheet    picture.TriangleView // in units
	curve    bool                 // the curve stands in place of the rings, where there is one card
	steps    steps                // what minus and plus change

	figure   *figure
	rings    *rings
	boxes    []*box
	take     *kit.Key
	letGo    *kit.Key
	height   *kit.Key
	temp     *kit.Key
	less     *kit.Key
	more     *kit.Key
	curveKey *kit.Key
	ring     *ring
	plates   []*plate

	content *fyne.Container
	left    picture.TriangleCardPlaces // in units, each of its own pane
	right   picture.ComputerCardPlaces
}

// New builds the view. dials gives what the dials show when it is called.
func New(screen *kit.Screen, canvas func() fyne.Canvas, dials func() *aboard.View) *View {
	v := &View{screen: screen, canvas: canvas, dials: dials, triangle: calc.NewTriangle(), computer: calc.NewComputer()}
	v.figure, v.rings, v.ring = newFigure(v), newRings(v), newRing(v)
	for q := range calc.Quantities {
		v.boxes = append(v.boxes, newBox(v, calc.Quantity(q)))
	}
	key := func(word, hint look.Key, press func()) *kit.Key {
		k := kit.NewKey(screen, look.Text(word), kit.NoSign, kit.Target, press)
		k.Hint = look.Text(hint)
		return k
	}
	v.take = key(look.CalcTake, look.CalcTakeHint, v.takeDials)
	v.letGo = key(look.CalcLetGo, look.CalcLetHint, v.unlockAll)
	v.height = kit.NewKey(screen, look.Text(look.CalcHeightKey), kit.NoSign, kit.Target, func() { v.stepping(byHeight) })
	v.temp = kit.NewKey(screen, look.Text(look.CalcTemp), kit.NoSign, kit.Target, func() { v.stepping(byTemperature) })
	v.less = kit.NewSignKey(screen, kit.MinusSign, look.CalcLess, func() { v.step(v.less, -1) })
	v.more = kit.NewSignKey(screen, kit.PlusSign, look.CalcMore, func() { v.step(v.more, 1) })
	v.less.Repeats, v.more.Repeats = true, true
	v.curveKey = key(look.CalcCurve, look.CalcCurveHint, v.turnCard)
	v.plates = newPlates(v)
	v.content = container.New(v, v.objects()...)
	v.apply()
	return v
}

func (v *View) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{v.figure, v.rings}
	for _, b := range v.boxes {
		all = append(all, b)
	}
	all = append(all, v.take, v.letGo, v.ring)
	for _, p := range v.plates {
		all = append(all, p)
	}
	return append(all, v.height, v.temp, v.less, v.more, v.curveKey)
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.CalcWord) }

// Shape is part of charttable.Stage; the view does not stand beside the chart.
func (v *View) Shape() float32 { return 1 }

// Apply is part of charttable.Stage; the view does not hang on the moment.
func (v *View) Apply(*helm.Moment) {}

// apply brings all that is shown up to the state.
func (v *View) apply() {
	v.height.Set(v.height.Word, kit.NoSign, v.steps == byHeight)
	v.temp.Set(v.temp.Word, kit.NoSign, v.steps == byTemperature)
	v.curveKey.Set(v.curveKey.Word, kit.NoSign, v.curve)
	if !v.figure.held {
		v.lookAt()
	}
	p := v.screen.Palette
	v.figure.Update(figureKey{*v.triangle, v.sheet, p})
	v.rings.Update(ringsKey{*v.computer, v.curve, p})
	for _, b := range v.boxes {
		b.Update(boxKey{v.quantity(b.q), p})
	}
}

// What the pictures of the view depend on.
type (
	figureKey struct {
		t     calc.Triangle
		sheet picture.TriangleView
		p     *look.Palette
	}
	ringsKey struct {
		c     calc.Computer
		curve bool
		p     *look.Palette
	}
	boxKey struct {
		q picture.Quantity
		p *look.Palette
	}
)

// lookAt moves the sheet under the figure if it does not show well any more.
func (v *View) lookAt() {
	z, t := v.screen.Size(1), v.card().Figure
	if !v.sheet.Holds(z, v.left.Figure, &t) {
		v.sheet = picture.FitTriangle(z, v.left.Figure, &t)
	}
}

// takeDials takes up what the dials show now.
func (v *View) takeDials() {
	dials := v.dials()
	err := errors.Join(v.triangle.Take(dials), v.computer.Take(dials))
	v.apply()
	if err != nil {
		v.take.Tell(err.Error())
	}
}

// unlockAll lets all six quantities go.
func (v *View) unlockAll() {
	v.triangle.LetAllGo()
	v.apply()
}

// turnCard shows the curve in place of the rings, or the rings again.
func (v *View) turnCard() {
	v.curve = !v.curve
	v.apply()
	v.content.Refresh()
}

// Page writes both cards on a page of their own.
func (v *View) Page() func(io.Writer, paint.Format) error {
	left, right := v.card(), v.computerCard()
	right.CurveShown = false
	return func(out io.Writer, f paint.Format) error { return writePage(out, f, left, right) }
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.content.Refresh()
	for _, o := range v.content.Objects {
		o.Refresh()
	}
	for _, s := range v.plates {
		s.Mark()
	}
	v.ring.Mark()
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	all := map[string]fyne.CanvasObject{"calculator": v.figure, "calculator-rings": v.ring, "calculator-take": v.take,
		"calculator-free": v.letGo, "calculator-less": v.less, "calculator-more": v.more, "calculator-height": v.height,
		"calculator-temp": v.temp, "calculator-curve": v.curveKey}
	for i, name := range []string{"heading", "tas", "wind-from", "wind-speed", "track", "groundspeed"} {
		all["calculator-"+name] = v.boxes[i]
	}
	return all
}

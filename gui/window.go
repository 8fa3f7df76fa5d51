// Package gui is the window: bar, views, frame loop, keys, colours. It pulls
// the newest moment of the helm once a frame and paints what has changed.
package gui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/charttable"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/sim"
)

// Window shows one flight.
type Window struct {
	app    fyne.App
	window fyne.Window
	screen kit.Screen
	helm   *helm.Helm
	table  *charttable.Table
	bar    *bar
	anim   *fyne.Animation
	seen   *helm.Moment
	frames int
}

// Open builds the window of a flight and shows it. The clock runs at once.
func Open(app fyne.App, plan *sim.Plan) (*Window, error) {
	engine, err := sim.New(plan)
	if err != nil {
		return nil, err
	}
	survey, err := helm.SurveyOf(plan)
	if err != nil {
		return nil, err
	}
	w := &Window{app: app, helm: helm.New(engine), window: app.NewWindow(look.Text(look.Stillair))}
	w.screen = kit.Screen{Palette: look.Of(look.Paper), W: 1366, H: 768}
	app.Settings().SetTheme(themeOf(w.screen.Palette))
	if w.table, err = charttable.New(w.helm, plan, survey, &w.screen, w.window.Canvas); err != nil {
		w.helm.Stop()
		return nil, err
	}
	w.bar = newBar(w, plan)
	w.window.SetPadded(false)
	w.window.SetContent(container.New(w, append(w.bar.objects(), w.table.Content())...))
	w.window.Resize(fyne.NewSize(1366, 768))
	w.window.Canvas().SetOnTypedKey(w.typedKey)
	w.window.SetOnClosed(w.stop)
	w.startLoop()
	w.helm.Play()
	w.window.Show()
	return w, nil
}

// Layout puts the bar above the view; it is part of the toolkit's contract.
func (w *Window) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	if size.Width != w.screen.W || size.Height != w.screen.H {
		w.screen.W, w.screen.H = size.Width, size.Height
		w.table.Repaint()
		w.bar.recolour()
	}
	h := w.bar.lay(size)
	content := w.table.Content()
	content.Move(fyne.NewPos(0, h))
	content.Resize(fyne.NewSize(size.Width, size.Height-h))
}

// MinSize is part of the toolkit's contract.
func (w *Window) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1024, 680) }

// startLoop pulls the newest moment on every other frame: thirty a second.
func (w *Window) startLoop() {
	w.anim = fyne.NewAnimation(time.Hour, func(float32) {
		w.frames++
		if w.frames%2 == 0 {
			w.pull()
		}
	})
	w.anim.Curve, w.anim.RepeatCount = fyne.AnimationLinear, fyne.AnimationRepeatForever
	w.anim.Start()
}

func (w *Window) pull() {
	if m := w.helm.Moment(); m != w.seen {
		w.seen = m
		w.table.Apply(m)
		w.bar.apply(m)
	}
}

// stop ends the flight before the window goes.
func (w *Window) stop() {
	w.anim.Stop()
	w.helm.Stop()
}

func (w *Window) typedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyN:
		w.nextLight()
	case fyne.KeyV:
		w.reveal()
	case fyne.KeyF11:
		w.window.SetFullScreen(!w.window.FullScreen())
	default:
		w.table.TypedKey(e)
	}
}

// nextLight goes from paper to night and back.
func (w *Window) nextLight() {
	v := look.Night
	if w.screen.Palette.Variant == look.Night {
		v = look.Paper
	}
	w.screen.Palette = look.Of(v)
	w.app.Settings().SetTheme(themeOf(w.screen.Palette))
	w.table.Recolour()
	w.bar.recolour()
}

func (w *Window) reveal() { w.helm.Reveal(w.helm.Moment().Revealed == nil) }

// FailureText is what a user is told when a flight cannot be opened.
func FailureText(name string, err error) string {
	return fmt.Sprintf("stillair: %s cannot be flown:\n%v", name, err)
}

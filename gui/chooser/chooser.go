// Package chooser is the view on which a flight is chosen: the shipped flights
// and the files used lately as cards with small charts, what is to be known of
// the one chosen, and, if a file cannot be flown, everything that is to be put
// right in it. Whatever happens here, the flight in the window is kept until
// another one is ready to be flown.
package chooser

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/scenarios"
)

// Chooser is the view. It belongs to the toolkit's goroutine; flights are opened
// and charts drawn on goroutines of their own.
type Chooser struct {
	// Refused, if set, is called when a list of errors comes up, so that the
	// window can bring the view to the front.
	Refused func()
	// Begin writes a new flight, Edit changes a file, Copy writes one that begins as another.
	Begin func()
	Edit  func(path string) error
	Copy  func(name string, text []byte) error

	screen *kit.Screen
	canvas func() fyne.Canvas
	window fyne.Window
	fly    func(*flights.Flight)
	later  func(func()) // runs on the toolkit's goroutine
	recent *flights.Recent

	records func() []string // the newest records; nil: none are listed

	// Progress, if set, says how far a shipped lesson has been taken: the step at
	// which it was left, from 0, and whether it has been seen to its end.
	Progress func(name string) (step int, seen bool)

	lessons []*entry
	shipped []*entry
	// exercises are those that are graded, the easiest first.
	exercises []*entry
	files     []*entry // used lately
	kept      []*entry // records of what was flown in the window
	chosen    *entry
	opening   int // the newest opening asked for; older ones are let go
	charts    *charts
	asking    *dialog.FileDialog // while it is open

	content *fyne.Container
	ground  *canvas.Rectangle // the toolkit clears its window in a lighter shade
	shelf   *shelf
	told    *told
	refusal *refusal
	chart   *overview
}

// entry is a flight that may be chosen.
type entry struct {
	name    string // shipped name, or "" for a file
	path    string // file, or ""
	title   string
	summary string
	number  int             // of a lesson, from 1; 0: it is none
	steps   int             // of a lesson
	level   int             // of an exercise, 1 the easiest; 0: it is none
	flight  *flights.Flight // nil until it has been opened
	err     error           // why it cannot be flown
	card    *card
}

// called is its name in a sentence: that of the file, or the title.
func (e *entry) called() string {
	if e.path != "" {
		return base(e.path)
	}
	return e.title
}

// New builds the view; canvas gives the canvas it stands on once it does, fly
// takes up the flight that was chosen.
func New(screen *kit.Screen, canvas func() fyne.Canvas, window fyne.Window, fly func(*flights.Flight)) *Chooser {
	c := build(screen, canvas, window, fly, flights.OpenRecent(flights.RecentFile()), screen.Later)
	c.records = func() []string { return flights.Records(flights.RecordFolder(), mostKept) }
	return c
}

// mostKept is how many records are listed.
const mostKept = 8

func build(screen *kit.Screen, on func() fyne.Canvas, window fyne.Window, fly func(*flights.Flight),
	recent *flights.Recent, later func(func())) *Chooser {
	c := &Chooser{screen: screen, canvas: on, window: window, fly: fly, recent: recent, later: later}
	c.charts = newCharts(later)
	for _, s := range scenarios.Shipped() {
		e := &entry{name: s.Name, title: s.Title, summary: s.Summary, steps: s.Steps}
		e.card = newCard(c, e)
		if s.Steps > 0 {
			c.lessons = append(c.lessons, e)
			e.number = len(c.lessons)
			continue
		}
		if e.level = s.Level; e.level > 0 {
			c.exercises = append(c.exercises, e)
			continue
		}
		c.shipped = append(c.shipped, e)
	}
	slices.SortStableFunc(c.exercises, func(a, b *entry) int { return a.level - b.level })
	c.chosen = c.shipped[0]
	c.shelf = newShelf(c)
	c.told = newTold(c)
	c.refusal = newRefusal(c)
	c.chart = newOverview(c)
	c.ground = canvas.NewRectangle(screen.Palette.Ground)
	c.content = container.New(c, c.ground, c.shelf.scroll, c.told.content, c.chart, c.refusal.content)
	return c
}

// Content is the view for the window.
func (c *Chooser) Content() fyne.CanvasObject { return c.content }

// Show is called when the view comes to the front: current is the flight in the
// window. A list of errors that shows stays: someone is putting them right.
func (c *Chooser) Show(current *flights.Flight) {
	c.listFiles()
	c.open(slices.Concat(c.shipped, c.exercises, c.lessons, c.files, c.kept)) // those with charts first
	if c.refusal.content.Visible() {
		c.told.apply()
		return
	}
	at := c.chosen
	for _, e := range c.entries() {
		if current != nil && e.path == current.Path && (e.path != "" || e.name == current.Name) {
			at = e
		}
	}
	c.choose(at)
}

// entries are all that may be chosen, in the order of the keyboard.
func (c *Chooser) entries() []*entry {
	return slices.Concat(c.lessons, c.shipped, c.exercises, c.files, c.kept)
}

// listFiles takes up the lists of files used lately and of records.
func (c *Chooser) listFiles() {
	c.files = c.listed(c.files, c.recent.Paths())
	if c.records != nil {
		c.kept = c.listed(c.kept, c.records())
	}
	if !c.has(c.chosen) {
		c.chosen = c.shipped[0]
	}
	c.shelf.fill()
}

// listed are the entries of files, those of them that were listed before as they
// were.
func (c *Chooser) listed(before []*entry, paths []string) (now []*entry) {
	for _, path := range paths {
		at := slices.IndexFunc(before, func(e *entry) bool { return e.path == path })
		if at >= 0 {
			now = append(now, before[at])
			continue
		}
		e := &entry{path: path, title: base(path)}
		e.card = newCard(c, e)
		now = append(now, e)
	}
	return now
}

func (c *Chooser) has(e *entry) bool {
	for _, o := range c.entries() {
		if o == e {
			return true
		}
	}
	return false
}

// open opens entries one after the other: shipped flights once, files each time,
// for they may have changed.
func (c *Chooser) open(list []*entry) {
	var todo []*entry
	for _, e := range list {
		if e.path != "" || e.flight == nil && e.err == nil {
			todo = append(todo, e)
		}
	}
	go func() {
		for _, e := range todo {
			f, err := openKey(e.name, e.path)
			c.later(func() { c.opened(e, f, err) })
		}
	}()
}

func openKey(name, path string) (*flights.Flight, error) {
	if path != "" {
		return flights.OpenFile(path)
	}
	return flights.OpenShipped(name)
}

// opened takes up what opening an entry gave.
func (c *Chooser) opened(e *entry, f *flights.Flight, err error) {
	same := f != nil && e.flight != nil && string(f.Source.Text) == string(e.flight.Source.Text)
	e.err = err
	if !same { // else the charts drawn are kept
		e.flight = f
	}
	switch {
	case f != nil:
		e.title, e.summary = f.Plan.Title, f.Summary
	case e.path != "":
		e.title, e.summary = base(e.path), ""
	}
	e.card.Repaint()
	switch {
	case e != c.chosen:
	case err == nil && e.path != "" && e.path == c.refusal.path:
		c.refusal.hide() // it has been put right
		fallthrough
	default:
		c.choose(e)
	}
}

// choose makes an entry the chosen one. What is wrong with it, if anything,
// shows at once.
func (c *Chooser) choose(e *entry) {
	before := c.chosen
	c.chosen = e
	before.card.Repaint()
	e.card.Repaint()
	switch {
	case e.err != nil:
		c.refusal.show(e.called(), e.err)
	case before != e:
		c.refusal.hide()
	}
	c.told.apply()
	c.chart.Repaint()
}

// flyChosen flies the chosen flight; a file is read anew.
func (c *Chooser) flyChosen() {
	e := c.chosen
	switch {
	case e.path != "":
		c.OpenPath(e.path)
	case e.flight != nil:
		c.fly(e.flight)
	}
}

// OpenPath opens a flight file and flies it, or shows what is wrong with it.
func (c *Chooser) OpenPath(path string) {
	c.load(path, func(f *flights.Flight) {
		c.refusal.hide()
		c.fly(f)
	})
}

// load opens a file; then is called with the flight if it can be flown. Of
// several files asked for in a row only the last one counts.
func (c *Chooser) load(path string, then func(*flights.Flight)) {
	c.opening++
	turn := c.opening
	c.told.busy(true)
	go func() {
		f, err := flights.OpenFile(path)
		c.later(func() {
			if turn != c.opening {
				return
			}
			c.told.busy(false)
			c.remember(f, err)
			if err != nil {
				c.Refuse(base(path), err)
				return
			}
			then(f)
		})
	}()
}

// remember puts a file first in the list and chooses it. A file that is no
// flight at all is not remembered.
func (c *Chooser) remember(f *flights.Flight, err error) {
	var refused *flights.Refused
	path := ""
	switch {
	case err == nil:
		path = f.Path
	case errors.As(err, &refused) && refused.Lines != nil:
		path = refused.Path
	}
	if path == "" {
		return
	}
	e := c.keptAt(path)
	if e == nil {
		c.recent.Add(path)
		c.listFiles()
		e = c.files[0]
	}
	c.opened(e, f, err)
	c.choose(e)
	c.shelf.reveal(e)
}

// keptAt is the record that is listed with this path, nil if none is.
func (c *Chooser) keptAt(path string) *entry {
	for _, e := range c.kept {
		if e.path == path {
			return e
		}
	}
	return nil
}

// Refuse shows what is wrong with a flight.
func (c *Chooser) Refuse(name string, err error) {
	c.refusal.show(name, err)
	if c.Refused != nil {
		c.Refused()
	}
}

// Recolour paints everything anew in the colours of the screen.
func (c *Chooser) Recolour() { c.Repaint() }

// Repaint paints everything anew, in the size of the screen.
func (c *Chooser) Repaint() {
	c.ground.FillColor = c.screen.Palette.Ground
	c.ground.Refresh()
	for _, e := range c.entries() {
		e.card.Refresh()
	}
	c.shelf.repaint()
	c.told.repaint()
	c.refusal.repaint()
	c.chart.Refresh()
	c.content.Refresh()
}

// Named are the parts a probe may want to find in the window.
func (c *Chooser) Named() map[string]fyne.CanvasObject {
	parts := map[string]fyne.CanvasObject{
		"chooser": c.content, "chooser-told": c.told.content, "fly-it": c.told.fly, "way-of-use": c.told.school, "open-file": c.told.open,
		"new-flight": c.told.begin, "edit-copy": c.told.copy,
	}
	for _, e := range slices.Concat(c.lessons, c.shipped, c.exercises) {
		parts["flight-"+e.name] = e.card
	}
	for _, e := range slices.Concat(c.files, c.kept) {
		parts["file-"+base(e.path)] = e.card
	}
	if c.refusal.content.Visible() {
		parts["refusal"], parts["check-again"] = c.refusal.content, c.refusal.check
		parts["copy-list"], parts["close-refusal"] = c.refusal.copy, c.refusal.close
	}
	return parts
}

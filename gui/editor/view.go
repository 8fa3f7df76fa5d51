// Package editor is the view beside the chart in which a flight is written: its route is
// drawn on the chart, and weather, settings, the crew's actions and faults are typed in a
// panel. The draft is a file's text that package edit changes; nothing here touches the
// flight in the window until the draft is flown.
package editor

import (
	"io"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillair/gui/charttable"
	"stillair/gui/drafting"
	"stillair/gui/flights"
	"stillair/gui/helm"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/units"
	"stillair/scenarios/edit"
)

// View is the editor of a window. It outlives a flight: what is being written stays.
type View struct {
	screen *kit.Screen
	canvas func() fyne.Canvas

	draft  *edit.Draft // nil: nothing is being written
	path   string      // of its file; "": it has none yet
	stands bool

	tab     drafting.Tab
	open    string // the table whose rows show
	rows    []drafting.Row
	first   int // row on top
	picking *picking
	adding  bool   // taps on the chart add legs
	said    string // why the last change was refused, or what was done
	bad     bool   // it was refused
	made    int    // how often what is shown has changed

	hand    grip
	sheet   picture.View // the chart as it was drawn last
	content *fyne.Container
	pane    *pane
	list    *list
	strip   *strip
	tabs    []*kit.Key
	keys    map[role]*kit.Key

	// Chart puts the draft on the chart, nil takes it off.
	Chart func(d *charttable.Drafted, fitted bool) error
	// Fly takes up a flight in the window.
	Fly func(*flights.Flight)
	// Kept is told the path of a flight that was saved.
	Kept func(path string)

	// Later comes back to the toolkit's goroutine.
	Later  func(func())
	folder func() string
}

// picking is a list of choices that stands in the place of the rows.
type picking struct {
	first, marked int // of the rows, to be gone back to
	title         string
	picks         []drafting.Pick
	take          func(value string) error
}

// role says what a key does.
type role uint8

const (
	addKey role = iota // what a tab can add
	add2Key
	add3Key
	removeKey
	backKey
	undoKey
	redoKey
	saveKey
	flyKey
)

var tabWords = []look.Key{look.EditorRoute, look.EditorWeather, look.EditorSettings, look.EditorEvents}

// New builds the view.
func New(screen *kit.Screen, canvas func() fyne.Canvas) *View {
	v := &View{screen: screen, canvas: canvas, Later: screen.Later, folder: flights.DraftFolder}
	v.Chart = func(*charttable.Drafted, bool) error { return nil }
	v.Fly, v.Kept = func(*flights.Flight) {}, func(string) {}
	v.hand = grip{view: v, point: -1}
	v.pane, v.list, v.strip = newPane(v), newList(v), newStrip(v)
	for i, w := range tabWords {
		k := kit.NewKey(screen, look.Text(w), kit.NoSign, kit.Target, func() { v.turn(drafting.Tab(i)) })
		v.tabs = append(v.tabs, k)
	}
	key := func(word look.Key, press func()) *kit.Key {
		return kit.NewKey(screen, look.Text(word), kit.NoSign, kit.Target, press)
	}
	v.keys = map[role]*kit.Key{
		addKey: key(look.EditorAddLeg, v.add), add2Key: key(look.EditorAddTime, v.addSecond),
		add3Key:   key(look.EditorAddMoment, v.addMoment),
		removeKey: key(look.EditorRemove, v.remove), backKey: key(look.EditorBack, v.back),
		undoKey: key(look.EditorUndo, v.undo), redoKey: key(look.EditorRedo, v.redo),
		saveKey: key(look.EditorSave, v.save), flyKey: key(look.EditorFly, v.fly),
	}
	v.keys[flyKey].Main = true
	for r, hint := range map[role]look.Key{undoKey: look.EditorUndoHint, redoKey: look.EditorRedoHint, saveKey: look.EditorSaveHint, flyKey: look.EditorFlyHint} {
		v.keys[r].Hint = look.Text(hint)
	}
	v.content = container.New(v, v.objects()...)
	v.apply()
	return v
}

func (v *View) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{v.pane, v.list, v.strip}
	for _, k := range v.tabs {
		all = append(all, k)
	}
	for r := addKey; r <= flyKey; r++ {
		all = append(all, v.keys[r])
	}
	return all
}

// Content is the view for the window.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Name is what the view is called.
func (v *View) Name() string { return look.Text(look.EditorWord) }

// Shape is part of charttable.Stage.
func (v *View) Shape() float32 { return 0.8 }

// Apply is part of charttable.Stage; the view does not hang on the moment.
func (v *View) Apply(*helm.Moment) {}

// Writes says whether a flight is being written.
func (v *View) Writes() bool { return v.draft != nil }

// Begin takes up a new flight.
func (v *View) Begin() {
	v.take(drafting.New(look.Text(look.EditorNewTitle), look.Text(look.EditorNewTitle)))
}

// Copy takes up a copy of a flight's file. The error is the loader's if it is no TOML.
func (v *View) Copy(name string, text []byte) error {
	d, err := edit.New(strings.TrimSuffix(name, flights.Suffix), text)
	if err != nil {
		return drafting.Told(err)
	}
	v.take(d)
	return nil
}

// Open takes up a file itself: to save is to write it. The error is that of reading it,
// or the loader's if it is no TOML.
func (v *View) Open(path string) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	d, err := edit.New(filepath.Base(path), text)
	if err != nil {
		return drafting.Told(err)
	}
	v.take(d)
	v.path = path
	v.apply()
	return nil
}

// Free says whether a file can be taken up without loss: nothing is being written, or all
// of it is kept, and it is another file than that.
func (v *View) Free(path string) bool {
	return v.draft == nil || !v.draft.Changed() && v.path != path
}

// take takes up a draft.
func (v *View) take(d *edit.Draft) {
	v.draft, v.path, v.open, v.first, v.tab = d, "", "", 0, drafting.RouteTab
	v.picking, v.adding, v.said, v.bad = nil, false, "", false
	v.changed()
	v.chart(true)
}

// Bring is told when the view comes and when it goes.
func (v *View) Bring(there bool) {
	v.stands = there
	if !there {
		v.adding = false
		_ = v.Chart(nil, false)
		return
	}
	if v.draft == nil {
		v.Begin()
		return
	}
	v.chart(true)
}

// Shut closes what is open, the topmost first; false if nothing was.
func (v *View) Shut() bool {
	switch {
	case !v.stands:
		return false
	case v.picking != nil:
		v.back()
	case v.adding:
		v.adding = false
		v.apply()
	default:
		return false
	}
	return true
}

// do makes changes and shows what came of it.
func (v *View) do(changes []edit.Change, err error) {
	if err == nil {
		err = drafting.Told(v.draft.Do(changes...))
	}
	v.tell(err)
	v.changed()
}

// tell keeps what is to be said of a change.
func (v *View) tell(err error) {
	v.said, v.bad = "", err != nil
	if err != nil {
		v.said = err.Error()
	}
}

// changed shows another state of the draft.
func (v *View) changed() {
	if v.open != "" && !v.draft.Has(v.open) {
		v.open = ""
	}
	v.rows = drafting.Rows(v.draft, v.tab, v.open)
	v.chart(false)
	v.apply()
}

// apply brings all that is shown up to the state.
func (v *View) apply() {
	v.made++
	for i, k := range v.tabs {
		k.Set(k.Word, kit.NoSign, int(v.tab) == i && v.picking == nil)
	}
	v.first = max(0, min(v.first, v.count()-v.list.room()))
	if v.draft != nil {
		v.applyKeys()
	}
	picking := v.picking != nil
	events := v.tab == drafting.EventsTab && !picking
	kit.Show(events, v.strip)
	kit.Show(!picking && v.tab != drafting.SettingsTab, v.keys[addKey], v.keys[removeKey])
	kit.Show(!picking && (v.tab == drafting.WeatherTab || v.tab == drafting.EventsTab), v.keys[add2Key])
	kit.Show(events, v.keys[add3Key])
	kit.Show(picking, v.keys[backKey])
	v.content.Refresh()
	v.paint()
}

func (v *View) paint() {
	key := paneKey{v.made, v.screen.Palette}
	v.pane.Update(key)
	v.list.Update(listKey{key, v.first})
	v.strip.Update(key)
}

// adders are the words of what each tab can add.
var adders = map[drafting.Tab][2]look.Key{
	drafting.RouteTab:   {look.EditorAddLeg, ""},
	drafting.WeatherTab: {look.EditorAddLevel, look.EditorAddTime},
	drafting.EventsTab:  {look.EditorAddAction, look.EditorAddFault},
}

// applyKeys brings the keys up to what can be done.
func (v *View) applyKeys() {
	forbid := func(r role, can bool, why look.Key) {
		reason := ""
		if !can {
			reason = look.Text(why)
		}
		v.keys[r].Forbid(reason)
	}
	if words, ok := adders[v.tab]; ok {
		v.keys[addKey].Set(look.Text(words[0]), kit.NoSign, v.adding)
		if words[1] != "" {
			v.keys[add2Key].Set(look.Text(words[1]), kit.NoSign, false)
		}
	}
	v.keys[addKey].Hint, v.keys[add2Key].Hint = "", ""
	switch v.tab {
	case drafting.RouteTab:
		v.keys[addKey].Hint = look.Text(look.EditorAddLegHint)
	case drafting.WeatherTab:
		v.keys[addKey].Hint, v.keys[add2Key].Hint = look.Text(look.EditorAddLevelHint), look.Text(look.EditorAddTimeHint)
	}
	forbid(removeKey, v.open != "", look.EditorRemoveNone)
	forbid(undoKey, v.draft.CanUndo(), look.EditorUndoNone)
	forbid(redoKey, v.draft.CanRedo(), look.EditorRedoNone)
	forbid(saveKey, v.path == "" || v.draft.Changed(), look.EditorNothing)
	forbid(flyKey, v.draft.Wrong() == nil, look.EditorWrong)
}

// turn turns to a tab.
func (v *View) turn(t drafting.Tab) {
	v.tab, v.open, v.first, v.picking, v.adding = t, "", 0, nil, false
	v.tell(nil)
	v.changed()
}

// words are what stands at the foot: the last refusal, what is wrong, or that all is well.
func (v *View) words() (words string, bad bool) {
	switch {
	case v.said != "":
		return v.said, v.bad
	case v.draft.Wrong() != nil:
		return look.Text(look.EditorWrongCount) + " " + strings.Join(drafting.Problems(v.draft.Wrong()), "; "), true
	case v.adding:
		return look.Text(look.EditorTap), false
	case v.tab == drafting.RouteTab:
		return look.Text(look.EditorDrag), false
	}
	p := v.draft.Plan()
	legs := look.Text(look.EditorOneLeg)
	if len(p.Legs) != 1 {
		legs = look.Textf(look.EditorLegs, len(p.Legs))
	}
	length := drafting.Length(p)
	return look.Textf(look.EditorGood, legs, flights.LengthText(length)+", "+units.TimeText(p.Start)+" to "+units.TimeText(p.Start.Add(length))), false
}

// Page writes the rows of the draft on a page.
func (v *View) Page() func(io.Writer, paint.Format) error {
	var rows [][]drafting.Row
	title := ""
	if v.draft != nil {
		title = v.draft.Name()
		for t := range drafting.Tabs {
			rows = append(rows, drafting.Rows(v.draft, t, ""))
		}
	}
	return func(out io.Writer, f paint.Format) error { return writePage(out, f, title, rows) }
}

// Repaint paints everything anew, in the colours and the size of the screen.
func (v *View) Repaint() {
	v.made++
	v.content.Refresh()
	for _, o := range v.content.Objects {
		o.Refresh()
	}
}

// Named are the parts a probe may want to find in the window.
func (v *View) Named() map[string]fyne.CanvasObject {
	all := map[string]fyne.CanvasObject{
		"draft-list": v.list, "draft-strip": v.strip, "draft-add": v.keys[addKey], "draft-add-second": v.keys[add2Key], "draft-add-moment": v.keys[add3Key],
		"draft-remove": v.keys[removeKey], "draft-back": v.keys[backKey], "draft-undo": v.keys[undoKey],
		"draft-redo": v.keys[redoKey], "draft-save": v.keys[saveKey], "draft-fly": v.keys[flyKey],
	}
	for i, name := range []string{"route", "weather", "settings", "events"} {
		all["draft-"+name] = v.tabs[i]
	}
	return all
}

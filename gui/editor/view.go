// Package editor is the view beside the chart in which a flight is written: its route is
// drawn on the chart, and weather, settings, the crew's actions and faults are typed in a
// panel. The draft is a file's text that package edit changes; nothing here touches the
// flight in the window until the draft is flown.
package editor

import (
	"errors"
	"io"
	"path/filepath"
	"regexp"
	"strconv"
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
	"stillair/scenarios"
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

	// Chart puts the draft on the chart, nil takes it off; Redraw draws it anew.
	Chart  func(d *charttable.Drafted, fitted bool) error
	Redraw func()
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
	title string
	picks []drafting.Pick
	take  func(value string) error
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
	v := &View{screen: screen, canvas: canvas, Later: fyne.Do, folder: flights.DraftFolder}
	v.Chart = func(*charttable.Drafted, bool) error { return nil }
	v.Redraw, v.Fly, v.Kept = func() {}, func(*flights.Flight) {}, func(string) {}
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

func (v *View) undo() {
	v.draft.Undo()
	v.tell(nil)
	v.changed()
}

func (v *View) redo() {
	v.draft.Redo()
	v.tell(nil)
	v.changed()
}

// add adds what the tab holds.
func (v *View) add() {
	switch v.tab {
	case drafting.RouteTab:
		v.adding = !v.adding
		v.tell(nil)
		v.apply()
	case drafting.WeatherTab:
		v.addWind(drafting.AddLevel)
	case drafting.EventsTab:
		v.pick(look.EditorPickAction, drafting.NewActions(v.draft), drafting.AddAction)
	}
}

// addSecond adds the other thing that the tab holds.
func (v *View) addSecond() {
	if v.tab == drafting.WeatherTab {
		v.addWind(drafting.AddTime)
		return
	}
	v.pick(look.EditorPickFault, drafting.NewFaults(v.draft), drafting.AddFault)
}

// addMoment names a time of the flight.
func (v *View) addMoment() {
	made, err := drafting.AddMoment(v.draft)
	v.tell(err)
	if err == nil {
		v.choose(made)
		return
	}
	v.apply()
}

func (v *View) addWind(by func(*edit.Draft, string) ([]edit.Change, string, error)) {
	changes, made, err := by(v.draft, v.open)
	v.do(changes, err)
	if !v.bad {
		v.choose(made)
	}
}

// pick has an action or a fault chosen and added.
func (v *View) pick(title look.Key, picks []drafting.Pick, add func(*edit.Draft, string) (string, error)) {
	v.ask(look.Text(title), picks, func(value string) error {
		made, err := add(v.draft, value)
		if err == nil {
			v.open = made
		}
		return err
	})
}

// ask has something chosen of a list.
func (v *View) ask(title string, picks []drafting.Pick, take func(string) error) {
	v.picking, v.first = &picking{title, picks, take}, 0
	v.list.marked = 0
	v.apply()
}

// back shuts the list of choices.
func (v *View) back() {
	v.picking, v.first = nil, 0
	v.reveal(v.open)
	v.apply()
}

// remove takes away the table that is open.
func (v *View) remove() {
	if v.open == "" {
		return
	}
	if v.tab == drafting.RouteTab {
		n := v.leg()
		v.open = ""
		v.do(drafting.RemoveLeg(v.draft, n))
		return
	}
	gone := v.open
	v.open = ""
	v.do([]edit.Change{edit.Remove(gone)}, nil)
}

// leg is the number of the leg that is open, 0 if none is.
func (v *View) leg() int {
	n, _ := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(v.open, "leg["), "]"))
	if !strings.HasPrefix(v.open, "leg[") {
		return 0
	}
	return n
}

// choose opens a table and brings its head in sight; the one that is open is shut.
func (v *View) choose(item string) {
	v.open = item
	v.changed()
	v.reveal(item)
	v.apply()
}

// reveal scrolls until the rows of a table are in sight.
func (v *View) reveal(item string) {
	if item == "" {
		return
	}
	for i, r := range v.rows {
		if r.Kind != drafting.HeadRow || r.Item != item {
			continue
		}
		end := i + 1
		for end < len(v.rows) && v.rows[end].Kind == drafting.ValueRow {
			end++
		}
		v.list.marked = i
		v.first = min(i, max(v.first, end-v.list.room()))
		return
	}
}

// touch does what a row is for.
func (v *View) touch(i int) {
	if p := v.picking; p != nil {
		if i >= len(p.picks) || p.picks[i].Title {
			return
		}
		err := p.take(p.picks[i].Value)
		v.picking, v.first = nil, 0
		v.tell(err)
		v.changed()
		v.reveal(v.open)
		v.apply()
		return
	}
	if i >= len(v.rows) {
		return
	}
	v.list.marked = i
	r := v.rows[i]
	switch {
	case r.Kind == drafting.HeadRow && r.Item == v.open:
		v.choose("")
	case r.Kind == drafting.HeadRow:
		v.choose(r.Item)
	case r.Kind == drafting.TitleRow:
	case r.Picks != nil:
		v.ask(r.Label, r.Picks, func(value string) error { return r.Take(v.draft, value) })
	default:
		kit.Ask(v.canvas(), v.screen, r.Label, r.Hint, r.Now, func(text string) error {
			err := r.Take(v.draft, text)
			if err == nil {
				v.tell(nil)
				v.changed()
			}
			return err
		})
	}
}

// fly takes the draft up as the flight in the window.
func (v *View) fly() {
	name, text, path := v.called(), v.draft.Text(), v.path
	clean := path != "" && !v.draft.Changed()
	v.keys[flyKey].Forbid(look.Text(look.ChooserOpening))
	go func() {
		f, err := (*flights.Flight)(nil), error(nil)
		if clean {
			f, err = flights.OpenFile(path)
		} else {
			f, err = flights.OpenText(name, text)
		}
		v.Later(func() {
			v.tell(err)
			v.apply()
			if err == nil {
				v.Fly(f)
			}
		})
	}()
}

// called is the name of the draft.
func (v *View) called() string {
	if v.path != "" {
		return filepath.Base(v.path)
	}
	return v.draft.Name()
}

// nameForm is what a flight may be called as a file.
var nameForm = regexp.MustCompile(`^[\pL\pN][\pL\pN _-]{0,39}$`)

// save keeps the draft as a file; the first time its name is asked for.
func (v *View) save() {
	if v.path != "" {
		v.saved(v.path, flights.Keep(v.path, v.draft.Text(), false))
		return
	}
	folder := v.folder()
	kit.Ask(v.canvas(), v.screen, look.Text(look.EditorSaveAsk), look.Textf(look.EditorSaveAskHint, shorter(folder)), v.freeName(), func(name string) error {
		name = strings.TrimSuffix(strings.TrimSpace(name), flights.Suffix)
		if !nameForm.MatchString(name) {
			return errors.New(look.Text(look.EditorBadName))
		}
		for _, s := range scenarios.Shipped() {
			if strings.EqualFold(s.Name, name) {
				return errors.New(look.Textf(look.EditorShipped, s.Name))
			}
		}
		path := filepath.Join(folder, name+flights.Suffix)
		err := flights.Keep(path, v.draft.Text(), true)
		if errors.Is(err, flights.ErrTaken) {
			return errors.New(look.Text(look.EditorExists))
		}
		if err == nil {
			v.saved(path, nil)
		}
		return err
	})
}

// shorter is the end of a long path.
func shorter(path string) string {
	const most = 44
	r := []rune(path)
	if len(r) <= most {
		return path
	}
	return "..." + string(r[len(r)-most:])
}

// freeName offers a name that is no shipped flight's.
func (v *View) freeName() string {
	name := strings.ToLower(strings.Join(regexp.MustCompile(`[\pL\pN]+`).FindAllString(v.draft.Name(), -1), "-"))
	for _, s := range scenarios.Shipped() {
		if s.Name == name {
			return "my-" + name
		}
	}
	return name
}

// saved shows that the draft is on disk.
func (v *View) saved(path string, err error) {
	v.tell(err)
	if err == nil {
		v.path = path
		v.draft.Rename(filepath.Base(path))
		v.draft.Saved()
		v.said = look.Textf(look.EditorSaved, filepath.Base(path))
		v.Kept(path)
	}
	v.apply()
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

package trainee

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/gui/training/score"
)

// taskCard is what the trainee is told before the flight.
type taskCard struct{ page }

func newTaskCard(v *View) *taskCard {
	t := &taskCard{}
	t.page = newPage(v, t.paint)
	t.page.show = func() { t.frame(t.objects()) }
	t.shut.Press = func() {
		t.open(false)
		v.bar.apply()
		if v.brief.Alone && v.now.View.Tick == 0 {
			v.deeds.Play()
		}
	}
	return t
}

func (t *taskCard) objects() []fyne.CanvasObject { return []fyne.CanvasObject{t.paper, t.shut} }

func (t *taskCard) paint(d *paint.Raster, w, _ float64, z look.Size) {
	v := t.view
	t.title(d, w, z, v.brief.Title)
	words := v.brief.Task
	if words == "" {
		words = look.Text(look.TraineeNoTask)
	}
	y := t.words(d, w, head*z.Device, z, look.TextBody, words)
	t.words(d, w, y+10*z.Device, z, look.TextSmall, look.Text(look.TraineeHow))
}

// sheetCard is the marks, after landing.
type sheetCard struct {
	page
	leave, savePage, saveTable *kit.Key
}

func newSheetCard(v *View) *sheetCard {
	s := &sheetCard{}
	s.page = newPage(v, s.paint)
	s.page.show = s.arrange
	s.shut.Press = func() { s.open(false) }
	key := func(word look.Key, press func()) *kit.Key {
		return kit.NewKey(v.screen, look.Text(word), kit.NoSign, kit.Target, press)
	}
	s.leave = key(look.SheetLeave, v.deeds.Leave)
	s.savePage, s.saveTable = key(look.SheetPage, v.deeds.SavePage), key(look.SheetTable, v.deeds.SaveTable)
	s.leave.Main = true
	return s
}

func (s *sheetCard) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{s.paper, s.shut, s.leave, s.savePage, s.saveTable}
}

func (s *sheetCard) keys() (all []*kit.Key) {
	for _, k := range []*kit.Key{s.savePage, s.saveTable, s.leave} {
		if k.Press != nil {
			all = append(all, k)
		}
	}
	return all
}

func (s *sheetCard) arrange() {
	if s.view.landed == nil {
		kit.Show(false, s.objects()...)
		return
	}
	if !s.frame(s.objects()) {
		return
	}
	in, keys := s.inner(), s.keys()
	w := (in.W - float32(len(keys)-1)*4) / float32(max(1, len(keys)))
	for i, k := range keys {
		kit.Box{X: in.X + float32(i)*(w+4), Y: in.Y + in.H - kit.Target, W: w, H: kit.Target}.Put(k)
		kit.Show(true, k)
	}
}

func (s *sheetCard) paint(d *paint.Raster, w, h float64, z look.Size) {
	t := s.view.landed
	if t == nil {
		return
	}
	u := z.Device
	s.title(d, w, z, look.Textf(look.SheetTitle, t.Title))
	b := picture.NewBrush(d, s.paper.Palette(), z)
	foot := h - (pad+kit.Target+8)*u
	room := paint.R(pad*u, head*u, w-2*pad*u, foot-head*u)
	if w > 1.15*h { // side by side
		left, right := room, room
		left.W = 0.48 * room.W
		right.X, right.W = room.X+0.52*room.W, 0.48*room.W
		score.DrawMarks(b, left, t)
		score.DrawFindings(b, right, t)
		return
	}
	y := room.Y + score.DrawMarks(b, room, t)
	score.DrawFindings(b, paint.R(room.X, y, room.W, foot-y), t)
}

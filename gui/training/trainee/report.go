package trainee

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/training/score"
)

// reportCard is where the trainee says what is suspected: a link, one of its faults, and
// whether it is sure. The first page tells what has been reported.
type reportCard struct {
	page
	links []*kit.Key
	kinds [mostKinds]*kit.Key
	alone *kit.Key // the link, without a fault
	more  *kit.Key
	back  *kit.Key
	sure  *kit.Key
	not   *kit.Key

	link int // -1: none yet
	kind int // -1: none yet; of the link; len: the link alone
	from int
}

const mostKinds = 9

func newReportCard(v *View) *reportCard {
	r := &reportCard{link: -1, kind: -1}
	r.page = newPage(v, r.paint)
	r.page.show = r.arrange
	r.shut.Press = func() { r.begin(); r.open(false); v.bar.apply() }
	key := func(word look.Key, press func()) *kit.Key {
		return kit.NewKey(v.screen, look.Text(word), kit.NoSign, kit.Target, press)
	}
	for i, l := range v.brief.Chain {
		r.links = append(r.links, kit.NewKey(v.screen, l.Title, kit.NoSign, kit.Target, func() { r.choose(i, -1) }))
	}
	for i := range r.kinds {
		r.kinds[i] = kit.NewKey(v.screen, "", kit.NoSign, kit.Target, func() { r.choose(r.link, r.from+i) })
		r.kinds[i].Plain, r.kinds[i].Under = true, " "
	}
	r.alone = key(look.ReportAlone, func() { r.choose(r.link, len(v.brief.Chain[r.link].Kinds)) })
	r.more, r.back = key(look.BreakMore, r.turn), key(look.BreakBack, r.goBack)
	r.sure, r.not = key(look.ReportIAmSure, func() { r.make(true) }), key(look.ReportIAmNot, func() { r.make(false) })
	r.sure.Main = true
	return r
}

func (r *reportCard) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.paper, r.back, r.shut}
	for _, k := range r.links {
		all = append(all, k)
	}
	for _, k := range r.kinds {
		all = append(all, k)
	}
	return append(all, r.alone, r.more, r.sure, r.not) // in the order of the keyboard
}

func (r *reportCard) begin() { r.link, r.kind, r.from = -1, -1, 0 }

func (r *reportCard) choose(link, kind int) {
	if link >= 0 && link < len(r.view.brief.Chain) && kind <= len(r.view.brief.Chain[link].Kinds) {
		r.link, r.kind = link, kind
		r.arrange()
		r.keyboard() // the key that was pressed is gone
	}
}

func (r *reportCard) turn() {
	if r.from += r.room(); r.from >= len(r.view.brief.Chain[r.link].Kinds) {
		r.from = 0
	}
	r.arrange()
}

func (r *reportCard) goBack() {
	if r.kind >= 0 {
		r.kind = -1
	} else {
		r.begin()
	}
	r.arrange()
	r.keyboard()
}

// kindAt is the id on a key, "" if it shows none.
func (r *reportCard) kindAt(i int) string {
	if r.link < 0 || r.from+i >= len(r.view.brief.Chain[r.link].Kinds) {
		return ""
	}
	return r.view.brief.Chain[r.link].Kinds[r.from+i].ID
}

// chosen is the fault chosen, "" for the link alone.
func (r *reportCard) chosen() string {
	if kinds := r.view.brief.Chain[r.link].Kinds; r.kind < len(kinds) {
		return kinds[r.kind].ID
	}
	return ""
}

// make makes the report.
func (r *reportCard) make(sure bool) {
	v := r.view
	if r.link < 0 || r.kind < 0 || v.now.Over {
		return
	}
	v.book.Report(score.Report{At: v.now.View.Elapsed, Link: v.brief.Chain[r.link].Name, Fault: r.chosen(), Sure: sure})
	r.begin()
	r.arrange()
	r.keyboard()
	v.See(v.now)
}

// room is how many faults have room at once.
func (r *reportCard) room() int {
	rows := int((r.inner().H - head + pad - 2*step) / step)
	return max(1, min(rows, mostKinds))
}

func (r *reportCard) arrange() {
	if !r.frame(r.objects()) {
		return
	}
	in := r.inner()
	if r.link >= 0 {
		w := r.back.Needs() + 20
		kit.Box{X: in.X + in.W - r.shut.Size().Width - 8 - w, Y: in.Y, W: w, H: kit.Target}.Put(r.back)
		kit.Show(true, r.back)
	}
	y, half := r.place.Y+head, (in.W-4)/2
	switch {
	case r.link < 0:
		y += 30
		for i, k := range r.links {
			kit.Box{X: in.X + float32(i%2)*(half+4), Y: y + float32(i/2)*step, W: half, H: kit.Target}.Put(k)
			kit.Show(true, k)
		}
	case r.kind < 0:
		r.arrangeKinds(in, y)
	default:
		foot := in.Y + in.H - kit.Target
		kit.Box{X: in.X, Y: foot, W: half, H: kit.Target}.Put(r.sure)
		kit.Box{X: in.X + half + 4, Y: foot, W: half, H: kit.Target}.Put(r.not)
		kit.Show(true, r.sure, r.not)
	}
}

func (r *reportCard) arrangeKinds(in kit.Box, y float32) {
	kinds, n := r.view.brief.Chain[r.link].Kinds, r.room()
	for i := 0; i < n && r.from+i < len(kinds); i++ {
		k := r.kinds[i]
		k.Word, k.Under = twoLines(kinds[r.from+i].Title, r.view.screen.Size(1), float64(in.W)-26)
		kit.Box{X: in.X, Y: y, W: in.W, H: kit.Target}.Put(k)
		kit.Show(true, k)
		k.Repaint()
		y += step
	}
	half, foot := (in.W-4)/2, in.Y+in.H-kit.Target
	wide := in.W
	if n < len(kinds) {
		kit.Box{X: in.X + half + 4, Y: foot, W: half, H: kit.Target}.Put(r.more)
		kit.Show(true, r.more)
		wide = half
	}
	kit.Box{X: in.X, Y: foot, W: wide, H: kit.Target}.Put(r.alone)
	kit.Show(true, r.alone)
}

// twoLines breaks a name over the two lines of a key.
func twoLines(words string, z look.Size, room float64) (first, second string) {
	t := paint.Type{Font: look.Semibold.Font(), Size: min(z.Text(look.TextBody), 19)}
	lines := t.Wrap(words, room)
	if len(lines) == 1 {
		return lines[0], " "
	}
	second = lines[1]
	for _, l := range lines[2:] {
		second += " " + l
	}
	return lines[0], second
}

func (r *reportCard) paint(d *paint.Raster, w, h float64, z look.Size) {
	v, u := r.view, z.Device
	switch {
	case r.link < 0:
		r.title(d, w, z, look.Text(look.TraineeReport))
		r.words(d, w, head*u, z, look.TextSmall, look.Text(look.ReportWhich))
		y := (float64(head)+30+float64((len(r.links)+1)/2)*step)*u + 8*u
		y = r.words(d, w, y, z, look.TextBody, look.Text(look.ReportSoFar))
		if len(v.book.Reports) == 0 {
			r.words(d, w, y, z, look.TextSmall, look.Text(look.ReportNoneYet))
		}
		for i := len(v.book.Reports) - 1; i >= 0 && y < h-40*u; i-- {
			y = r.words(d, w, y, z, look.TextSmall, score.ReportText(&v.book.Reports[i], v.brief.Chain, v.brief.Start))
		}
	case r.kind < 0:
		r.title(d, w-90*u, z, v.brief.Chain[r.link].Title)
	default:
		r.title(d, w-90*u, z, look.Text(look.ReportSuspect))
		link, fault := v.brief.Chain.Title(v.brief.Chain[r.link].Name, r.chosen())
		words := link + ": " + fault
		if r.chosen() == "" {
			words = look.Textf(look.ReportLinkOnly, link)
		}
		y := r.words(d, w, head*u, z, look.TextLabel, words)
		r.words(d, w, y+8*u, z, look.TextSmall, look.Text(look.ReportSureMeans))
	}
}

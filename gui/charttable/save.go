package charttable

import (
	"bufio"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"stillair/gui/atlas"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
	"stillair/sim"
)

// saveFolder is the preference that remembers where charts were saved last.
const saveFolder = "chart_folder"

// sheetJob is all that a chart sheet is drawn from; it shares nothing with the
// window that may change.
type sheetJob struct {
	plan    *sim.Plan
	view    aboard.View
	truth   *picture.Truth
	pins    picture.Pins
	planned bool
	overlay func(picture.View) *picture.Overlay // nil: none is laid
	fixes   []picture.Fix
	pencil  []picture.Pencil
	plotted Plotted
}

// sheetJob is the chart as it is now.
func (t *Table) sheetJob() sheetJob {
	j := sheetJob{plan: t.plan, view: t.moment.View, pins: t.pins.picture(true), planned: !t.screen.HidePlan}
	j.overlay, j.fixes, j.pencil = t.curves.sheet(), t.curves.fixes(), t.tools.onPaper()
	j.plotted = t.plotted
	if r := t.moment.Revealed; r != nil {
		j.truth = atlas.TruthOf(r.Now, r.Track)
	}
	return j
}

// draw draws the sheet into a file of a format.
func (j sheetJob) draw(out io.Writer, f paint.Format) error {
	sheet, err := j.sheet()
	if err != nil {
		return err
	}
	w, h := picture.SheetSize(atlas.SheetPixels)
	return paint.Export(out, f, w, h, sheet.Title, func(s paint.Surface) { picture.ChartSheet(s, float64(w), float64(h), sheet) })
}

// sheet is what the command writes, too, with the pins, overlay, fixes and pencil
// lines of the chart and what has been revealed.
func (j sheetJob) sheet() (picture.Sheet, error) {
	sheet, err := atlas.SheetOf(j.plan, &j.view, j.planned)
	sheet.Plot.Truth, sheet.Pins = j.truth, j.pins
	sheet.Overlay, sheet.Plot.Fixes, sheet.Pencil = j.overlay, slices.Concat(j.plotted.Fixes, j.fixes), j.pencil
	sheet.Plot.Lines, sheet.Plot.Hat, sheet.Plot.Ellipse = j.plotted.Lines, j.plotted.Hat, j.plotted.Ellipse
	return sheet, err
}

// toSave is what is saved: the stage where it stands alone, else the chart. What
// lies over it for the lecture, cloud or light, is left out.
func (t *Table) toSave() (name string, draw func(io.Writer, paint.Format) error) {
	name = fileName(t.plan.Title)
	if t.standing == StageAlone {
		return name + "-" + fileName(t.stage.Name()), t.stage.Page()
	}
	return name, t.sheetJob().draw
}

// SaveChart asks where to and saves what stands over the strip as a picture.
func (t *Table) SaveChart() {
	title, draw := t.toSave()
	name := title + "-" + units.TimeText(t.moment.View.Clock) + ".pdf"
	t.askWhere(look.SaveTitle, look.TheChart, name, []string{".pdf", ".svg", ".png"}, func(name string) { t.save(draw, name) })
}

// askWhere asks for the name of a file for something, offers one, and does what is
// to be done with it.
func (t *Table) askWhere(title, what look.Key, name string, endings []string, then func(name string)) {
	window := t.window()
	if window == nil {
		return
	}
	save := dialog.NewFileSave(func(w fyne.URIWriteCloser, err error) {
		switch {
		case err != nil:
			t.warn(look.Textf(look.SaveFailed, look.Text(what), plainly(err)))
		case w != nil:
			name := w.URI().Path()
			_ = w.Close() // it is written by another hand
			then(name)
		}
	}, window)
	save.SetTitleText(look.Text(title))
	save.SetConfirmText(look.Text(look.Save))
	save.SetDismissText(look.Text(look.Cancel))
	save.SetFilter(storage.NewExtensionFileFilter(endings))
	save.SetFileName(name)
	if dir := lastFolder(); dir != nil {
		save.SetLocation(dir)
	}
	size := window.Canvas().Size()
	save.Resize(fyne.NewSize(size.Width*0.8, size.Height*0.85))
	save.Show()
}

// window is the one the view stands in, nil if it stands in none.
func (t *Table) window() fyne.Window {
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if w.Canvas() == t.canvas() {
			return w
		}
	}
	return nil
}

// lastFolder is where a chart was saved last, nil if that is no more.
func lastFolder() fyne.ListableURI {
	name := fyne.CurrentApp().Preferences().String(saveFolder)
	if name == "" {
		return nil
	}
	dir, err := storage.ListerForURI(storage.NewFileURI(name))
	if err != nil {
		return nil
	}
	return dir
}

// save draws and writes out of the way of the window.
func (t *Table) save(draw func(io.Writer, paint.Format) error, name string) {
	format, err := paint.FormatOf(name)
	if err != nil {
		dropEmpty(name)
		t.warn(look.Textf(look.SaveEnding, filepath.Base(name)))
		return
	}
	t.away(func() {
		err := replaceFile(name, func(w io.Writer) error { return draw(w, format) })
		t.screen.Later(func() { t.saved(name, err) })
	})
}

// saved tells whether a file was written, and remembers its folder.
func (t *Table) saved(name string, err error) {
	if err != nil {
		dropEmpty(name)
		t.warn(look.Textf(look.SaveFailed, name, plainly(err)))
		return
	}
	fyne.CurrentApp().Preferences().SetString(saveFolder, filepath.Dir(name))
	t.say(look.Textf(look.Saved, name))
}

// dropEmpty takes away the empty file that the dialog leaves where nothing came
// to be written.
func dropEmpty(name string) {
	if info, err := os.Stat(name); err == nil && info.Mode().IsRegular() && info.Size() == 0 {
		_ = os.Remove(name) // an empty file is no harm
	}
}

// replaceFile writes a file in one go: whoever looks sees the old one or the
// whole new one.
func replaceFile(name string, write func(io.Writer) error) error {
	part, err := os.CreateTemp(filepath.Dir(name), ".stillair-*")
	if err != nil {
		return err
	}
	buffer := bufio.NewWriter(part)
	err = errors.Join(write(buffer), buffer.Flush(), part.Chmod(0o644), part.Close())
	if err == nil {
		err = os.Rename(part.Name(), name)
	}
	if err != nil {
		_ = os.Remove(part.Name()) // what matters has been told
	}
	return err
}

// sayTime is how long good news stays.
const sayTime = 6 * time.Second

// say tells good news on the slip for hints, for a while.
func (t *Table) say(words string) {
	hints := t.screen.Hints
	if hints == nil {
		return
	}
	var by fyne.CanvasObject = t.chartKeys[0]
	if t.tray.open {
		by = t.tray.save
	}
	hints.Tell(by, words)
	t.screen.After(sayTime, func() { hints.Leave(by) })
}

// warn tells what went wrong, until it is read.
func (t *Table) warn(words string) {
	title := widget.NewLabelWithStyle(look.Text(look.NotSaved), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	text := widget.NewLabel(words)
	text.Wrapping = fyne.TextWrapWord
	var card *widget.PopUp
	read := kit.NewKey(t.screen, look.Text(look.Understood), kit.NoSign, 120, func() { card.Hide() })
	read.Main = true
	card = widget.NewModalPopUp(container.NewPadded(container.NewVBox(title, text, read)), t.canvas())
	card.Resize(fyne.NewSize(480, card.MinSize().Height+24))
	card.Show()
	t.canvas().Focus(read)
}

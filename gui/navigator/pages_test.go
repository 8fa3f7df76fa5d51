package navigator

import (
	"bytes"
	"io"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/plotting"
	"stillair/integrator/aboard"
	"stillair/integrator/airplot"
	"stillair/integrator/geodesy"
	"stillair/integrator/units"
)

// desk is a chart on which a test draws.
type desk struct {
	pencil plotting.Pencil
	made   int
	tell   func()
	shown  []plotting.Checked
	chosen int
	laid   bool
	kept   []byte
}

func (d *desk) changed() {
	d.made++
	d.tell()
}

func (d *desk) draw(from, to units.Position) {
	d.pencil.Draw(airplot.PencilLine{From: from, To: to}, units.NM, "measured")
	d.changed()
}

func (d *desk) Drawn() ([]plotting.Drawn, int) { return d.pencil.Lines(), d.made }
func (d *desk) CallDrawn(x plotting.Drawn, n plotting.Name, words string) {
	d.pencil.Call(x.ID, n, words)
	d.changed()
}
func (d *desk) RubOut(x plotting.Drawn) {
	d.pencil.RubOut(x.ID)
	d.changed()
}
func (d *desk) UndoPencil() {
	d.pencil.Undo()
	d.changed()
}
func (d *desk) CanUndoPencil() bool                { return d.pencil.CanUndo() }
func (d *desk) ChooseDrawn(id int)                 { d.chosen = id }
func (d *desk) ShowChecked(all []plotting.Checked) { d.shown = all }
func (d *desk) WhenDrawn(do func())                { d.tell = do }
func (d *desk) LayRule()                           { d.laid = !d.laid; d.tell() }
func (d *desk) RuleLaid() bool                     { return d.laid }
func (d *desk) KeepPage(_ string, draw func(io.Writer, paint.Format) error) {
	var out bytes.Buffer
	if err := draw(&out, paint.PDFFile); err == nil {
		d.kept = out.Bytes()
	}
}

// pickWord presses the key of a page with a word on it.
func (s *seat) pickWord(t *testing.T, word string) {
	t.Helper()
	for _, k := range s.picks {
		if k.Visible() && k.Word == word {
			test.Tap(k)
			return
		}
	}
	require.Fail(t, "no such choice", word)
}

// TestMyPlotIsChecked: a line drawn along the worked one is within what is granted; one ten
// miles off is beyond it; with the truth revealed it tells how far it is off that. All is
// taken back again.
func TestMyPlotIsChecked(t *testing.T) {
	s := seated(t, "weather-triangle", 2*time.Hour+20*time.Minute)
	d := &desk{}
	s.SitAt(d)
	s.take(t, aboard.Loop, "Gannet Rock")
	worked := s.chart.Lines[0]

	test.Tap(s.keys[moreKey])
	assert.False(t, s.list.Visible() || s.keys[windKey].Visible())
	s.pickWord(t, look.Text(look.MyPlotWord))
	require.Equal(t, handPage, s.page)
	assert.NotEmpty(t, s.keys[checkKey].Reason, "nothing is drawn")
	test.Tap(s.keys[ruleKey])
	assert.True(t, d.laid && s.keys[ruleKey].Chosen)

	d.draw(worked.From, worked.To)
	require.Len(t, s.drawnRows, 1)
	assert.Equal(t, look.Text(look.HandUnnamed), s.drawnRows[0].Told)
	assert.Equal(t, 1, d.chosen)
	test.Tap(s.keys[nameKey])
	s.pickWord(t, "2235Z Gannet Rock")
	require.Equal(t, handPage, s.page)
	assert.Contains(t, d.pencil.Lines()[0].Words, "2235Z Gannet Rock")
	assert.Empty(t, s.drawnRows[0].Told, "not before it is asked for")

	from, err := geodesy.RhumbDirect(worked.From, 90*units.Degree, 10*units.NM)
	require.NoError(t, err)
	to, err := geodesy.RhumbDirect(worked.To, 90*units.Degree, 10*units.NM)
	require.NoError(t, err)
	d.draw(from, to)
	test.Tap(s.keys[nameKey])
	s.pickWord(t, "2235Z Gannet Rock")
	test.Tap(s.keys[checkKey])
	require.GreaterOrEqual(t, len(s.drawnRows), 2)
	assert.Equal(t, look.Text(look.MyPlotWithin), s.drawnRows[0].Verdict)
	assert.Contains(t, s.drawnRows[0].Told, "0.1 NM", "the bend of the line between its drawn ends")
	assert.Equal(t, look.Text(look.MyPlotBeyond), s.drawnRows[1].Verdict)
	require.Len(t, d.shown, len(s.drawnRows))
	assert.Less(t, apart(d.shown[1].Hand, d.shown[1].Worked), 10.1)
	assert.Empty(t, s.drawnRows[1].Miss)
	s.helm.Reveal(true)
	s.pull()
	assert.Contains(t, s.drawnRows[1].Miss, "NM off")
	s.helm.Reveal(false)
	s.pull()
	assert.Empty(t, s.drawnRows[1].Miss)

	// the keyboard goes through the list and rubs out
	s.drawn.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.True(t, s.drawnRows[0].Chosen)
	s.drawn.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	require.Len(t, d.pencil.Lines(), 1)
	s.drawn.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	require.Len(t, d.pencil.Lines(), 2)
	test.Tap(s.keys[unpencilKey])
	assert.Equal(t, plotting.NoWork, d.pencil.Lines()[1].Means.What, "what it was called is taken back")

	require.True(t, s.Shut())
	assert.Equal(t, noPage, s.page)
	assert.Empty(t, d.shown)
	assert.True(t, s.list.Visible() && s.keys[windKey].Visible())
	assert.False(t, s.Shut())
}

// TestTheCompassIsSwung: heading checks on the four legs of the triangle; two headings are
// too few, four give A to C, and the card can be kept. A touch on a check in the list opens
// the swing.
func TestTheCompassIsSwung(t *testing.T) {
	s := seated(t, "weather-triangle", 20*time.Minute)
	d := &desk{}
	s.SitAt(d)
	test.Tap(s.keys[moreKey])
	s.pickWord(t, look.Text(look.SwingWord))
	assert.Equal(t, look.Text(look.SwingNoCard), s.keys[keepKey].Reason)
	test.Tap(s.keys[keepKey])
	assert.Empty(t, d.kept)
	s.Shut()
	for i, at := range []time.Duration{0, 32 * time.Minute, 60 * time.Minute, 75 * time.Minute} {
		if at > 0 {
			s.fly(at)
		}
		s.take(t, aboard.HeadingCheck, "Sun")
		require.Len(t, s.rows, i+1)
		assert.Contains(t, s.rows[i].Moved, "deviation ")
		s.touch(i)
		require.Equal(t, swingPage, s.page)
		if i < 1 {
			assert.NotEmpty(t, s.keys[keepKey].Reason)
		}
		s.Shut()
	}
	swing := plotting.SwingOf(s.moment.View.Log)
	require.Equal(t, 3, swing.Terms, swing.Told())
	s.touch(0)
	require.Empty(t, s.keys[keepKey].Reason)
	test.Tap(s.keys[keepKey])
	assert.Greater(t, len(d.kept), 10000)
	assert.Equal(t, "%PDF", string(d.kept[:4]))
}

// TestWithoutAChartForTheHand: a view that was given none has no plot by hand; the swing it
// has, and no file of it.
func TestWithoutAChartForTheHand(t *testing.T) {
	s := seated(t, "weather-triangle", 20*time.Minute)
	test.Tap(s.keys[moreKey])
	for _, k := range s.picks {
		assert.False(t, k.Visible() && k.Word == look.Text(look.MyPlotWord))
	}
	s.pickWord(t, look.Text(look.SwingWord))
	assert.False(t, s.keys[keepKey].Visible())
	assert.True(t, s.keys[closeKey].Visible())
	test.Tap(s.keys[closeKey])
	assert.Equal(t, noPage, s.page)
}

// TestTheNearerCrossingIsTaken: two pulse lines cross twice here.
func TestTheNearerCrossingIsTaken(t *testing.T) {
	s := seated(t, "weather-triangle", 2*time.Hour+19*time.Minute)
	s.take(t, aboard.PulseReceiver, s.had(aboard.PulseReceiver)[0].Source)
	s.take(t, aboard.PulseReceiver, s.had(aboard.PulseReceiver)[1].Source)
	require.Len(t, s.chart.Fixes, 2)
	assert.NotEmpty(t, s.keys[resetKey].Reason)
	nearer := s.chart.Fixes[0].At
	test.Tap(s.keys[moreKey])
	s.pickWord(t, look.Text(look.PlotNearer))
	require.Equal(t, noPage, s.page)
	require.Len(t, s.chart.Fixes, 1)
	assert.Equal(t, nearer.String(), s.card.Fix)
	assert.Empty(t, s.keys[resetKey].Reason)
	assert.Less(t, apart(s.truth(), nearer), 4.0)
	s.pull()
	assert.NotEmpty(t, s.card.Fix, "it stays")
}

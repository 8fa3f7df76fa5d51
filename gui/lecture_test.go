package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
)

// The notes have the text of the lesson and what the audience does not see; the window of
// the flight keeps the picture and the rings.
func TestNotesOfALesson(t *testing.T) {
	w := opened(t, "lesson-air-position", false)
	w.pull()
	require.True(t, w.lessonStands())
	w.lecture.open()
	require.True(t, w.lecture.stands())
	assert.False(t, w.lesson.Content().Visible(), "the clean picture")
	assert.True(t, w.lesson.Lights().Visible(), "what is lit stays lit")
	steps := w.lesson.Steps()
	for i := range steps {
		require.Equal(t, i, w.lesson.At())
		p := lessonPage(w.lesson)
		assert.Equal(t, look.Textf(look.NotesStep, i+1, len(steps)), p.Count)
		assert.Equal(t, steps[i].Title, p.Head)
		words := map[string]string{}
		for _, part := range p.Parts {
			words[part.Label] = part.Words
		}
		assert.Equal(t, steps[i].Text, words["text"])
		assert.Equal(t, steps[i].Do, words["they do"]+words["done"])
		if q := steps[i].Question; q != nil {
			assert.Equal(t, q.Answers[q.Right], words["right is"])
		}
		if i+1 < len(steps) {
			test.Tap(w.lecture.view.Named()["notes-on"].(*kit.Key))
		}
	}
	w.lecture.second.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyPageUp}) // the keyboard of the notes drives the flight
	assert.Equal(t, len(steps)-2, w.lesson.At())
	w.lecture.close()
	assert.False(t, w.lecture.stands())
	assert.True(t, w.lesson.Content().Visible(), "the panel comes back")
	w.lecture.open()
	w.toggleLesson() // so does it by its key
	assert.False(t, w.lecture.stands())
	assert.True(t, w.lesson.Content().Visible())
}

// Of a flight that is no lesson the notes have the named moments; no trainee sees them.
func TestNotesOfAFlight(t *testing.T) {
	w := opened(t, "first-look", false)
	w.pull()
	w.lecture.open()
	all := w.table.Moments()
	require.NotEmpty(t, all)
	p := w.lecture.momentPage(w.seen)
	require.Len(t, p.Parts, len(all))
	assert.Equal(t, look.Text(look.NotesBefore), p.Head)
	assert.Contains(t, p.Next, all[0].Name)
	test.Tap(w.lecture.view.Named()["notes-on"].(*kit.Key))
	eventually(t, "the first moment", func() bool {
		w.pull()
		return w.seen.View.Tick == all[0].At
	})
	p = w.lecture.momentPage(w.seen)
	assert.Equal(t, all[0].Name, p.Head)
	assert.Contains(t, p.Next, all[1].Name)
	w.pull()
	w.repaint()
	f, err := flights.OpenShipped("find-the-two")
	require.NoError(t, err)
	w.fly(f)
	require.Equal(t, traineeFront, w.front)
	assert.False(t, w.lecture.stands())
	w.lecture.open()
	assert.False(t, w.lecture.stands(), "nor can it be opened")
}

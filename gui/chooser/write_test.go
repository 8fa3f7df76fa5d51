package chooser

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
)

// The keys that write: a new flight, a copy of a shipped one, of a file, of a file that
// cannot be flown; the text is that of the file to the byte.
func TestKeysThatWrite(t *testing.T) {
	good, bad := write(t, "good.toml"), write(t, "bad.toml", "tas_kt = 180", "tas_kt = 18")
	gone := filepath.Join(t.TempDir(), "gone.toml")
	s := newStage(t, sizes[1], good, bad, gone)
	begun, names, texts := 0, []string{}, []string{}
	s.Begin = func() { begun++ }
	s.Copy = func(name string, text []byte) error {
		names, texts = append(names, name), append(texts, string(text))
		return nil
	}
	test.Tap(s.told.begin)
	assert.Equal(t, 1, begun)
	test.Tap(s.told.copy)
	for _, e := range s.files {
		s.choose(e)
		if e.path == gone {
			assert.NotEmpty(t, s.told.copy.Reason, "there is no text")
		}
		test.Tap(s.told.copy)
	}
	assert.ElementsMatch(t, []string{"first-look", "good", "bad"}, names)
	for i, name := range names {
		path := map[string]string{"good": good, "bad": bad}[name]
		if path == "" {
			assert.Equal(t, string(s.shipped[0].flight.Source.Text), texts[i])
			continue
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), texts[i], name)
	}
	s.Copy = func(string, []byte) error { return errors.New("no") }
	test.Tap(s.told.copy)
	// A file of one's own is changed itself, even one that cannot be flown.
	edited := []string{}
	s.Edit = func(path string) error {
		edited = append(edited, path)
		return nil
	}
	for _, e := range s.files {
		s.choose(e)
		if e.path != gone {
			assert.Equal(t, look.Text(look.EditorEdit), s.told.copy.Word)
			test.Tap(s.told.copy)
		}
	}
	assert.ElementsMatch(t, []string{good, bad}, edited)
	s.choose(s.shipped[0])
	assert.Equal(t, look.Text(look.EditorCopy), s.told.copy.Word)
	fresh := write(t, "fresh.toml")
	s.Keep(fresh)
	assert.Equal(t, fresh, s.files[0].path)
}

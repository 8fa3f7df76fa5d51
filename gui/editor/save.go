package editor

import (
	"errors"
	"path/filepath"
	"regexp"
	"strings"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/scenarios"
)

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
	kit.Question{
		Title: look.Text(look.EditorSaveAsk), Hint: look.Textf(look.EditorSaveAskHint, shorter(folder)), Now: v.freeName(), Word: look.Save,
		Check: func(name string) error { return nameError(plainName(name)) },
		Take: func(name string) error {
			name = plainName(name)
			if err := nameError(name); err != nil {
				return err
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
		},
	}.Ask(v.canvas(), v.screen)
}

// plainName is a name without what need not be typed.
func plainName(name string) string {
	return strings.TrimSuffix(strings.TrimSpace(name), flights.Suffix)
}

// nameError says why a flight cannot have a name.
func nameError(name string) error {
	if !nameForm.MatchString(name) {
		return errors.New(look.Text(look.EditorBadName))
	}
	for _, s := range scenarios.Shipped() {
		if strings.EqualFold(s.Name, name) {
			return errors.New(look.Textf(look.EditorShipped, s.Name))
		}
	}
	return nil
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

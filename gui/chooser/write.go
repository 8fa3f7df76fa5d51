package chooser

import (
	"errors"
	"path/filepath"
	"strings"

	"stillair/gui/flights"
	"stillair/gui/look"
)

// Keep puts a file that was written first in the list of files used lately.
func (c *Chooser) Keep(path string) {
	c.recent.Add(path)
	c.listFiles()
}

// begin writes a new flight.
func (c *Chooser) begin() {
	if c.Begin != nil {
		c.Begin()
	}
}

// copyChosen writes a flight that begins as the chosen one, be it good or not.
func (c *Chooser) copyChosen() {
	if path, ok := c.chosen.own(); ok && c.Edit != nil {
		if err := c.Edit(path); err != nil {
			c.told.copy.Tell(err.Error())
		}
		return
	}
	text, _ := c.chosen.text()
	if text == nil || c.Copy == nil {
		return
	}
	name := c.chosen.name
	if c.chosen.path != "" {
		name = strings.TrimSuffix(filepath.Base(c.chosen.path), filepath.Ext(c.chosen.path))
	}
	if err := c.Copy(name, text); err != nil {
		c.told.copy.Tell(err.Error())
	}
}

// own is the file of a flight that may be changed: no shipped one, and no record.
func (e *entry) own() (path string, ok bool) {
	text, _ := e.text()
	return e.path, e.path != "" && text != nil && (e.flight == nil || e.flight.Record == nil)
}

// text is the file of an entry, or why there is none.
func (e *entry) text() ([]byte, look.Key) {
	var refused *flights.Refused
	switch {
	case e.flight != nil:
		return e.flight.Source.Text, ""
	case errors.As(e.err, &refused) && refused.Lines != nil:
		return []byte(strings.Join(refused.Lines, "\n")), ""
	case e.err != nil:
		return nil, look.ChooserNotYet
	}
	return nil, look.ChooserOpening
}

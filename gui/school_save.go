package gui

import (
	"io"
	"strings"
	"time"

	"stillair/gui/drill"
	"stillair/gui/flights"
	"stillair/gui/look"
	"stillair/gui/training/score"
	"stillair/integrator/aboard"
)

var noAim = aboard.Aim{}

// marks are those after landing, or those so far where a trainer sees them.
func (c *school) marks() *score.Sheet {
	if c.sheet == nil && c.trainer != nil {
		return c.trainer.Sheet()
	}
	return c.sheet
}

// savePage writes the sheet as a page into the folder of what is saved.
func (c *school) savePage() {
	if s := c.marks(); s != nil {
		told := s.Tell(drill.Chain())
		c.save(".pdf", func(out io.Writer) error { return score.WritePDF(out, told) })
	}
}

// saveTable writes it as a table.
func (c *school) saveTable() {
	if s := c.marks(); s != nil {
		c.save(".csv", func(out io.Writer) error { return score.WriteCSV(out, s) })
	}
}

func (c *school) save(suffix string, write func(io.Writer) error) {
	name := strings.TrimSuffix(c.window.flight.Name, flights.Suffix) + "-marks-" + time.Now().Format("2006-01-02-150405") + suffix
	path, err := flights.SaveMarks(name, write)
	if err != nil {
		c.say(look.Textf(look.MarksNotSaved, err))
		return
	}
	c.say(look.Textf(look.MarksSaved, path))
}

// say tells something where the trainee is.
func (c *school) say(words string) {
	if c.alone || c.seated {
		hints, here := c.screen.Hints, c.trainee.Content()
		hints.Tell(here, words)
		time.AfterFunc(sayFor, func() { c.screen.Later(func() { hints.Leave(here) }) })
		return
	}
	c.window.say(words)
}

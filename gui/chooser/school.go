package chooser

import (
	"errors"
	"strconv"
	"strings"

	"stillair/gui/flights"
	"stillair/gui/kit"
	"stillair/gui/look"
)

// Ways of use are chosen with the flight: an exercise is flown from the trainee's seat, or
// set by a trainer while the trainee has a window of its own; a flight without faults can
// be sealed.

// schoolWord is the word of the key beside Fly; "" where there is none.
func schoolWord(f *flights.Flight) look.Key {
	switch {
	case f == nil:
	case f.Plan.Exercise != nil && f.Record == nil && !f.Plan.Exercise.Sealed:
		return look.ChooserTrainer
	case f.CanSeal():
		return look.ChooserSealed
	}
	return ""
}

// applySchool brings the key up to the chosen flight.
func (t *told) applySchool() {
	word := schoolWord(t.chooser.chosen.flight)
	kit.Show(word != "", t.school)
	if word == "" {
		return
	}
	t.school.Set(look.Text(word), kit.NoSign, false)
	t.school.Hint = look.Text(map[look.Key]look.Key{
		look.ChooserTrainer: look.ChooserTrainerHint, look.ChooserSealed: look.ChooserSealedHint,
	}[word])
}

// pressSchool flies the chosen exercise from the trainer's side, or asks for a seed.
func (t *told) pressSchool() {
	f := t.chooser.chosen.flight
	switch schoolWord(f) {
	case look.ChooserTrainer:
		set := *f
		set.Trainer = true
		t.chooser.fly(&set)
	case look.ChooserSealed:
		t.askSeed(f)
	}
}

func (t *told) askSeed(f *flights.Flight) {
	c := t.chooser
	kit.Ask(c.canvas(), c.screen, look.Text(look.ChooserSealed), look.Text(look.ChooserSeedForm), "", func(text string) error {
		seed, err := strconv.ParseUint(strings.TrimSpace(text), 10, 63)
		if err != nil {
			return errors.New(look.Text(look.SeedForm))
		}
		sealed, err := f.Seal(seed)
		if err != nil {
			return err
		}
		c.fly(sealed)
		return nil
	})
}

package look_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stillair/gui/look"
)

// Words of another language stand in for those of the catalogue until they are taken
// away; what it does not say stays.
func TestSpeak(t *testing.T) {
	defer look.Speak(nil)
	look.Speak(map[look.Key]string{look.LinkClockWord: "Uhr"})
	assert.Equal(t, "Uhr", look.Text(look.LinkClockWord))
	assert.Equal(t, "adder", look.Text(look.LinkAdderWord))
	look.Speak(nil)
	assert.Equal(t, "clock", look.Text(look.LinkClockWord))
}

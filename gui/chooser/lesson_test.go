package chooser

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// Names of the lessons stand whole on their cards at every size, with larger text
// too, and the card has room for them.
func TestLessonNamesFitTheirCards(t *testing.T) {
	s := newStage(t, sizes[0])
	require.GreaterOrEqual(t, len(s.lessons), 8)
	for i, e := range s.lessons {
		assert.Equal(t, i+1, e.number)
		assert.Positive(t, e.steps)
	}
	for _, size := range sizes {
		for _, larger := range []bool{false, true} {
			s.screen.LargerText = larger
			s.resize(size)
			z := s.screen.Size(1)
			for _, e := range s.lessons {
				name := typeOf(look.Semibold, z, look.TextBody)
				r := max(14, z.Px(18))
				width := float64(e.card.Size().Width) - 2*ring - 2*r - max(9, z.Px(14)) - max(8, z.Px(12)) - max(8, z.Px(10))
				lines := fold(lessonName(e.title), name, width, 0)
				assert.LessOrEqual(t, len(lines), 2, "%v, larger %v: %s", size, larger, e.title)
				need := float64(len(lines))*1.2*name.Size + 1.35*z.Text(look.TextSmall)
				assert.Less(t, need, float64(e.card.Size().Height)-2*ring-8, "%v: %s", size, e.title)
			}
		}
	}
}

// What was seen has a tick on slate in the place of its number on brass.
func TestSeenLessonsAreTicked(t *testing.T) {
	s := newStage(t, sizes[2])
	asked := map[string]bool{}
	s.Progress = func(name string) (int, bool) {
		asked[name] = true
		return 2, name == s.lessons[0].name
	}
	draw := func(e *entry) map[[3]uint8]int {
		d := paint.NewImage(330, 110)
		e.card.paint(d, 330, 110, s.screen.Size(1))
		seen := map[[3]uint8]int{}
		pix := d.Pixels().Pix
		for i := 0; i < len(pix); i += 4 {
			seen[[3]uint8(pix[i:i+3])]++
		}
		return seen
	}
	p := look.Of(look.Paper)
	slate, brass := [3]uint8{p.Slate.R, p.Slate.G, p.Slate.B}, [3]uint8{p.BrassHi.R, p.BrassHi.G, p.BrassHi.B}
	first, second := draw(s.lessons[0]), draw(s.lessons[1])
	assert.Greater(t, first[slate], 400)
	assert.Zero(t, first[brass])
	assert.Greater(t, second[brass], 400)
	assert.Zero(t, second[slate])
	assert.Len(t, asked, 2)
}

// After a lesson the next one is chosen, and Enter flies it.
func TestTheNextLessonIsChosen(t *testing.T) {
	s := newStage(t, sizes[1])
	s.ChooseNext("lesson-wind")
	assert.Equal(t, "lesson-fix-and-reset", s.chosen.name)
	s.press(fyne.KeyReturn)
	require.Len(t, s.flown, 1)
	assert.Len(t, s.flown[0].Plan.Lessons, s.lessons[6].steps)
	before := s.chosen
	s.ChooseNext(s.lessons[len(s.lessons)-1].name)
	s.ChooseNext("first-look")
	assert.Equal(t, before, s.chosen, "there is none after them")
}

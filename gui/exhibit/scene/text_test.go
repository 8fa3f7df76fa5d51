package scene

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/tongue"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/integrator/units"
	"stillair/scenarios"
	"stillair/sim"
	"stillair/sim/fault"
)

type nobody struct{}

func (nobody) Begin(conduct.Flight)            {}
func (nobody) Steer(sim.HelmOrder, units.Wind) {}
func (nobody) Break(fault.Order)               {}
func (nobody) Mend()                           {}
func (nobody) Stop()                           {}
func (nobody) Visited(time.Time)               {}
func (nobody) Broke(time.Time)                 {}
func (nobody) Landed(time.Time, float64)       {}
func (nobody) Best(time.Time) (float64, bool)  { return 0, false }

// visit is an easel in a visit: on a screen, in a language, with larger text or not.
func visit(t *testing.T, w, h float64, l *tongue.Tongue, larger bool) *easel {
	t.Helper()
	x := &scenarios.Exhibit{Languages: []string{"en", "de"}, Idle: time.Hour, Larger: larger, ShiftEvery: time.Hour,
		Faults: []fault.Order{{ID: "drive-slip"}}, Landing: &scenarios.Landing{Place: "Skerrow", Time: time.Minute}}
	x.Flight.Place = "Port Aldous"
	m := conduct.New(x, nobody{}, nobody{}, 1, false)
	m.Touch(conduct.Anywhere)
	require.Equal(t, conduct.Playing, m.Stage())
	in := &Show{Machine: m, Tongue: l, Names: []string{"English", "Deutsch"}}
	var s Scene
	p := s.Places(int(w), int(h), 1, in)
	return newEasel(paint.NewImage(8, 8), p, look.Of(look.Paper), in)
}

// TestSentencesHaveRoom: every sentence of every language fits at no less than three
// fifths of its size, and never below 15 pixels, larger text included.
func TestSentencesHaveRoom(t *testing.T) {
	all, err := tongue.Load("")
	require.NoError(t, err)
	for _, size := range [][2]float64{{1920, 1080}, {1366, 768}, {1080, 1920}} {
		for code, l := range all {
			for _, larger := range []bool{false, true} {
				e := visit(t, size[0], size[1], l, larger)
				_, _, room, _ := e.sideRooms()
				sentences := []string{}
				for _, w := range []tongue.Word{tongue.SayStart, tongue.SaySteer, tongue.SaySpeed, tongue.SayWind, tongue.SayMended, tongue.SayBack} {
					sentences = append(sentences, l.Text(w, tongue.Fill{Name: "place", Value: "Port Aldous"}))
				}
				for _, f := range fault.Catalogue() {
					if s, ok := l.Fault(f.ID); ok {
						sentences = append(sentences, s)
					}
				}
				for _, s := range sentences {
					plain, bold := tongue.Sentence(s)
					b := fit(plain, bold, e.text(31), room.W, room.H)
					name := fmt.Sprintf("%v %s larger %v: %s", size, code, larger, s)
					assert.LessOrEqual(t, b.height(), room.H+1e-9, name)
					assert.LessOrEqual(t, b.width(), room.W+1e-9, name)
					assert.GreaterOrEqual(t, b.size, 15.0, name)
					assert.GreaterOrEqual(t, b.size, 0.6*e.text(31), name)
				}
			}
		}
	}
}

// TestRoomsOfTheSideDoNotOverlap.
func TestRoomsOfTheSideDoNotOverlap(t *testing.T) {
	for _, size := range [][2]float64{{1920, 1080}, {1366, 768}, {1080, 1920}, {1280, 1024}, {3840, 2160}} {
		for _, larger := range []bool{false, true} {
			e := visit(t, size[0], size[1], tongue.English(), larger)
			drums, _, words, fact := e.sideRooms()
			rooms := []paint.Rect{drums, words, fact}
			if e.p.Side.Contains(e.p.Peep.Centre()) {
				rooms = append(rooms, e.p.Peep)
			}
			for i, a := range rooms {
				require.True(t, e.p.Side.Covers(a), "%v: %d", size, i)
				for _, b := range rooms[:i] {
					require.False(t, a.Overlaps(b), "%v: %v %v", size, a, b)
				}
			}
		}
	}
}

// TestKeysHaveRoomForTheirWords: at no less than 13 pixels.
func TestKeysHaveRoomForTheirWords(t *testing.T) {
	all, err := tongue.Load("")
	require.NoError(t, err)
	fill := tongue.Fill{Name: "place", Value: "Skerrow"}
	for _, size := range [][2]float64{{1920, 1080}, {1366, 768}, {1080, 1920}} {
		for code, l := range all {
			for _, larger := range []bool{false, true} {
				e := visit(t, size[0], size[1], l, larger)
				f := e.p.F
				for name, k := range map[string]struct {
					r    paint.Rect
					word tongue.Word
					size float64
				}{
					"land": {e.p.Land.Inset(14 * f), tongue.Land, 25}, "larger": {paint.R(0, 0, e.p.Larger.W-98*f, e.p.Larger.H-12*f), tongue.Larger, 25},
					"smaller": {paint.R(0, 0, e.p.Larger.W-98*f, e.p.Larger.H-12*f), tongue.Smaller, 25},
					"again":   {paint.R(0, 0, e.p.Again.W-90*f, e.p.Again.H-12*f), tongue.Again, 25},
					"break":   {paint.R(0, 0, e.p.Break.W-40*f, 0.4*e.p.Break.H), tongue.Break, 34},
				} {
					b := fit(l.Text(k.word, fill), "", e.text(k.size), k.r.W, k.r.H)
					got := b.size
					if w := look.Semibold.Font().Width(l.Text(k.word, fill), e.text(k.size)); w <= k.r.W {
						got = e.text(k.size)
					}
					assert.GreaterOrEqual(t, got, math.Min(13, e.text(k.size)), "%v %s larger %v: %s", size, code, larger, name)
				}
			}
		}
	}
}

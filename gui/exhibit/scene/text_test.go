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
	"stillair/gui/helm"
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
	return newEasel(paint.NewImage(8, 8), nil, p, look.Of(look.Paper), in)
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
					b := fit(plain, bold, e.text(sentenceSize), room.W, room.H)
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
			missed := fact // the line above it, once the result is there
			missed.Y -= 62 * e.p.F
			require.False(t, drums.Overlaps(missed), "%v larger %v", size, larger)
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

// written is a text as it stands on the screen.
type written struct {
	text string
	box  paint.Rect
}

// textsOf are the texts of a screen that are no figures of a dial or a drum.
func textsOf(e *easel, r *paint.Record) (all []written) {
	dial := func(d Dialled) paint.Rect { return paint.R(d.X-1.05*d.R, d.Y-1.05*d.R, 2.1*d.R, 2.1*d.R) }
	inner := []paint.Rect{dial(e.p.Heading), dial(e.p.From)}
	depth := 0
	for _, c := range r.Calls {
		switch c.Name {
		case "clip":
			depth++
		case "unclip":
			depth--
		case "text":
			w := c.Type.Font.Width(c.Text, c.Type.Size)
			x := c.At.X
			switch c.Type.Anchor {
			case paint.Middle:
				x -= w / 2
			case paint.End:
				x -= w
			}
			box := paint.R(x, c.At.Y-0.74*c.Type.Size, w, 0.95*c.Type.Size)
			in := depth > 0
			for _, q := range inner {
				in = in || q.W > 0 && q.Covers(box)
			}
			if !in && c.Text != "" {
				all = append(all, written{c.Text, box})
			}
		}
	}
	return all
}

// drawn draws all of a visit but chart, mechanism and drums on a record.
func drawn(e *easel) *paint.Record {
	var r paint.Record
	on := newEasel(&r, nil, e.p, e.c, e.in)
	on.playStill()
	on.playMoving()
	return &r
}

// TestNoTextLiesOnAnotherOrBeyondItsCard: every stage of a visit, three screens, each
// language, larger text too.
func TestNoTextLiesOnAnotherOrBeyondItsCard(t *testing.T) {
	all, err := tongue.Load("")
	require.NoError(t, err)
	stages := map[string]func(m *conduct.Machine, in *Show){
		"playing": func(*conduct.Machine, *Show) {},
		"broken":  func(m *conduct.Machine, _ *Show) { m.Touch(conduct.BreakKey) },
		"inside":  func(m *conduct.Machine, _ *Show) { m.Touch(conduct.InsideKey) },
		"inside broken": func(m *conduct.Machine, _ *Show) {
			m.Touch(conduct.BreakKey)
			m.Touch(conduct.InsideKey)
		},
		"cloud": func(m *conduct.Machine, _ *Show) { m.Touch(conduct.LandKey) },
		"clue": func(m *conduct.Machine, _ *Show) {
			m.Touch(conduct.LandKey)
			m.Pass(10*time.Second, time.Time{})
		},
		"result": func(m *conduct.Machine, in *Show) {
			m.Touch(conduct.LandKey)
			m.Pass(time.Minute, time.Time{})
			m.See(in.Moment)
			m.Pass(2*time.Minute, time.Time{})
		},
	}
	for _, size := range [][2]float64{{1920, 1080}, {1366, 768}, {1080, 1920}} {
		for code, l := range all {
			for stage, begin := range stages {
				for _, larger := range []bool{false, true} {
					for _, low := range []bool{false, true} {
						name := fmt.Sprintf("%v %s %s larger %v low %v", size, code, stage, larger, low)
						e := visit(t, size[0], size[1], l, larger)
						e.in.Machine.Exhibit().Low = low
						e.in.Moment = &helm.Moment{Revealed: &helm.Revealed{}}
						begin(e.in.Machine, e.in)
						var s Scene
						e.p = s.Places(int(size[0]), int(size[1]), 1, e.in)
						texts := textsOf(e, drawn(e))
						require.NotEmpty(t, texts, name)
						cards := []paint.Rect{e.p.Side, e.p.Break, e.p.Steer, e.p.Speed, e.p.Wind, e.p.Peep, e.p.Strip, e.p.Land, e.p.Larger, e.p.Again}
						cards = append(cards, e.p.Languages...)
						for i, a := range texts {
							inside := false
							for _, c := range cards {
								inside = inside || c.W > 0 && c.Inset(-1).Covers(a.box)
							}
							require.True(t, inside, "%s: %q at %v lies on no card", name, a.text, a.box)
							for _, b := range texts[:i] {
								require.False(t, a.box.Overlaps(b.box) && a.text != "A", "%s: %q %v lies on %q %v", name, a.text, a.box, b.text, b.box)
							}
						}
					}
				}
			}
		}
	}
}

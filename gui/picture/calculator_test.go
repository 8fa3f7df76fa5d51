package picture

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/look"
	"stillair/gui/paint"
)

// calculatorRooms are the rooms that the two cards have in windows of some sizes, as
// measured in the window.
var calculatorRooms = []struct {
	w, h, left, right, tall float64
}{{1920, 1080, 1004, 857, 829}, {1366, 768, 714, 610, 552}, {1280, 720, 669, 571, 505}, {3840, 2160, 2012, 1716, 1670}}

func someTriangleCard() *TriangleCard {
	c := &TriangleCard{Figure: *closed(178, 50, 33, 305),
		Said: fmt.Sprintf(look.Text(look.CalcSaidRight), "10")}
	for i, name := range []look.Key{look.CalcHeading, look.CalcTAS, look.CalcWindFrom, look.CalcWindSpeed, look.CalcTrack, look.CalcGroundspeed} {
		c.Quantities[i] = Quantity{Name: look.Text(name), Value: "189 kt", Said: look.Text(look.CalcNoAnswer), Side: TriangleSide(i / 2), Locked: i < 4, Answer: i > 3}
	}
	return c
}

// apart checks recorded words: within the room, none on another, none cut or too small,
// none under a key.
func apart(t *testing.T, rec *paint.Record, room paint.Rect, least float64, keys ...paint.Rect) {
	t.Helper()
	var seen []paint.Rect
	texts := rec.Texts()
	require.Greater(t, len(texts), 10)
	for _, k := range texts {
		q := textRoom(k)
		assert.True(t, room.Covers(q), "%q leaves %v: %v", k.Text, room, q)
		assert.GreaterOrEqual(t, k.Type.Size, least, "%q is too small", k.Text)
		assert.NotContains(t, k.Text, "\u2026")
		for j, other := range seen {
			assert.False(t, q.Overlaps(other), "%q lies on %q", k.Text, texts[j].Text)
		}
		for _, key := range keys {
			assert.False(t, q.Overlaps(key), "%q lies under a key", k.Text)
		}
		seen = append(seen, q)
	}
}

func TestWordsOfTheTriangleCard(t *testing.T) {
	for _, s := range calculatorRooms {
		for _, larger := range []bool{false, true} {
			for _, said := range []look.Key{look.CalcSaidRight, look.CalcMirror, look.CalcOpen, look.CalcFreeSaid, look.CalcTwo} {
				z := look.SizeOf(s.w, s.h, s.w/1920)
				if s.w < 1920 {
					z.Device = 1
				}
				z.Larger = larger
				c := someTriangleCard()
				c.Said = fmt.Sprintf(look.Text(said)+"%.0s", "120.4")
				room := paint.R(0, 0, s.left, s.tall)
				keys := 250 * z.Device
				p := TriangleCardLayout(z, room, keys)
				var rec paint.Record
				b := NewBrush(&rec, look.Of(look.Paper), z)
				DrawTriangleCard(b, p, FitTriangle(z, p.Figure, &c.Figure), c)
				for i := range c.Quantities {
					DrawQuantity(b, p.Boxes[i], &c.Quantities[i])
				}
				apart(t, &rec, room, 11.9*z.Device, p.Keys)
				require.Greater(t, p.Figure.H, 200*z.Device)
				require.GreaterOrEqual(t, p.Boxes[0].H, (LockRoom+50)*z.Device)
			}
		}
	}
}

func TestWordsOfTheComputerCards(t *testing.T) {
	curve := SpeedCurve{LastFeet: 25000, AtFeet: 8000, AtExact: 178, AtRule: 183.5, ExactText: "exact 234", RuleText: "rule 237"}
	for ft := 0.0; ft <= 25000; ft += 500 {
		curve.Feet, curve.Exact, curve.Rule = append(curve.Feet, ft), append(curve.Exact, 158+ft*0.003), append(curve.Rule, 158+ft*0.00316)
	}
	for _, s := range calculatorRooms {
		for _, larger := range []bool{false, true} {
			for _, turned := range []bool{false, true} {
				z := look.SizeOf(s.w, s.h, s.w/1920)
				if s.w < 1920 {
					z.Device = 1
				}
				z.Larger = larger
				day := "19.2 C colder than standard"
				c := &ComputerCard{CAS: "158.2", TAS: "178.0", Rule: "183.5", Curve: curve, CurveShown: turned,
					Difference: "the rule is 25.5 kt high here,\n25.5 NM in an hour", CurveTitle: fmt.Sprintf(look.Text(look.CalcCurveTitle), "158", day)}
				c.Rings = SpeedRings{CAS: 158.2, TAS: 178, Top: 178, TASText: "178", Height: "12500", Temperature: "-12.3", Day: day}
				room := paint.R(0, 0, s.right, s.tall)
				p := ComputerCardLayout(z, room)
				var rec paint.Record
				DrawComputerCard(NewBrush(&rec, look.Of(look.Paper), z), p, c)
				keys := append(p.Keys[:], p.CurveKey)
				apart(t, &rec, room, 11.9*z.Device, keys...)
				assert.Equal(t, s.tall/z.Device < twoCards, p.CurveKey.W > 0)
			}
		}
	}
}

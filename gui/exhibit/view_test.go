package exhibit

import (
	"image"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stillair/gui/exhibit/conduct"
	"stillair/gui/exhibit/keep"
	"stillair/gui/look"
	"stillair/sim"
)

// hall is a view on a screen of its own, driven by hand.
type hall struct {
	*View
	t    testing.TB
	time time.Duration
	wall time.Time
	left bool
}

var wednesday = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// file is an exhibit file with a text.
func file(t testing.TB, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "hall.toml")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	return name
}

func openHall(t testing.TB, text string, w, h float32) *hall {
	t.Helper()
	test.NewTempApp(t)
	data := t.TempDir()
	x := &hall{t: t, wall: wednesday}
	var err error
	x.View, err = NewView(keep.Open(file(t, text), data, Shipped), keep.OpenCounts(data), "", 7, func() { x.left = true })
	require.NoError(t, err)
	t.Cleanup(func() {
		x.crew.drop()
		look.Speak(nil)
	})
	win := test.NewTempWindow(t, x.View)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	x.scale = 1
	x.step(0)
	return x
}

func (x *hall) step(d time.Duration) {
	x.time += d
	x.wall = x.wall.Add(d)
	x.Step(x.time, x.wall)
}

// press touches the middle of a target.
func (x *hall) press(target conduct.Target) {
	x.t.Helper()
	for _, z := range x.places().Zones {
		if z.Target == target {
			c := z.Box.Centre()
			x.touch(float32(c.X), float32(c.Y))
			return
		}
	}
	require.Fail(x.t, "there is no such target here", "%d in %v", target, x.machine.Stage())
}

func (x *hall) touch(px, py float32) {
	e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(px, py)}, Button: desktop.MouseButtonPrimary}
	x.MouseDown(e)
	x.MouseUp(e)
	x.step(50 * time.Millisecond)
}

// fly flies a stepped crew until so much has been flown.
func (x *hall) fly(d time.Duration) {
	x.t.Helper()
	x.flyTicks(sim.TicksOf(d) - x.crew.moment().View.Tick)
}

// flyTicks flies a stepped crew so many ticks, and shows the moment.
func (x *hall) flyTicks(n int64) {
	x.t.Helper()
	to := x.crew.moment().View.Tick + n
	x.crew.helm.Step(n)
	require.Eventually(x.t, func() bool { return x.crew.moment().View.Tick == to }, time.Minute, time.Millisecond)
	x.step(33 * time.Millisecond)
}

// shoot writes what is shown to a folder, if one is named.
func (x *hall) shoot(name string) {
	x.t.Helper()
	size := x.Size()
	im := x.generate(int(size.Width), int(size.Height))
	if folder := os.Getenv("SHOTS"); folder != "" {
		f, err := os.Create(filepath.Join(folder, name+".png"))
		require.NoError(x.t, err)
		require.NoError(x.t, png.Encode(f, im))
		require.NoError(x.t, f.Close())
	}
}

// TestAVisit plays a visit on screens of three shapes, and shoots its screens.
func TestAVisit(t *testing.T) {
	for name, size := range map[string][2]float32{"1920": {1920, 1080}, "1366": {1366, 768}, "upright": {1080, 1920}} {
		t.Run(name, func(t *testing.T) {
			x := openHall(t, Shipped, size[0], size[1])
			x.crew.stepped = true
			x.step(8 * time.Second)
			x.shoot(name + "-attract")
			x.press(conduct.FirstLanguage)
			require.Equal(t, conduct.Playing, x.machine.Stage())
			x.fly(28 * time.Minute)
			x.shoot(name + "-play")
			x.press(conduct.BreakKey)
			x.fly(70 * time.Minute)
			x.shoot(name + "-broken")
			off := x.crew.moment()
			assert.Greater(t, off.Revealed.Now.Error.Ground.NM(), 10.0)
			x.press(conduct.InsideKey)
			x.shoot(name + "-inside-broken")
			x.press(conduct.FirstLanguage + 1)
			x.press(conduct.LargerKey)
			x.shoot(name + "-inside-de-larger")
			x.press(conduct.InsideKey)
			x.press(conduct.BreakKey)
			x.fly(75 * time.Minute)
			x.shoot(name + "-mended-de-larger")
			assert.Greater(t, x.crew.moment().Revealed.Now.Error.Ground.NM(), 10.0, "the standing error stays")
			x.press(conduct.LandKey)
			x.fly(5 * time.Minute)
			x.shoot(name + "-cloud-de-larger")
			for range 600 { // the marker comes to the place by itself: nobody allowed for the wind
				if x.machine.Stage() == conduct.Parting {
					break
				}
				x.flyTicks(4 * sim.TicksPerSecond)
			}
			require.Equal(t, conduct.Parting, x.machine.Stage())
			x.step(400 * time.Millisecond)
			x.shoot(name + "-parting")
			x.step(time.Second)
			x.step(time.Second)
			require.Equal(t, conduct.Result, x.machine.Stage())
			x.shoot(name + "-result-de-larger")
			x.press(conduct.LargerKey)
			x.press(conduct.FirstLanguage)
			x.shoot(name + "-result")
			x.machine.Open()
			x.shoot(name + "-keeper")
			x.press(conduct.KeeperTest)
			x.touch(30, 30)
			x.shoot(name + "-test")
			x.machine.Open()
			x.press(conduct.KeeperWipe)
			x.shoot(name + "-wipe")
		})
	}
}

// TestRandomTouches: thousands of touches, drags and keys anywhere, flown at the
// fastest: nothing panics, and left alone the attract loop comes back.
func TestRandomTouches(t *testing.T) {
	for _, size := range [][2]float32{{1366, 768}, {1080, 1920}} {
		x := openHall(t, Shipped+"\n", size[0], size[1])
		x.crew.pace = 240 / x.exhibit().Rate // x240, in cloud ten times what the file asks for
		chance := rand.New(rand.NewPCG(11, uint64(size[0])))
		keys := []fyne.KeyName{"F1", "Escape", "Tab"}
		for _, p := range pairs {
			keys = append(keys, p.less, p.more)
		}
		for _, p := range append(presses[:len(presses):len(presses)], keeperPresses[:3]...) {
			keys = append(keys, p.key)
		}
		stages := map[conduct.Stage]int{}
		for i := range 4000 {
			px, py := chance.Float32()*size[0], chance.Float32()*size[1]
			switch chance.IntN(10) {
			case 0, 1, 2, 3:
				x.touch(px, py)
			case 4:
				e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(px, py)}}
				x.MouseDown(e)
				for range 5 {
					px += (chance.Float32() - 0.5) * 200
					x.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(px, py)}})
				}
				x.DragEnd()
				x.MouseUp(e)
			case 5, 6, 7, 8:
				x.typed(&fyne.KeyEvent{Name: keys[chance.IntN(len(keys))]})
			case 9:
				if chance.IntN(20) == 0 {
					x.machine.Open()
				}
			}
			x.step(time.Duration(chance.IntN(3000)) * time.Millisecond)
			stages[x.machine.Stage()]++
			if i%200 == 0 {
				x.generate(int(size[0]), int(size[1]))
			}
			require.Empty(t, refusal(x), "the engine refuses nothing that a visitor does")
		}
		t.Log(stages)
		for _, s := range []conduct.Stage{conduct.Attract, conduct.Playing, conduct.Cloud, conduct.Result} {
			assert.NotZero(t, stages[s], "%v was reached", s)
		}
		for range 400 {
			x.step(time.Second)
		}
		assert.Equal(t, conduct.Attract, x.machine.Stage())
	}
}

func refusal(x *hall) string {
	if m := x.crew.moment(); m != nil {
		return m.Refusal
	}
	return ""
}

// TestThePictureWanders: the picture of another time is the same one, moved; touches
// follow it.
func TestThePictureWanders(t *testing.T) {
	x := openHall(t, "schema = 1\nreduced_motion = true\nshift_px = 4\nshift_every = \"10s\"\n", 640, 480)
	still := image.NewRGBA(image.Rect(0, 0, 640, 480))
	for n := range 40 {
		x.step(10 * time.Second)
		dx, dy := x.machine.Shift()
		moved := x.generate(640, 480).(*image.RGBA)
		copy(still.Pix, x.surface.Pixels().Pix)
		for _, p := range []image.Point{{100, 100}, {5, 5}, {630, 470}, {320, 240}} {
			assert.Equal(t, still.RGBAAt(p.X-dx, p.Y-dy), moved.RGBAAt(p.X, p.Y), "%d: %d %d at %v", n, dx, dy, p)
		}
		px, py := x.at(fyne.NewPos(100, 100))
		assert.Equal(t, []float64{100 - float64(dx), 100 - float64(dy)}, []float64{px, py})
	}
}

// TestOutsideTheHoursItIsBlack, and touches do nothing; it wakes by itself.
func TestOutsideTheHoursItIsBlack(t *testing.T) {
	x := openHall(t, "schema = 1\n[hours]\nwednesday = \"10:00-12:00\"\n", 640, 480)
	require.Equal(t, conduct.Shut, x.machine.Stage())
	im := x.generate(640, 480).(*image.RGBA)
	for i := 0; i < len(im.Pix); i += 4 {
		require.Equal(t, [4]byte{0, 0, 0, 255}, [4]byte(im.Pix[i:i+4]))
	}
	x.touch(300, 300)
	x.typed(&fyne.KeyEvent{Name: fyne.KeySpace})
	x.step(time.Second)
	assert.Equal(t, conduct.Shut, x.machine.Stage())
	x.wall = wednesday.AddDate(0, 0, 7).Add(-time.Hour)
	x.step(time.Second)
	assert.Equal(t, conduct.Attract, x.machine.Stage())
}

// TestManyVisitsLeaveNothingBehind: flights begun one after the other end.
func TestManyVisitsLeaveNothingBehind(t *testing.T) {
	x := openHall(t, Shipped, 640, 480)
	x.touch(100, 100)
	before := runtime.NumGoroutine()
	for range 50 {
		x.step(time.Second)
		x.machine.Touch(conduct.AgainKey)
		x.machine.Touch(conduct.LandKey)
	}
	assert.LessOrEqual(t, runtime.NumGoroutine(), before+2)
}

// TestACornerHeldOpensTheKeepersPage, for a machine without a keyboard.
func TestACornerHeldOpensTheKeepersPage(t *testing.T) {
	x := openHall(t, Shipped, 1366, 768)
	down := func(px, py float32, hold time.Duration) {
		e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(px, py)}}
		x.MouseDown(e)
		x.step(hold)
		x.MouseUp(e)
	}
	down(40, 40, 7*time.Second)
	assert.NotEqual(t, conduct.Keeper, x.machine.Stage())
	down(400, 40, 9*time.Second)
	assert.NotEqual(t, conduct.Keeper, x.machine.Stage(), "not there")
	down(40, 40, 8*time.Second)
	assert.Equal(t, conduct.Keeper, x.machine.Stage())
}

// TestOddScreens: screens that nobody would hang up are drawn too, at every stage.
func TestOddScreens(t *testing.T) {
	for _, size := range [][2]int{{60, 60}, {320, 320}, {640, 480}, {800, 600}, {300, 1200}, {2400, 300}, {1024, 1024}} {
		x := openHall(t, Shipped, 1366, 768)
		draw := func() { x.generate(size[0], size[1]) }
		draw()
		x.machine.Touch(conduct.Anywhere)
		draw()
		x.machine.Touch(conduct.BreakKey)
		x.machine.Touch(conduct.LargerKey)
		draw()
		x.machine.Touch(conduct.InsideKey)
		draw()
		x.machine.Touch(conduct.InsideKey)
		x.machine.Touch(conduct.LandKey)
		draw()
		x.step(91 * time.Second)
		draw()
		x.step(2 * time.Second)
		x.step(2 * time.Second)
		for i := 0; i < 10_000 && x.machine.Stage() == conduct.Parting; i++ { // the helm stops its clock by itself
			time.Sleep(time.Millisecond)
			x.step(0)
		}
		draw()
		assert.Equal(t, conduct.Result, x.machine.Stage())
		for _, k := range []conduct.Target{conduct.KeeperTest, conduct.KeeperWipe} {
			x.machine.Open()
			draw()
			x.machine.Touch(k)
			draw()
		}
	}
}

// BenchmarkFrame is a frame of a visit on a large screen, without laying it out.
func BenchmarkFrame(b *testing.B) {
	x := openHall(b, Shipped, 1920, 1080)
	x.machine.Touch(conduct.Anywhere)
	x.generate(1920, 1080)
	for b.Loop() {
		x.step(33 * time.Millisecond)
		x.generate(1920, 1080)
	}
}

// BenchmarkZoom is a frame for which the chart is drawn anew.
func BenchmarkZoom(b *testing.B) {
	x := openHall(b, Shipped, 1920, 1080)
	x.machine.Touch(conduct.Anywhere)
	for b.Loop() {
		x.machine.Touch(conduct.AgainKey)
		x.step(33 * time.Millisecond)
		x.generate(1920, 1080)
	}
}

// TestThePictureIsAskedForFromItsCanvas: not by way of the toolkit's cache, which forgets
// after a stall; each frame that is due asks once.
func TestThePictureIsAskedForFromItsCanvas(t *testing.T) {
	x := openHall(t, Shipped, 640, 480)
	asked := []fyne.CanvasObject{}
	x.repaint = func(o fyne.CanvasObject) { asked = append(asked, o) }
	for range 10 {
		x.step(attractEvery)
	}
	require.Len(t, asked, 10)
	assert.Same(t, x.raster, asked[0])
	x.step(attractEvery / 4)
	assert.Len(t, asked, 10, "none is due")
	x.step(20 * time.Minute) // the program could not run
	assert.Len(t, asked, 11)
}

package paint_test

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/gofont/goregular"
	"pgregory.net/rapid"

	"stillair/gui/paint"
)

var (
	white = color.NRGBA{255, 255, 255, 255}
	black = color.NRGBA{0, 0, 0, 255}
	red   = color.NRGBA{200, 30, 20, 255}
)

func font(t testing.TB) *paint.Font {
	f, err := paint.ParseFont("go", goregular.TTF)
	require.NoError(t, err)
	return f
}

// area is the painted area in pixels: the sum of the coverages of black on
// transparent.
func area(im *image.RGBA) float64 {
	sum := 0.0
	for i := 3; i < len(im.Pix); i += 4 {
		sum += float64(im.Pix[i]) / 255
	}
	return sum
}

// Closed form: areas of the plane figures. Tolerance: coverage has 8 bits, so
// half a level on each pixel of the outline; a flattened curve lies within 0.05
// pixels of the true one.
func TestAreasOfFigures(t *testing.T) {
	for _, c := range []struct {
		name string
		draw func(*paint.Path)
		want float64
		tol  float64
	}{
		{"rectangle", func(p *paint.Path) { p.Rect(paint.R(10.25, 20.5, 30.5, 7.25)) }, 30.5 * 7.25, 0.3},
		{"circle", func(p *paint.Path) { p.Circle(50, 50, 30) }, math.Pi * 900, 2 * math.Pi * 30 * 0.05},
		{"rounded", func(p *paint.Path) { p.RoundRect(paint.R(10, 10, 60, 40), 8) }, 2400 - (4-math.Pi)*64, 2 * math.Pi * 8 * 0.05},
		{"triangle", func(p *paint.Path) { p.Polygon(paint.Pt(10, 10), paint.Pt(90, 20), paint.Pt(30, 80)) }, 2700, 1.5},
	} {
		s := paint.NewImage(100, 100)
		var p paint.Path
		c.draw(&p)
		s.Fill(&p, black)
		assert.InDelta(t, c.want, area(s.Pixels()), c.tol, c.name)
	}
}

func TestAreasOfStrokes(t *testing.T) {
	w := 6.0
	for _, c := range []struct {
		name string
		pen  paint.Pen
		draw func(*paint.Path)
		want float64
	}{
		{"butt", paint.Pen{Width: w}, func(p *paint.Path) { p.Segment(paint.Pt(20, 20), paint.Pt(80, 65)) }, 75 * w},
		{"round", paint.Pen{Width: w, Cap: paint.Round}, func(p *paint.Path) { p.Segment(paint.Pt(20, 20), paint.Pt(80, 65)) }, 75*w + math.Pi*w*w/4},
		{"ring", paint.Pen{Width: w}, func(p *paint.Path) { p.Circle(50, 50, 30) }, 2 * math.Pi * 30 * w},
		{"arc", paint.Pen{Width: w}, func(p *paint.Path) { p.Arc(50, 50, 30, -58, 58) }, 116.0 / 360 * 2 * math.Pi * 30 * w},
		{"dashed", paint.Pen{Width: w, Dash: []float64{6, 4}}, func(p *paint.Path) { p.Segment(paint.Pt(10, 50), paint.Pt(90, 50)) }, 48 * w},
		{"square", paint.Pen{Width: w}, func(p *paint.Path) { p.Rect(paint.R(20, 20, 50, 50)) }, 4*50*w - 4*(w*w/4)*(1-math.Pi/4) + 0},
		{"dot", paint.Pen{Width: w, Cap: paint.Round}, func(p *paint.Path) { p.MoveTo(50, 50).LineTo(50, 50) }, math.Pi * w * w / 4},
	} {
		s := paint.NewImage(100, 100)
		var p paint.Path
		c.draw(&p)
		s.Stroke(&p, c.pen, black)
		assert.InDelta(t, c.want, area(s.Pixels()), 0.01*c.want+0.5, c.name)
	}
}

// A wide stroke along a jagged line has no holes: every point nearer to the
// line than half the width is painted (seams of some levels of 255 aside),
// every one farther is not (the slow, obviously correct version).
func TestWideStrokeIsTheSetOfNearPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "n")
		pts := make([]paint.Point, n)
		for i := range pts {
			pts[i] = paint.Pt(rapid.Float64Range(30, 90).Draw(t, "x"), rapid.Float64Range(30, 90).Draw(t, "y"))
		}
		width := rapid.Float64Range(2, 40).Draw(t, "width")
		var p paint.Path
		s := paint.NewImage(120, 120)
		s.Stroke(p.Polyline(pts...), paint.Pen{Width: width, Cap: paint.Round}, black)
		for y := 0; y < 120; y += 3 {
			for x := 0; x < 120; x += 3 {
				d := distance(paint.Pt(float64(x)+0.5, float64(y)+0.5), pts)
				got := s.Pixels().RGBAAt(x, y).A
				if d < width/2-1 && got < 240 || d > width/2+1 && got != 0 {
					t.Fatalf("pixel %d,%d at %.2f from a line of half width %.2f has coverage %d", x, y, d, width/2, got)
				}
			}
		}
	})
}

func distance(q paint.Point, pts []paint.Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		l2 := (b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y)
		u := 0.0
		if l2 > 0 {
			u = math.Max(0, math.Min(1, ((q.X-a.X)*(b.X-a.X)+(q.Y-a.Y)*(b.Y-a.Y))/l2))
		}
		best = math.Min(best, q.Dist(paint.Pt(a.X+u*(b.X-a.X), a.Y+u*(b.Y-a.Y))))
	}
	return best
}

// A figure far larger than the image gives the same pixels as its part inside.
func TestFiguresBeyondTheImage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		far := rapid.Float64Range(-1e7, 1e7)
		pts := []paint.Point{}
		for range 5 {
			pts = append(pts, paint.Pt(far.Draw(t, "x"), far.Draw(t, "y")))
		}
		box := paint.R(0, 0, 40, 70)
		a, b := paint.NewImage(40, 70), paint.NewImage(40, 70)
		var p, q paint.Path
		a.Fill(p.Polygon(pts...), black)
		b.Fill(q.Polygon(paint.ClipPolygon(pts, box.Inset(-5))...), black)
		for i := range a.Pixels().Pix {
			if d := int(a.Pixels().Pix[i]) - int(b.Pixels().Pix[i]); d < -3 || d > 3 {
				t.Fatalf("byte %d: %d and %d", i, a.Pixels().Pix[i], b.Pixels().Pix[i])
			}
		}
	})
}

func TestClipAndComposition(t *testing.T) {
	s := paint.NewImage(20, 20)
	var p paint.Path
	s.Fill(p.Rect(paint.R(0, 0, 20, 20)), white)
	s.PushClip(paint.R(5, 5, 10, 10))
	s.PushClip(paint.R(0, 0, 8, 20))
	s.Fill(&p, paint.Alpha(black, 0.5))
	s.PopClip()
	s.PopClip()
	at := func(x, y int) uint8 { return s.Pixels().RGBAAt(x, y).R }
	assert.Equal(t, uint8(255), at(4, 10))
	assert.InDelta(t, 127, int(at(6, 10)), 1, "half black over white")
	assert.Equal(t, uint8(255), at(9, 10), "outside the inner clip")
	assert.Equal(t, uint8(255), s.Pixels().RGBAAt(6, 10).A)
	s.PopClip() // one too many does nothing
	s.Shade(paint.R(0, 0, 20, 20), black, paint.Alpha(black, 0))
	assert.Less(t, at(1, 0), uint8(10))
	assert.Greater(t, at(1, 19), uint8(245))
}

func TestImageIsCopiedOrStretched(t *testing.T) {
	src := paint.NewImage(4, 4)
	var p paint.Path
	src.Fill(p.Rect(paint.R(0, 0, 2, 4)), red)
	s := paint.NewImage(20, 20)
	s.Image(paint.R(3, 3, 4, 4), src.Pixels())
	assert.Equal(t, uint8(200), s.Pixels().RGBAAt(4, 4).R)
	assert.Equal(t, uint8(0), s.Pixels().RGBAAt(5, 4).A)
	s.Image(paint.R(0, 10, 20, 10), src.Pixels())
	assert.Equal(t, uint8(200), s.Pixels().RGBAAt(5, 15).R)
	assert.Equal(t, uint8(0), s.Pixels().RGBAAt(16, 15).A)
}

func TestTextStandsAtItsAnchor(t *testing.T) {
	f := font(t)
	for anchor, want := range map[paint.Anchor]float64{paint.Start: 50, paint.Middle: 50 - f.Width("HIH", 20)/2, paint.End: 50 - f.Width("HIH", 20)} {
		s := paint.NewImage(120, 40)
		s.Text(50, 30, "HIH", paint.Type{Font: f, Size: 20, Anchor: anchor}, black)
		ink := f.Ink("HIH", 20)
		left, top := inkEdge(s.Pixels())
		assert.InDelta(t, want+ink.X, float64(left), 1.01)
		assert.InDelta(t, 30+ink.Y, float64(top), 1.01)
	}
	assert.Zero(t, f.Width("", 20))
	assert.False(t, f.Has('\uE000'))
	assert.True(t, f.Has('A'))
}

func inkEdge(im *image.RGBA) (left, top int) {
	left, top = im.Rect.Dx(), im.Rect.Dy()
	for y := range im.Rect.Dy() {
		for x := range im.Rect.Dx() {
			if im.RGBAAt(x, y).A > 100 {
				left, top = min(left, x), min(top, y)
			}
		}
	}
	return left, top
}

// Turned through a quarter, the text covers the same area.
func TestTurnedText(t *testing.T) {
	f := font(t)
	a, b := paint.NewImage(100, 100), paint.NewImage(100, 100)
	ty := paint.Type{Font: f, Size: 24, Anchor: paint.Middle}
	a.Text(50, 50, "268T", ty, black)
	b.Turned(paint.Turn(50, 50, 1, 90), "268T", ty, black)
	assert.InDelta(t, area(a.Pixels()), area(b.Pixels()), 2)
	assert.NotEqual(t, a.Pixels().Pix, b.Pixels().Pix)
}

func TestFontServesManyAtOnce(t *testing.T) {
	f := font(t)
	var wg sync.WaitGroup
	for range 4 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			s := paint.NewImage(200, 40)
			s.Text(5, 30, "Tern Islands 47 41.1 S", paint.Type{Font: f, Size: 15}, black)
			assert.Positive(t, area(s.Pixels()))
		}()
	}
	wg.Wait()
}

// scene uses every call once.
func scene(s paint.Surface, f *paint.Font) {
	var p paint.Path
	s.Fill(p.Rect(paint.R(0, 0, 200, 100)), white)
	s.PushClip(paint.R(10, 10, 180, 80))
	s.Fill(p.Reset().Circle(60, 50, 30), red)
	s.Stroke(p.Reset().Arc(60, 50, 36, 0, 200), paint.Pen{Width: 3, Dash: []float64{8, 4}, Cap: paint.Round}, black)
	s.Shade(paint.R(100, 20, 30, 60), paint.Alpha(black, 0.4), paint.Alpha(black, 0))
	s.PopClip()
	s.Text(100, 90, "47 28.5 <S> & \"W\"", paint.Type{Font: f, Size: 14, Halo: white, HaloWidth: 4}, black)
	s.Turned(paint.Turn(170, 50, 1, 30), "030", paint.Type{Font: f, Size: 14, Anchor: paint.Middle}, black)
	s.Image(paint.R(140, 20, 10, 10), image.NewRGBA(image.Rect(0, 0, 2, 2)))
}

func TestSVGIsWellFormed(t *testing.T) {
	s := paint.NewSVG(200, 100, "a <title> & more")
	scene(s, font(t))
	s.PushClip(paint.R(0, 0, 5, 5)) // left open: the writer closes it
	var b bytes.Buffer
	_, err := s.WriteTo(&b)
	require.NoError(t, err)
	d := xml.NewDecoder(bytes.NewReader(b.Bytes()))
	count := map[string]int{}
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		if e, ok := tok.(xml.StartElement); ok {
			count[e.Name.Local]++
			for _, a := range e.Attr {
				assert.NotContains(t, a.Value, "NaN")
			}
		}
	}
	assert.Equal(t, 1, count["svg"])
	assert.Equal(t, 2, count["clipPath"])
	assert.Equal(t, 1, count["image"])
	assert.Equal(t, 1, count["linearGradient"])
	assert.Equal(t, 6, count["path"], "ground, disc, arc, halo, text, turned text")
}

func TestPDFOpens(t *testing.T) {
	s := paint.NewPDF(200, 100, 400, "title")
	scene(s, font(t))
	s.Page()
	scene(s, font(t))
	var b bytes.Buffer
	_, err := s.WriteTo(&b)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(b.String(), "%PDF-1."))
	assert.True(t, strings.HasSuffix(strings.TrimSpace(b.String()), "%%EOF"))

	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Log("pdftoppm is not installed: the pages are not looked at")
		return
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "scene.pdf")
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o600))
	out, err := exec.Command(tool, "-png", "-r", "36", file, filepath.Join(dir, "page")).CombinedOutput()
	require.NoError(t, err, string(out))
	assert.Empty(t, string(out))
	pages, err := filepath.Glob(filepath.Join(dir, "page*.png"))
	require.NoError(t, err)
	require.Len(t, pages, 2)
	text, err := os.ReadFile(pages[0])
	require.NoError(t, err)
	im, err := png.Decode(bytes.NewReader(text))
	require.NoError(t, err)
	assert.Equal(t, image.Pt(200, 100), im.Bounds().Size())
	r, _, _, _ := im.At(60, 50).RGBA()
	assert.InDelta(t, 200, int(r>>8), 2, "the disc is where it was drawn")
}

// The three back-ends draw one picture: a PDF page and an SVG file, rendered by
// programs of others, are near the raster image.
func TestBackEndsAgree(t *testing.T) {
	f := font(t)
	s := paint.NewImage(200, 100)
	scene(s, f)
	for _, c := range []struct {
		tool   string
		format paint.Format
		args   func(in, out string) []string
	}{
		{"pdftoppm", paint.PDFFile, func(in, out string) []string {
			return []string{"-png", "-scale-to-x", "200", "-scale-to-y", "100", "-singlefile", in, strings.TrimSuffix(out, ".png")}
		}},
		{"rsvg-convert", paint.SVGFile, func(in, out string) []string { return []string{in, "-o", out} }},
	} {
		t.Run(c.tool, func(t *testing.T) {
			tool, err := exec.LookPath(c.tool)
			if err != nil {
				t.Skipf("%s is not installed", c.tool)
			}
			var b bytes.Buffer
			require.NoError(t, paint.Export(&b, c.format, 200, 100, "scene", func(s paint.Surface) { scene(s, f) }))
			in, out := filepath.Join(t.TempDir(), "scene"), filepath.Join(t.TempDir(), "page.png")
			require.NoError(t, os.WriteFile(in, b.Bytes(), 0o600))
			said, err := exec.Command(tool, c.args(in, out)...).CombinedOutput()
			require.NoError(t, err, string(said))
			text, err := os.ReadFile(out)
			require.NoError(t, err)
			page, err := png.Decode(bytes.NewReader(text))
			require.NoError(t, err)
			agree(t, s.Pixels(), page)
		})
	}
}

func agree(t *testing.T, want *image.RGBA, got image.Image) {
	require.Equal(t, want.Rect.Size(), got.Bounds().Size())
	sum, far, n := 0.0, 0, want.Rect.Dx()*want.Rect.Dy()
	for y := range want.Rect.Dy() {
		for x := range want.Rect.Dx() {
			r, _, _, _ := got.At(x, y).RGBA()
			d := math.Abs(float64(r>>8) - float64(want.RGBAAt(x, y).R))
			sum += d
			if d > 128 {
				far++
			}
		}
	}
	assert.Less(t, sum/float64(n), 3.0, "mean difference of levels")
	assert.Less(t, far, n/200, "pixels that differ by half the range")
}

func TestRecordKeepsTheCalls(t *testing.T) {
	var r paint.Record
	scene(&r, font(t))
	assert.Zero(t, r.Open())
	require.Len(t, r.Texts(), 2)
	assert.Equal(t, "030", r.Texts()[1].Text)
	assert.Contains(t, r.String(), "stroke #000000")
	assert.Equal(t, 9, len(r.Calls))
}

func TestFormats(t *testing.T) {
	for name, want := range map[string]paint.Format{"a.png": paint.PNG, "b.SVG": paint.SVGFile, "c.pdf": paint.PDFFile} {
		got, err := paint.FormatOf(name)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := paint.FormatOf("chart.gif")
	assert.ErrorContains(t, err, ".png, .svg or .pdf")
	assert.Error(t, paint.Export(io.Discard, 0, 10, 10, "", func(paint.Surface) {}))
	var b bytes.Buffer
	require.NoError(t, paint.Export(&b, paint.PNG, 30, 20, "", func(s paint.Surface) {}))
	im, err := png.Decode(&b)
	require.NoError(t, err)
	assert.Equal(t, image.Pt(30, 20), im.Bounds().Size())
}

func TestClipSegment(t *testing.T) {
	r := paint.R(0, 0, 10, 10)
	a, b, ok := paint.ClipSegment(paint.Pt(-10, 5), paint.Pt(20, 5), r)
	assert.True(t, ok)
	assert.Equal(t, []paint.Point{{X: 0, Y: 5}, {X: 10, Y: 5}}, []paint.Point{a, b})
	_, _, ok = paint.ClipSegment(paint.Pt(-10, -1), paint.Pt(20, -1), r)
	assert.False(t, ok)
	_, _, ok = paint.ClipSegment(paint.Pt(-5, 4), paint.Pt(4, -5), r)
	assert.False(t, ok)
}

func BenchmarkText(b *testing.B) {
	s, f := paint.NewImage(400, 40), font(b)
	for b.Loop() {
		s.Text(5, 30, "47 41.1 S 178 48.7 W", paint.Type{Font: f, Size: 15, Halo: white, HaloWidth: 5}, black)
	}
}

func BenchmarkPlainText(b *testing.B) {
	s, f := paint.NewImage(400, 40), font(b)
	for b.Loop() {
		s.Text(5, 30, "47 41.1 S 178 48.7 W", paint.Type{Font: f, Size: 15}, black)
	}
}

func BenchmarkTrack2000(b *testing.B) {
	s := paint.NewImage(1300, 900)
	var p paint.Path
	for i := range 2000 {
		x := float64(i)
		p.Polyline(paint.Pt(20+x*0.6, 450+300*math.Sin(x/200)))
		if i > 0 {
			p.Ops[len(p.Ops)-1] = paint.Line
		}
	}
	for b.Loop() {
		s.Stroke(&p, paint.Pen{Width: 2.4, Cap: paint.Round}, red)
	}
}

func BenchmarkCircle(b *testing.B) {
	s := paint.NewImage(200, 200)
	var p paint.Path
	p.Circle(100, 100, 90)
	for b.Loop() {
		s.Fill(&p, red)
	}
}

func TestWrap(t *testing.T) {
	letters := func(s string) float64 { return float64(len(s)) }
	assert.Equal(t, []string{"one two", "three", "overlongword", "x"}, paint.Wrap("one two three overlongword x", letters, 8))
	assert.Equal(t, []string{"a", "b"}, paint.Wrap("a\nb", letters, 8))
}

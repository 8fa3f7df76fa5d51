package look

import (
	_ "embed"
	"sync"

	"stillair/gui/paint"
)

// Face is one of the embedded faces. Lato serves all text and tables; Routed
// Gothic the drums, plates, scale figures, coordinates on charts and the name.
// Licences (both SIL Open Font License 1.1) stand in fonts/.
type Face uint8

// The faces.
const (
	Regular Face = iota
	Semibold
	Bold
	Engraved // Routed Gothic
)

// faceCount is their number.
const faceCount = 4

//go:embed fonts/Lato-Regular.ttf
var latoRegular []byte

//go:embed fonts/Lato-Semibold.ttf
var latoSemibold []byte

//go:embed fonts/Lato-Bold.ttf
var latoBold []byte

//go:embed fonts/RoutedGothic.ttf
var routedGothic []byte

// TTF is the face's file, for toolkits with a text of their own. It is shared:
// read it, do not change it.
func (f Face) TTF() []byte {
	return [...][]byte{latoRegular, latoSemibold, latoBold, routedGothic}[f]
}

// String is the face's name.
func (f Face) String() string {
	return [...]string{"Lato", "Lato Semibold", "Lato Bold", "Routed Gothic"}[f]
}

var fonts = sync.OnceValue(func() (all [faceCount]*paint.Font) {
	for f := range all {
		font, err := paint.ParseFont(Face(f).String(), Face(f).TTF())
		if err != nil {
			panic(err) // an embedded file that a test reads
		}
		all[f] = font
	}
	return all
})

// Font is the face ready for drawing.
func (f Face) Font() *paint.Font { return fonts()[f] }

// The scale of type, pixels at 1080 lines.
const (
	TextSmall   = 15.0
	TextBody    = 17.0
	TextLabel   = 19.0
	TextLarge   = 22.0
	TextHeading = 27.0
	TextFigure  = 36.0
	TextReading = 44.0
	TextDrum    = 72.0
	TextExhibit = 88.0
)

// The grid, pixels at 1080 lines.
const (
	Unit        = 4.0
	GapRow      = 8.0  // inside a row of controls
	GapCard     = 12.0 // between cards
	GapColumn   = 16.0 // between chart and column
	Edge        = 24.0 // window edge
	CardRadius  = 8.0
	PlateRadius = 6.0
	SmallRadius = 4.0
	DrumRadius  = 3.0
	Control     = 56.0 // height of a control, at every size
	ExhibitRow  = 88.0
	TopBar      = 72.0
	TimeStrip   = 148.0
	Column      = 500.0 // width of the instrument column
)

// Size turns sizes at 1080 lines into device pixels.
type Size struct {
	// Part is the factor of drawn parts.
	Part float64
	// Device is the number of device pixels to one unit of the toolkit; text
	// and controls never fall below their smallest sizes times Device.
	Device float64
	// Larger makes running text a quarter larger.
	Larger bool
}

// smallest is the smallest running text, units: 13.5 at 768 lines.
const smallest = 13.5

// SizeOf is the size for a window of w by h device pixels.
func SizeOf(w, h, device float64) Size { return Size{Part: min(w/1920, h/1080), Device: device} }

// Px scales a drawn part.
func (s Size) Px(v float64) float64 { return v * s.Part }

// Text scales running text, down to the smallest size allowed.
func (s Size) Text(v float64) float64 {
	size := max(v*s.Part, min(v, smallest)*s.Device)
	if s.Larger {
		return 1.25 * size
	}
	return size
}

// Figure scales the figures on a dial, which may go down to 12.5 units, for
// the dial shows its value large beside them.
func (s Size) Figure(v float64) float64 { return max(v*s.Part, 12.5*s.Device) }

// Hair is the width of a hairline: one pixel, two at twice the size.
func (s Size) Hair() float64 { return max(1, float64(int(s.Part+0.5))) }

// Symbol is the factor of chart symbols: 0.8 at the smallest size.
func (s Size) Symbol() float64 { return max(s.Part, 0.8*s.Device) }

// Small says whether the window is of the small kind, where words leave the
// chart and long captions their places.
func (s Size) Small() bool { return s.Part/s.Device < 0.8 }

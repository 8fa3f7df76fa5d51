package look

import "image/color"

// Variant is a light to read by.
type Variant uint8

// The variants, in the order in which the light button goes through them; the
// last two are the chart under the lamp, inside its pool of light and outside.
const (
	Paper Variant = iota
	Night
	Lamp
	LampLit
	LampUnlit
)

// String is the variant's name in settings.
func (v Variant) String() string {
	return [...]string{"paper", "night", "lamp", "lamp lit", "lamp unlit"}[v]
}

// Next is the variant the light button leads to.
func (v Variant) Next() Variant { return (v + 1) % 3 }

// Palette is one column of the table of colours.
type Palette struct {
	Variant Variant

	Ground color.NRGBA // window ground ("paper" on a paper day)
	Card   color.NRGBA // cards, buttons, bars
	Low    color.NRGBA // recesses, zones, table stripes
	Sea    color.NRGBA // chart water
	Land   color.NRGBA // chart land

	WaterLine, Graticule color.NRGBA // along coasts; of the chart

	Ink     color.NRGBA // text, outlines, ground track
	Ink2    color.NRGBA // second text, ticks
	Line    color.NRGBA // hairlines only, never meaning
	Slate   color.NRGBA // number housings, the chosen control
	SlateHi color.NRGBA // button outline
	Rod     color.NRGBA // rods, yokes, rims of round cards
	OnSlate color.NRGBA // text on slate

	Drum, DrumInk color.NRGBA // drum face and digit
	Housing       color.NRGBA // outline of a number housing
	Shade         color.NRGBA // roundness of a drum

	Brass     color.NRGBA // moving parts, knobs
	BrassHi   color.NRGBA // light edge, main button, flown time, lamp light
	BrassLo   color.NRGBA // outline of all brass, turn marks
	BrassText color.NRGBA // variation text, isogonals, magnetic ring
	OnBrass   color.NRGBA // text on BrassHi

	Air      color.NRGBA // air vector, air position, pitot pressure
	Wind     color.NRGBA // wind vector and text, static pressure line
	Pos      color.NRGBA // position lines, bearings
	Verm     color.NRGBA // fault, error, truth
	VermFill color.NRGBA // ground of error plates
	OnVerm   color.NRGBA // text on a flag of verm

	// Pool gives the opacity of the three discs of lamp light under the ground
	// position, from the outermost in, each a part of one.
	Pool [3]float64
}

// rgb reads 0xRRGGBB.
func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

var paperPool, nightPool = [3]float64{0.30, 0.42, 0.60}, [3]float64{0.16, 0.20, 0.30}

var palettes = [...]Palette{
	Paper: {
		Ground: rgb(0xF3ECDC), Card: rgb(0xFBF7EC), Low: rgb(0xE8DFC9), Sea: rgb(0xF7F2E4), Land: rgb(0xDBCBA3),
		WaterLine: rgb(0xA9B8BC), Graticule: rgb(0xB9AE94),
		Ink: rgb(0x1D2731), Ink2: rgb(0x4B5560), Line: rgb(0xBCB094),
		Slate: rgb(0x3A4855), SlateHi: rgb(0x566675), Rod: rgb(0x3A4855), OnSlate: rgb(0xF6F0DF),
		Drum: rgb(0xF8F2E1), DrumInk: rgb(0x1D2731), Housing: rgb(0x1D2731), Shade: rgb(0x1D2731),
		Brass: rgb(0xC0923F), BrassHi: rgb(0xE3C680), BrassLo: rgb(0x7A5817), BrassText: rgb(0x765313), OnBrass: rgb(0x1D2731),
		Air: rgb(0x1F677E), Wind: rgb(0x52176F), Pos: rgb(0x5F6354),
		Verm: rgb(0xA8331B), VermFill: rgb(0xF0D3C4), OnVerm: rgb(0xFFFFFF), Pool: paperPool,
	},
	Night: {
		Ground: rgb(0x141C24), Card: rgb(0x1D2731), Low: rgb(0x0E141A), Sea: rgb(0x17212A), Land: rgb(0x33404A),
		WaterLine: rgb(0x3D5161), Graticule: rgb(0x4B5A66),
		Ink: rgb(0xEFE6D2), Ink2: rgb(0xB3BABD), Line: rgb(0x46535F),
		Slate: rgb(0x34434F), SlateHi: rgb(0x6E8293), Rod: rgb(0x9FB0BC), OnSlate: rgb(0xEFE6D2),
		Drum: rgb(0xD5CAAE), DrumInk: rgb(0x141C24), Housing: rgb(0x6E8293), Shade: rgb(0x0A0F14),
		Brass: rgb(0xC99A45), BrassHi: rgb(0xF0D28C), BrassLo: rgb(0x8E6A25), BrassText: rgb(0xE6BF6E), OnBrass: rgb(0x1D2731),
		Air: rgb(0x95DAEB), Wind: rgb(0xB386D7), Pos: rgb(0x96ACA5),
		Verm: rgb(0xE4766A), VermFill: rgb(0x3C211C), OnVerm: rgb(0x1D2731), Pool: nightPool,
	},
	Lamp: lamp(lampTokens{
		paper: 0x0A0303, card: 0x100504, low: 0x180706, land: 0x1C0806, ink: 0xE3624C, ink2: 0xCE5A45, line: 0x3A130D,
		brass: 0x6E2418, brassHi: 0xD5543E, slate: 0x240A07, onSlate: 0xE3624C, drum: 0x1C0806, drumInk: 0xE8705A,
		water: 0x2A0D09, graticule: 0x2E0F0A,
	}),
	LampLit: lamp(lampTokens{
		paper: 0xDB5238, card: 0xDB5238, low: 0xCF4A32, land: 0xC6442B, ink: 0x140302, ink2: 0x2A0704, line: 0xA8371F,
		brass: 0xE4684E, brassHi: 0xF08A72, slate: 0x2A0704, onSlate: 0xF08A72, drum: 0xF08A72, drumInk: 0x140302,
		water: 0xB03C24, graticule: 0xB03C24,
	}),
	LampUnlit: lamp(lampTokens{
		paper: 0x0A0303, card: 0x0E0504, low: 0x140606, land: 0x1C0806, ink: 0x9E4636, ink2: 0x83382A, line: 0x3A130D,
		brass: 0x6E2418, brassHi: 0x5A2018, slate: 0x240A07, onSlate: 0xE3624C, drum: 0x1C0806, drumInk: 0xE8705A,
		water: 0x2A0D09, graticule: 0x2E0F0A,
	}),
}

// lampTokens are what sets one lamp palette apart from the others; the light
// has one hue, so that all else is ink.
type lampTokens struct {
	paper, card, low, land, ink, ink2, line, brass, brassHi, slate, onSlate, drum, drumInk, water, graticule uint32
}

func lamp(t lampTokens) Palette {
	ink, ink2 := rgb(t.ink), rgb(t.ink2)
	return Palette{
		Ground: rgb(t.paper), Card: rgb(t.card), Low: rgb(t.low), Sea: rgb(t.paper), Land: rgb(t.land),
		WaterLine: rgb(t.water), Graticule: rgb(t.graticule), Ink: ink, Ink2: ink2, Line: rgb(t.line),
		Slate: rgb(t.slate), SlateHi: ink2, Rod: ink2, OnSlate: rgb(t.onSlate),
		Drum: rgb(t.drum), DrumInk: rgb(t.drumInk), Housing: ink2, Shade: rgb(0x000000),
		Brass: rgb(t.brass), BrassHi: rgb(t.brassHi), BrassLo: ink2, BrassText: ink, OnBrass: rgb(0x140302),
		Air: ink, Wind: ink, Pos: ink2, Verm: ink, VermFill: rgb(t.low), OnVerm: rgb(t.paper), Pool: nightPool,
	}
}

// Of gives the palette of a variant. It is shared: read it, do not change it.
func Of(v Variant) *Palette { return &palettes[v] }

func init() {
	for v := range palettes {
		palettes[v].Variant = Variant(v)
	}
}

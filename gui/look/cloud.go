package look

import "image/color"

// CloudLine is the outline of a cloud: hardly more than its shade, for meaning
// lies above and below it.
func (p *Palette) CloudLine() color.NRGBA {
	if p.Variant == Paper {
		return rgb(0xCFC6AE)
	}
	return p.Line
}

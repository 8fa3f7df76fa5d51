package gui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"stillair/gui/look"
)

// paperTheme gives the toolkit's own widgets (entries, labels, pop-ups) the
// colours and faces of the look.
type paperTheme struct {
	fyne.Theme
	variant fyne.ThemeVariant
	colours map[fyne.ThemeColorName]color.Color
}

func themeOf(p *look.Palette) fyne.Theme {
	variant := theme.VariantLight
	if p.Variant != look.Paper {
		variant = theme.VariantDark
	}
	return paperTheme{Theme: theme.DefaultTheme(), variant: variant, colours: map[fyne.ThemeColorName]color.Color{
		theme.ColorNameBackground:          cleared(p.Ground),
		theme.ColorNameForeground:          p.Ink,
		theme.ColorNamePrimary:             p.SlateHi,
		theme.ColorNameForegroundOnPrimary: p.OnSlate,
		theme.ColorNameButton:              p.Card,
		theme.ColorNameInputBackground:     p.Card,
		theme.ColorNameInputBorder:         p.SlateHi,
		theme.ColorNamePlaceHolder:         p.Ink2,
		theme.ColorNameDisabled:            p.Ink2,
		theme.ColorNameFocus:               p.SlateHi,
		theme.ColorNameSelection:           paintAlpha(p.BrassHi, 0x90),
		theme.ColorNameHover:               p.Low,
		theme.ColorNamePressed:             p.Low,
		theme.ColorNameError:               p.Verm,
		theme.ColorNameForegroundOnError:   p.OnVerm,
		theme.ColorNameOverlayBackground:   p.Card,
		theme.ColorNameMenuBackground:      p.Card,
		theme.ColorNameSeparator:           p.Line,
		theme.ColorNameShadow:              color.NRGBA{A: 0x30},
	}}
}

// cleared is the colour that the toolkit has to be given so that it clears its
// window to c: it takes 65025 for the whole of a channel that runs to 65535.
func cleared(c color.NRGBA) color.NRGBA {
	less := func(v uint8) uint8 { return uint8((int(v)*65025 + 65535/2) / 65535) }
	return color.NRGBA{R: less(c.R), G: less(c.G), B: less(c.B), A: c.A}
}

func paintAlpha(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}

// Color is part of the toolkit's contract.
func (t paperTheme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	if c, ok := t.colours[n]; ok {
		return c
	}
	return t.Theme.Color(n, t.variant)
}

var (
	regularFont = fyne.NewStaticResource("Lato-Regular.ttf", look.Regular.TTF())
	boldFont    = fyne.NewStaticResource("Lato-Bold.ttf", look.Bold.TTF())
)

// Font is part of the toolkit's contract.
func (t paperTheme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Symbol, s.Monospace:
		return t.Theme.Font(s)
	case s.Bold:
		return boldFont
	}
	return regularFont
}

// Size is part of the toolkit's contract.
func (t paperTheme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return look.TextBody
	case theme.SizeNameInnerPadding:
		return 12
	case theme.SizeNameInputRadius:
		return look.CardRadius
	}
	return t.Theme.Size(n)
}

package spread

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// pane is the picture of the spread, with what is told of the flights that are being
// flown.
type pane struct {
	kit.Painted
	view *View
}

// paneKey is what the picture depends on.
type paneKey struct {
	made int
	p    *look.Palette
}

func newPane(v *View) *pane {
	p := &pane{view: v}
	p.Extend(p, v.screen, fyne.NewSize(400, 300), p.paint)
	return p
}

func (p *pane) paint(d *paint.Raster, w, h float64, z look.Size) {
	c, v := p.Palette(), p.view
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Ground)
	top := row * z.Device
	d.Fill(path.Reset().RoundRect(paint.R(0, 0, w, kit.Target*z.Device), look.CardRadius*z.Device), c.Card)
	text := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody)}
	x := float64(v.fly.Position().X+v.fly.Size().Width+16) * z.Device
	y := kit.Target*z.Device/2 + 0.35*text.Size
	if told := v.told(); told != "" {
		p.bar(d, paint.R(x, y+0.5*text.Size, 0.3*w, 5*z.Device), float64(v.done)/float64(max(1, v.total)))
		d.Text(x, y-0.1*text.Size, told, text, c.Ink)
	} else {
		for i, line := range text.Wrap(look.Text(look.SpreadWhat), w-x) {
			d.Text(x, y-0.55*text.Size+1.25*float64(i)*text.Size, line, text, c.Ink2)
		}
	}
	if v.shown == nil {
		text.Anchor = paint.Middle
		d.Text(w/2, h/2, look.Text(look.SpreadNone), text, c.Ink2)
		return
	}
	picture.DrawSpread(picture.NewBrush(d, c, z), paint.R(0, top, w, h-top), *v.shown)
}

// bar draws how much has been flown.
func (p *pane) bar(d *paint.Raster, r paint.Rect, share float64) {
	c := p.Palette()
	var path paint.Path
	d.Fill(path.RoundRect(r, r.H/2), c.Low)
	d.Fill(path.Reset().RoundRect(paint.R(r.X, r.Y, r.W*min(1, share), r.H), r.H/2), c.Brass)
}

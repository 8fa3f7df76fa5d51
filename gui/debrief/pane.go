package debrief

import (
	"fyne.io/fyne/v2"

	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/paint"
	"stillair/gui/picture"
)

// pane is the picture of the account.
type pane struct {
	kit.Painted
	view *View
}

func newPane(v *View) *pane {
	p := &pane{view: v}
	p.Extend(p, v.screen, fyne.NewSize(400, 300), p.paint)
	return p
}

// paneKey is what the picture depends on.
type paneKey struct {
	made, page int
	p          *look.Palette
}

func (v *View) key() paneKey { return paneKey{v.made, v.page, v.screen.Palette} }

func (p *pane) paint(d *paint.Raster, w, h float64, z look.Size) {
	c := p.Palette()
	var path paint.Path
	d.Fill(path.Rect(paint.R(0, 0, w, h)), c.Ground)
	v := p.view
	if v.story == nil {
		t := paint.Type{Font: look.Regular.Font(), Size: z.Text(look.TextBody), Anchor: paint.Middle}
		d.Text(w/2, h/2, look.Text(look.AccountWait), t, c.Ink2)
		return
	}
	picture.DrawAccount(picture.NewBrush(d, c, z), picture.AccountLayout(z, paint.R(0, 0, w, h), v.page), &v.shown)
}

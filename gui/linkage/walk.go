package linkage

import (
	"fyne.io/fyne/v2"

	"stillair/gui/chain"
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/picture"
)

// Deeds are what the keyboard does on this view.
func (v *View) Deeds() []kit.Deed {
	return []kit.Deed{
		kit.On(fyne.KeyA, "A", look.DoWalkOn, v.WalkOn),
		kit.On(fyne.KeyZ, "Z", look.DoWalkBack, v.WalkBack),
		kit.On(fyne.KeyE, "E", look.DoFollowError, v.ToggleFollow),
		kit.On(fyne.KeyQ, "Q", look.DoUnits, v.toggleUnits),
	}
}

// ToggleWalk begins the walk along the chain at its first link, or ends it.
func (v *View) ToggleWalk() {
	if v.card.mode == walking {
		v.Shut()
		return
	}
	v.bring()
	v.card.turn(walking, 0)
}

// bring brings the view to the front if it is out of sight.
func (v *View) bring() {
	if !v.content.Visible() && v.Bring != nil {
		v.Bring()
	}
}

// ToggleFollow begins to follow the error at the first link that is wrong, or
// ends it.
func (v *View) ToggleFollow() {
	switch {
	case v.card.mode == following:
		v.Shut()
	case v.whyNoFollow() == "":
		v.bring()
		v.card.turn(following, 0)
	default:
		v.screen.Hints.Tell(v.keys[1], v.whyNoFollow())
	}
}

// whyNoFollow says why there is no error to follow.
func (v *View) whyNoFollow() string {
	switch {
	case v.story.Truth == nil:
		return look.Text(look.FollowHidden)
	case len(v.story.Follow()) == 0:
		return look.Text(look.FollowNothing)
	}
	return ""
}

// WalkOn goes to the next link of the walk, or begins it.
func (v *View) WalkOn() {
	v.bring()
	v.card.step(1)
}

// WalkBack goes to the link before.
func (v *View) WalkBack() {
	v.bring()
	v.card.step(-1)
}

// Open opens the card of a link.
func (v *View) Open(l picture.Link) {
	for i, w := range chain.Walk() {
		if w == l {
			v.card.turn(opened, i)
			v.screen.Hints.Clear() // the card says it all
			if v.Opened != nil {
				v.Opened(l)
			}
		}
	}
}

// Shut shuts the card and says whether one was open.
func (v *View) Shut() bool {
	if v.card.mode == shut {
		return false
	}
	v.card.turn(shut, 0)
	return true
}

package navigator

import (
	"stillair/gui/kit"
	"stillair/gui/look"
	"stillair/gui/sighting"
	"stillair/integrator/aboard"
	"stillair/integrator/units"
)

// offer takes up what the aids offer.
func (v *View) offer(offers []aboard.Offer) {
	if len(offers) > 0 && len(v.offers) > 0 && &offers[0] == &v.offers[0] {
		return
	}
	v.offers = offers
	for a := aboard.DriftSight; a <= aboard.Pinpoint; a++ {
		k := v.shelf[a-aboard.DriftSight]
		k.Under, k.Reason = shelfText(a, v.sources(a))
		k.Repaint()
	}
	v.labelPicks()
}

// sources are what an aid can be pointed at.
func (v *View) sources(a aboard.Aid) (all []aboard.Offer) {
	for _, o := range v.offers {
		if o.Aid == a {
			all = append(all, o)
		}
	}
	return all
}

// shelfText is what stands under the name of an aid, and why it cannot be had.
func shelfText(a aboard.Aid, sources []aboard.Offer) (under, reason string) {
	var had []aboard.Offer
	for _, o := range sources {
		if o.Missing == aboard.Had {
			had = append(had, o)
		}
	}
	counts := map[aboard.Aid]look.Key{
		aboard.Sextant: look.AidBodies, aboard.HeadingCheck: look.AidBodies, aboard.Loop: look.AidStations,
		aboard.PulseReceiver: look.AidPairs, aboard.Pinpoint: look.AidPlaces,
	}
	switch {
	case len(had) > 0 && a == aboard.DriftSight:
		return look.Text(look.AidReady), ""
	case len(had) == 1:
		return had[0].Source, ""
	case len(had) > 1:
		return look.Textf(counts[a], len(had)), ""
	case len(sources) > 0:
		why := sighting.MissingText(sources[0].Missing)
		return why, why
	case a == aboard.Pinpoint:
		return look.Text(look.AidNoneInSight), look.Text(look.AidNoneInSight)
	}
	return look.Text(look.AidNone), look.Text(look.AidNone)
}

// choose opens an aid, or the list of what it can be pointed at.
func (v *View) choose(a aboard.Aid) {
	sources := v.had(a)
	switch len(sources) {
	case 0: // what there is has not been looked up yet
		return
	case 1:
		v.open(sources[0].Aim)
		return
	}
	v.picking = a
	v.labelPicks()
	v.show()
}

// had are the sources of an aid that can be had.
func (v *View) had(a aboard.Aid) (had []aboard.Offer) {
	for _, o := range v.sources(a) {
		if o.Missing == aboard.Had {
			had = append(had, o)
		}
	}
	return had
}

// labelPicks writes what can be chosen on the keys.
func (v *View) labelPicks() {
	if v.picking == aboard.NoAid {
		return
	}
	had := v.had(v.picking)
	for i, k := range v.picks {
		if i < len(had) {
			k.Word, k.Under = had[i].Source, offerText(&had[i])
			k.Repaint()
		}
		kit.Show(i < len(had) && v.hand == nil, k)
	}
}

// offerText is where a source is by the plot.
func offerText(o *aboard.Offer) string {
	if o.Distance > 0 {
		return look.Textf(look.AidFar, units.TrueText(o.Azimuth), units.DistanceText(o.Distance))
	}
	return look.Textf(look.AidSeenAt, units.TrueText(o.Azimuth), units.Figure(o.Altitude.Degrees(), 0)+"°")
}

func (v *View) pick(i int) {
	if v.page != noPage {
		if all := v.choices(); i < len(all) {
			all[i].do()
		}
		return
	}
	if had := v.had(v.picking); i < len(had) {
		v.open(had[i].Aim)
	}
}

// open looks through an aid. What has no eyepiece is read at once.
func (v *View) open(a aboard.Aim) {
	hand := sighting.New(a)
	if hand == nil {
		v.crew.Do(aboard.Action{Kind: aboard.TakeAid, Reading: aboard.Reading{Aim: a}})
		v.shutAid()
		return
	}
	if a == v.homing {
		hand.Press(sighting.HomeControl)
	}
	v.aim, v.hand, v.picking = a, hand, a.Aid
	v.crew.LookThrough(a)
	if v.moment.Rate > 1 && v.rate == 0 {
		v.rate = v.moment.Rate
		v.crew.SetRate(1)
	}
	v.show()
	if c := v.canvas(); c != nil {
		c.Focus(v.eye)
	}
}

// shutAid closes what is open; the clock runs as before.
func (v *View) shutAid() {
	if v.hand != nil {
		v.crew.LookThrough(v.homing)
	}
	if v.rate > 0 {
		if v.moment.Rate == 1 {
			v.crew.SetRate(v.rate)
		}
		v.rate = 0
	}
	v.hand, v.picking = nil, aboard.NoAid
	v.show()
}

// Shut closes what is open in the view and says whether anything was.
func (v *View) Shut() bool {
	switch {
	case v.page != noPage:
		v.shutPage()
	case v.picking != aboard.NoAid:
		v.shutAid()
	default:
		return false
	}
	return true
}

// read enters what the hand has read.
func (v *View) read() {
	if v.hand == nil || v.hand.Wanting() != "" {
		return
	}
	v.crew.Do(aboard.Action{Kind: aboard.TakeAid, Reading: v.hand.Reading()})
	v.shutAid()
}

// press presses one of the aid's further controls.
func (v *View) press(i int) {
	if v.hand == nil || i >= len(v.hand.Controls()) {
		return
	}
	v.hand.Press(i)
	switch {
	case v.hand.Homing():
		v.homing = v.aim
	case v.homing == v.aim:
		v.homing = aboard.Aim{}
	}
	v.show() // other keys belong to a loop that is flown by
}

// byCrew has the crew read.
func (v *View) byCrew() {
	if v.hand != nil {
		v.crew.Do(aboard.Action{Kind: aboard.TakeAid, Reading: sighting.ByCrew(v.aim, v.moment.View.Tick)})
		v.shutAid()
	}
}

// another points the aid at something else.
func (v *View) another() {
	a := v.picking
	v.hand = nil
	v.crew.LookThrough(v.homing)
	v.picking = a
	v.labelPicks()
	v.show()
}

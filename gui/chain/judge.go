package chain

import "stillair/gui/picture"

// A link behind one that is wrong carries the error from a tenth of what it may
// be off by itself; a counter that was put wrong by something that acts once is
// wrong from three tenths. Choices of this project.
const (
	carries  = 0.1
	stillOff = 0.3
)

// standing are the links that keep what they summed, and so keep an error when
// what made it is mended.
var standing = [picture.LinkCount]bool{
	picture.LinkCounter: true, picture.LinkLatitude: true, picture.LinkLongitude: true,
	picture.LinkGround: true, picture.LinkMarker: true,
}

// Judge holds every link against the truth. Broken is a link with a fault in
// force, a wrong setting, or a law of its own that does not hold; what follows
// it carries the error where it shows. All is unjudged while the truth is
// hidden.
func (s *Story) Judge() (all [picture.LinkCount]Verdict) {
	if s.Truth == nil {
		return all
	}
	faults, excused := s.inForce()
	for i := range all {
		of := picture.Link(i)
		order := faults[of]
		if order != nil && places[order.ID].once && s.sum(of).share() < stillOff {
			order = nil // set right since
		}
		v := &all[i]
		switch {
		case order != nil || !excused[of] && s.own(of).share() > 1:
			v.Stands, v.Flag = picture.Broken, s.flag(of, order)
		case s.spoilt(of, &all, excused[of]):
			v.Stands = picture.Carries
		default:
			v.Stands = picture.Agrees
		}
		v.Wrong = s.wrong(of, v.Stands)
	}
	return all
}

// spoilt tells whether a link passes on an error that is not its own.
func (s *Story) spoilt(of picture.Link, all *[picture.LinkCount]Verdict, excused bool) bool {
	if standing[of] && s.sum(of).share() > 1 {
		return true
	}
	if excused {
		return false
	}
	for _, in := range inputs[of] {
		if st := all[in].Stands; st == picture.Broken || st == picture.Carries {
			return s.total(of).share() > carries || standing[of] && s.sum(of).share() > carries
		}
	}
	return s.held(of) && s.total(of).share() > 1
}

// sum is how far what a link has summed is from the truth.
func (s *Story) sum(of picture.Link) gap {
	w, r := &s.Now, s.Truth
	switch of {
	case picture.LinkCounter:
		return lengths(w.AirMiles, r.AirMiles)
	case picture.LinkDrive:
		return lengths(w.Wound, r.Wound)
	case picture.LinkNorthDisc:
		return gap{(w.North - r.North).NM(), s.airLimit()}
	case picture.LinkEastDisc:
		return gap{(w.East - r.East).NM(), s.airLimit()}
	}
	return s.total(of)
}

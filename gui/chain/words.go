package chain

import (
	"stillair/gui/look"
	"stillair/gui/picture"
)

// titles are names of the links.
var titles = [picture.LinkCount]look.Key{
	picture.LinkPitot:        look.ChainPitotTitle,
	picture.LinkStatic:       look.ChainStaticTitle,
	picture.LinkCapsules:     look.ChainCapsulesTitle,
	picture.LinkAirLog:       look.ChainAirLogTitle,
	picture.LinkCounter:      look.ChainCounterTitle,
	picture.LinkDrive:        look.ChainDriveTitle,
	picture.LinkCompass:      look.ChainCompassTitle,
	picture.LinkDeviation:    look.ChainDeviationTitle,
	picture.LinkVariation:    look.ChainVariationTitle,
	picture.LinkRepeater:     look.ChainRepeaterTitle,
	picture.LinkResolver:     look.ChainResolverTitle,
	picture.LinkNorthDisc:    look.ChainNorthDiscTitle,
	picture.LinkEastDisc:     look.ChainEastDiscTitle,
	picture.LinkLatitude:     look.ChainLatitudeTitle,
	picture.LinkSecant:       look.ChainSecantTitle,
	picture.LinkLongitude:    look.ChainLongitudeTitle,
	picture.LinkClock:        look.ChainClockTitle,
	picture.LinkWind:         look.ChainWindTitle,
	picture.LinkAdders:       look.ChainAddersTitle,
	picture.LinkGroundSecant: look.ChainGroundSecantTitle,
	picture.LinkGround:       look.ChainGroundTitle,
	picture.LinkMarker:       look.ChainMarkerTitle,
}

// whats are what the links are.
var whats = [picture.LinkCount]look.Key{
	picture.LinkPitot:        look.ChainPitotWhat,
	picture.LinkStatic:       look.ChainStaticWhat,
	picture.LinkCapsules:     look.ChainCapsulesWhat,
	picture.LinkAirLog:       look.ChainAirLogWhat,
	picture.LinkCounter:      look.ChainCounterWhat,
	picture.LinkDrive:        look.ChainDriveWhat,
	picture.LinkCompass:      look.ChainCompassWhat,
	picture.LinkDeviation:    look.ChainDeviationWhat,
	picture.LinkVariation:    look.ChainVariationWhat,
	picture.LinkRepeater:     look.ChainRepeaterWhat,
	picture.LinkResolver:     look.ChainResolverWhat,
	picture.LinkNorthDisc:    look.ChainNorthDiscWhat,
	picture.LinkEastDisc:     look.ChainEastDiscWhat,
	picture.LinkLatitude:     look.ChainLatitudeWhat,
	picture.LinkSecant:       look.ChainSecantWhat,
	picture.LinkLongitude:    look.ChainLongitudeWhat,
	picture.LinkClock:        look.ChainClockWhat,
	picture.LinkWind:         look.ChainWindWhat,
	picture.LinkAdders:       look.ChainAddersWhat,
	picture.LinkGroundSecant: look.ChainGroundSecantWhat,
	picture.LinkGround:       look.ChainGroundWhat,
	picture.LinkMarker:       look.ChainMarkerWhat,
}

// says are what a lecturer says at them.
var says = [picture.LinkCount]look.Key{
	picture.LinkPitot:        look.ChainPitotSay,
	picture.LinkStatic:       look.ChainStaticSay,
	picture.LinkCapsules:     look.ChainCapsulesSay,
	picture.LinkAirLog:       look.ChainAirLogSay,
	picture.LinkCounter:      look.ChainCounterSay,
	picture.LinkDrive:        look.ChainDriveSay,
	picture.LinkCompass:      look.ChainCompassSay,
	picture.LinkDeviation:    look.ChainDeviationSay,
	picture.LinkVariation:    look.ChainVariationSay,
	picture.LinkRepeater:     look.ChainRepeaterSay,
	picture.LinkResolver:     look.ChainResolverSay,
	picture.LinkNorthDisc:    look.ChainNorthDiscSay,
	picture.LinkEastDisc:     look.ChainEastDiscSay,
	picture.LinkLatitude:     look.ChainLatitudeSay,
	picture.LinkSecant:       look.ChainSecantSay,
	picture.LinkLongitude:    look.ChainLongitudeSay,
	picture.LinkClock:        look.ChainClockSay,
	picture.LinkWind:         look.ChainWindSay,
	picture.LinkAdders:       look.ChainAddersSay,
	picture.LinkGroundSecant: look.ChainGroundSecantSay,
	picture.LinkGround:       look.ChainGroundSay,
	picture.LinkMarker:       look.ChainMarkerSay,
}

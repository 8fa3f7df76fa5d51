package picture

// Link is one link of the mechanism, in the order in which a lecturer walks
// along it.
type Link uint8

// The links.
const (
	LinkPitot Link = iota
	LinkStatic
	LinkCapsules
	LinkAirLog
	LinkCounter // air log counter
	LinkDrive
	LinkCompass
	LinkDeviation
	LinkVariation
	LinkRepeater
	LinkResolver
	LinkNorthDisc
	LinkEastDisc
	LinkLatitude
	LinkSecant
	LinkLongitude
	LinkClock
	LinkWind
	LinkAdders
	LinkGroundSecant
	LinkGround
	LinkMarker
	LinkCount
)

// NoLink is none of them.
const NoLink = LinkCount

// Standing is how a link stands to the truth, once that may be seen.
type Standing uint8

// The standings.
const (
	Unjudged Standing = iota // the truth is hidden
	Agrees
	Broken  // the first that is wrong: a gap in the brass
	Carries // it passes an error on: striped
)

// Package tongue holds the words of the exhibit: a file for each language, those of
// this program and those of a folder of the exhibit. It knows nothing of the toolkit.
//
// A file is TOML: a string for every key of Words, a table [faults] with a sentence
// for each fault that may be chosen, and a table [picture] with the words that the
// picture of the mechanism takes from the catalogue of the program (look.Key); a
// language that leaves [picture] out has them in English.
package tongue

// Word is the key of a text.
type Word string

// The texts.
const (
	Name    Word = "name" // of the language, in itself
	Decimal Word = "decimal"

	Touch      Word = "touch"
	StillAir   Word = "still_air"
	WindLabel  Word = "wind_label"
	Here       Word = "here"
	SaysHere   Word = "says_here"
	ReallyHere Word = "really_here"

	AirPosition Word = "air_position"
	Steer       Word = "steer"
	Speed       Word = "speed"
	Wind        Word = "wind"
	Knots       Word = "knots"
	Miles       Word = "miles"
	Mile        Word = "mile"
	Carried     Word = "carried"
	OffBy       Word = "off_by"

	LookInside  Word = "look_inside"
	LookOutside Word = "look_outside"
	Break       Word = "break"
	Mend        Word = "mend"
	Land        Word = "land"
	Larger      Word = "larger"
	Smaller     Word = "smaller"
	Again       Word = "again"

	SayStart        Word = "say_start"
	SaySteer        Word = "say_steer"
	SaySpeed        Word = "say_speed"
	SayWind         Word = "say_wind"
	SayMended       Word = "say_mended"
	SayInside       Word = "say_inside"
	SayInsideBroken Word = "say_inside_broken"
	SayBack         Word = "say_back"

	CloudStart Word = "cloud_start"
	CloudClue  Word = "cloud_clue"
	CloudParts Word = "cloud_parts"
	Seconds    Word = "seconds"
	Missed     Word = "missed"
	Best       Word = "best"
	First      Word = "first"
	NewBest    Word = "new_best"
	Why        Word = "why"
	WhySteer   Word = "why_steer"

	Light  Word = "light"
	Fresh  Word = "fresh"
	Strong Word = "strong"

	North     Word = "north"
	NorthEast Word = "north_east"
	East      Word = "east"
	SouthEast Word = "south_east"
	South     Word = "south"
	SouthWest Word = "south_west"
	West      Word = "west"
	NorthWest Word = "north_west"

	KeeperTitle     Word = "keeper_title"
	KeeperUp        Word = "keeper_up"
	KeeperUpValue   Word = "keeper_up_value"
	KeeperFault     Word = "keeper_fault"
	KeeperNone      Word = "keeper_none"
	KeeperVisits    Word = "keeper_visits"
	KeeperBreaks    Word = "keeper_breaks"
	KeeperLandings  Word = "keeper_landings"
	KeeperBest      Word = "keeper_best"
	KeeperFile      Word = "keeper_file"
	KeeperFileGood  Word = "keeper_file_good"
	KeeperFileBad   Word = "keeper_file_bad"
	KeeperCount     Word = "keeper_count"
	KeeperCountGood Word = "keeper_count_good"
	KeeperCountBad  Word = "keeper_count_bad"
	KeeperTest      Word = "keeper_test"
	KeeperWipe      Word = "keeper_wipe"
	KeeperBack      Word = "keeper_back"
	KeeperLeave     Word = "keeper_leave"
	TestAll         Word = "test_all"
	TestDone        Word = "test_done"
	Wipe            Word = "wipe"
	WipeLeft        Word = "wipe_left"
	BrokenHere      Word = "broken_here"
)

// Words are all of them.
var Words = []Word{
	Name, Decimal, Touch, StillAir, WindLabel, Here, SaysHere, ReallyHere, AirPosition, Steer, Speed, Wind, Knots, Miles, Mile,
	Carried, OffBy, LookInside, LookOutside, Break, Mend, Land, Larger, Smaller, Again, SayStart, SaySteer, SaySpeed, SayWind,
	SayMended, SayInside, SayInsideBroken, SayBack, CloudStart, CloudClue, CloudParts, Seconds, Missed, Best, First, NewBest,
	Why, WhySteer, Light, Fresh, Strong, North, NorthEast, East, SouthEast, South, SouthWest, West, NorthWest, KeeperTitle, KeeperUp,
	KeeperUpValue, KeeperFault, KeeperNone, KeeperVisits, KeeperBreaks, KeeperLandings, KeeperBest, KeeperFile, KeeperFileGood,
	KeeperFileBad, KeeperCount, KeeperCountGood, KeeperCountBad, KeeperTest, KeeperWipe, KeeperBack, KeeperLeave, TestAll,
	TestDone, Wipe, WipeLeft, BrokenHere,
}

// Compass are the eight directions, from north.
var Compass = [8]Word{North, NorthEast, East, SouthEast, South, SouthWest, West, NorthWest}

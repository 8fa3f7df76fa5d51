// Package record writes a flight down as it is flown, and reads it back: its
// text, everything done in it, and each minute a hash and four positions, so that
// a flight flown again can be held against it.
//
// A record is text, one JSON object a line. Each line ends with a check of itself
// and of the check before, so that a changed, lost or doubled line is found:
//
//	{"stillair_record":1,"program":...,"platform":...,"name":...,"seed":7,
//	 "flight_sha256":...,"flight":"schema = 1 ...","sum":"1c291ca3"}
//	{"command":{"tick":4800,"set_wind":{"from_deg":250,"speed_kt":40}},"sum":...}
//	{"minute":{"tick":960,"hash":"b6ec...","air":[-47.1,178.5],...},"sum":...}
//	{"back":{"commands":1,"tick":4800},"sum":...}
//	{"end":{"tick":99968,"hash":...,"air_error_nm":[0.1,-0.2],...},"sum":...}
//
// A flight taken back and acted in anew says so by a back line: of what stands
// above it only so many commands, and the minutes up to a tick, still hold. The
// sum is the CRC-32 (IEEE 802.3) of the eight letters of the sum before and of the
// line without its own, in hexadecimal. Floats are written with the shortest
// digits that read back to the same value; angles are in radians where the engine
// keeps them so, for a degree would not come back to the last bit.
//
// Whatever is wrong with a file, what is whole before it is read.
package record

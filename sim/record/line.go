package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"strings"
)

// Version is that of the records written here, and the newest read.
const Version = 1

// Header is the first line.
type Header struct {
	Version  int    `json:"stillair_record"`
	Program  string `json:"program"`
	Platform string `json:"platform"` // hashes are the same on the same one only
	Name     string `json:"name"`     // of the flight
	Seed     uint64 `json:"seed"`
	SHA256   string `json:"flight_sha256"`
	Flight   string `json:"flight"` // its text
}

// Minute is what was at a whole minute of flight. Positions are latitude and
// longitude in degrees.
type Minute struct {
	Tick   int64      `json:"tick"`
	Hash   string     `json:"hash"`
	Air    [2]float64 `json:"air"`
	Ground [2]float64 `json:"ground"`
	Marker [2]float64 `json:"marker"`
	True   [2]float64 `json:"true"`
}

// End is the closing line: what came of the flight.
type End struct {
	Tick        int64      `json:"tick"`
	Hash        string     `json:"hash"`
	AirMiles    float64    `json:"air_miles_nm"`
	AirError    [2]float64 `json:"air_error_nm"` // north, east
	GroundError [2]float64 `json:"ground_error_nm"`
}

// back says what still holds of the lines above.
type back struct {
	Commands int   `json:"commands"`
	Tick     int64 `json:"tick"`
}

// line is any line but the first.
type line struct {
	Command *command `json:"command,omitempty"`
	Minute  *Minute  `json:"minute,omitempty"`
	Back    *back    `json:"back,omitempty"`
	End     *End     `json:"end,omitempty"`
}

// sumMark goes before the sum at the end of a line.
const sumMark = `,"sum":"`

// sumOf is the sum of a line without it.
func sumOf(before string, body []byte) string {
	sum := crc32.ChecksumIEEE([]byte(before))
	return fmt.Sprintf("%08x", crc32.Update(sum, crc32.IEEETable, body))
}

// seal makes a line of a value.
func seal(before string, v any) (text []byte, sum string, err error) {
	body, err := json.Marshal(v)
	if err != nil {
		return nil, "", err
	}
	body = body[:len(body)-1] // its closing brace
	sum = sumOf(before, body)
	return append(append(body, sumMark+sum+`"}`...), '\n'), sum, nil
}

// unseal checks a line and gives it without its sum.
func unseal(before string, text []byte) (body []byte, sum string, err error) {
	at := bytes.LastIndex(text, []byte(sumMark))
	tail := string(text[max(0, at):])
	if at < 0 || len(tail) != len(sumMark)+8+2 || !strings.HasSuffix(tail, `"}`) {
		return nil, "", errNoSum
	}
	sum = tail[len(sumMark) : len(sumMark)+8]
	if sum != sumOf(before, text[:at]) {
		return nil, "", errSum
	}
	return append(append([]byte{}, text[:at]...), '}'), sum, nil
}

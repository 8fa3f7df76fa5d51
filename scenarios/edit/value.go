package edit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"stillair/integrator/units"
)

// Value is a value as a file has it.
type Value struct{ written string }

// String is the value as it is written.
func (v Value) String() string { return v.written }

// Number is a number, with the shortest digits that read back to the same.
func Number(x float64) Value {
	switch {
	case math.IsNaN(x):
		return Value{"nan"}
	case math.IsInf(x, 0):
		return Value{strings.ToLower(strconv.FormatFloat(x, 'f', -1, 64))}
	}
	s := strconv.FormatFloat(x+0, 'f', -1, 64) // -0 is 0
	if len(s) > 18 && !strings.Contains(s, ".") {
		s += ".0" // beyond what a whole number holds
	}
	return Value{s}
}

// Rounded is a number rounded to so many decimals.
func Rounded(x float64, decimals int) Value {
	k := math.Pow10(decimals)
	return Number(math.Round(x*k) / k)
}

// Whole is a whole number.
func Whole(n int64) Value { return Value{strconv.FormatInt(n, 10)} }

// Text is a string.
func Text(s string) Value { return Value{quote(s)} }

// Truth is true or false.
func Truth(b bool) Value { return Value{strconv.FormatBool(b)} }

// Time is a moment, UTC.
func Time(t time.Time) Value { return Value{t.UTC().Format(time.RFC3339Nano)} }

// Duration is a time of flight as a file has it: "1h30m".
func Duration(d time.Duration) Value { return Text(DurationText(d)) }

// DurationText writes a time of flight without its empty ends: 1h30m, 90s is 1m30s.
func DurationText(d time.Duration) string {
	s := d.String()
	if strings.HasSuffix(s, "m0s") {
		s = strings.TrimSuffix(s, "0s")
	}
	if strings.HasSuffix(s, "h0m") {
		s = strings.TrimSuffix(s, "0m")
	}
	return s
}

// Position is a position to a tenth of a minute, in the trade's notation.
func Position(p units.Position) Value { return Text(p.String()) }

// Pair is a position as [latitude, longitude] to so many decimals of a degree.
func Pair(p units.Position, decimals int) Value {
	return Value{fmt.Sprintf("[%v, %v]", Rounded(p.Lat.Degrees(), decimals), Rounded(p.Lon.Degrees(), decimals))}
}

// Field is a key with its value.
type Field struct {
	Key   string
	Value Value
}

// Inline is a table in one line.
func Inline(fields ...Field) Value {
	parts := make([]string, len(fields))
	for i, f := range fields {
		parts[i] = written(f.Key) + " = " + f.Value.written
	}
	return Value{"{ " + strings.Join(parts, ", ") + " }"}
}

// quote writes a string in quotes, on one line. What is no text becomes the sign
// for a broken character.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case c < ' ' || c == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, c)
		case c == utf8.RuneError:
			b.WriteString(`\uFFFD`)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

package look

import (
	"math"
	"strconv"
)

// TimeLeft is a time that is left, in words: seconds, from a minute and a half on minutes.
func TimeLeft(seconds float64) string {
	if seconds < 90 {
		return Textf(SpreadSeconds, strconv.Itoa(int(math.Ceil(seconds))))
	}
	return Textf(SpreadMinutes, strconv.Itoa(int(math.Ceil(seconds/60))))
}

package work

import (
	"math"
	"strconv"
)

// number reads a cell of the column.
func (c *Column) number(cell []byte) (float64, error) {
	if len(cell) == 0 {
		return 0, Bad(c.Name, "the cell is empty; it must be %s", c.rangeText())
	}
	if c.Parse != nil {
		v, err := c.Parse(string(cell))
		if err != nil {
			return 0, Bad(c.Name, "%v", err)
		}
		return v, nil
	}
	if !figures(cell) {
		return 0, c.notNumber(cell)
	}
	v, err := strconv.ParseFloat(string(cell), 64)
	if err != nil {
		return 0, c.notNumber(cell)
	}
	if !(v >= c.Min && v <= c.Max) {
		return 0, Bad(c.Name, "%s is outside %s", cell, c.rangeText())
	}
	return v, nil
}

func (c *Column) notNumber(cell []byte) error {
	return Bad(c.Name, "%q is not a number; it must be %s", shorten(string(cell)), c.rangeText())
}

// shorten leaves enough of a cell to find it by.
func shorten(cell string) string {
	const show = 40
	if len(cell) > show {
		return cell[:show] + "..."
	}
	return cell
}

// figures says whether a cell has the characters of a decimal number only. It
// keeps out what strconv also reads: NaN, infinities, hexadecimal, underscores.
func figures(cell []byte) bool {
	for _, b := range cell {
		switch {
		case b >= '0' && b <= '9', b == '.', b == '-', b == '+', b == 'e', b == 'E':
		default:
			return false
		}
	}
	return true
}

// appendNumber writes a number with the shortest digits that read back to the
// same float64; with an exponent only beyond what anybody writes out.
func appendNumber(dst []byte, v float64) []byte {
	v += 0 // no minus zero
	if size := math.Abs(v); size != 0 && (size < 1e-15 || size >= 1e21) {
		return strconv.AppendFloat(dst, v, 'e', -1, 64)
	}
	return strconv.AppendFloat(dst, v, 'f', -1, 64)
}

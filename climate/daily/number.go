package daily

import (
	"bytes"
	"math"
	"strconv"
)

// maxMagnitude bounds what is taken for a temperature in any unit, missing codes such
// as -99999 included. Beyond it a number is a slip of the keyboard or of a program.
const maxMagnitude = 99999

// maxNumberLen bounds the text of a number: a float64 printed in full has at most 24
// characters.
const maxNumberLen = 32

// parseNumber reads digits with at most one decimal mark, point or comma, a sign and
// an exponent. It refuses what else strconv takes: NaN, Inf, hexadecimal, underscores.
func parseNumber(b []byte) (v float64, ok bool) {
	if v, ok := parseShort(b); ok {
		return v, true
	}
	var buf [maxNumberLen]byte
	if len(b) > 1 && b[0] == '+' && b[1] != '-' {
		b = b[1:]
	}
	if rest, minus := bytes.CutPrefix(b, []byte("\u2212")); minus { // the typographer's minus
		b = append(append(buf[:0], '-'), rest[:min(len(rest), maxNumberLen-1)]...)
		if len(rest) > maxNumberLen-1 {
			return 0, false
		}
	}
	if len(b) == 0 || len(b) > maxNumberLen {
		return 0, false
	}
	digits, mark := 0, 0
	for i, c := range b {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == '.' || c == ',':
			mark++
			if c == ',' {
				b = append(buf[:0], b...)
				b[i] = '.'
			}
		case c == '-' && (i == 0 || b[i-1] == 'e' || b[i-1] == 'E'):
		case c == '+' && i > 0 && (b[i-1] == 'e' || b[i-1] == 'E'):
		case (c == 'e' || c == 'E') && digits > 0:
		default:
			return 0, false
		}
	}
	if digits == 0 || mark > 1 {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(b), 64)
	if err != nil || math.Abs(v) > maxMagnitude {
		return 0, false
	}
	return v + 0, true // + 0 turns -0 into 0
}

// tens are powers of ten, each exact in a float64.
var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6}

// parseShort reads the common case, [-]d.d with few digits.
func parseShort(b []byte) (v float64, ok bool) {
	v, n := shortNumber(b, ',')
	return v, n == len(b) && n > 0 && v <= maxMagnitude && v >= -maxMagnitude
}

// shortNumber reads a number at the start of a text, its decimal mark a point or another, and returns
// its length; 0 where there is none or it has more than 7 characters. An integer below 2^53 divided
// by an exact power of ten is rounded once, so it is what strconv returns.
func shortNumber(b []byte, mark byte) (v float64, length int) {
	from, n, decimals := 0, 0, -1
	if len(b) > 0 && b[0] == '-' {
		from = 1
	}
	i := from
	for ; i < len(b); i++ {
		if c := b[i] - '0'; c <= 9 {
			n = n*10 + int(c)
			if decimals >= 0 {
				decimals++
			}
		} else if (b[i] == '.' || b[i] == mark) && decimals < 0 {
			decimals = 0
		} else {
			break
		}
		if i-from > 6 {
			return 0, 0
		}
	}
	if i-from < 1 || i-from == 1 && decimals == 0 {
		return 0, 0
	}
	v = float64(n)
	if decimals > 0 {
		v /= tens[decimals]
	}
	if from > 0 {
		v = 0 - v
	}
	return v, i
}

// isBlank says whether a text stands for a value that was not measured.
func isBlank(b []byte) bool {
	switch string(b) {
	case "", "-", "--", "---", ".", "NA", "N/A", "n/a", "n.a.", "na", "#N/A", "null", "NULL", "Null",
		"None", "none", "missing", "Missing", "M", "unknown", "unavailable":
		return true
	}
	return len(bytes.Trim(b, "*")) == 0
}

// isCode says whether a number is one that files use for "missing". The codes of a
// file in tenths are fewer, since -99 there is an ordinary -9.9 °C.
func isCode(v float64, u Units) bool {
	switch v {
	case -9999, -999, -998, 9999, -99999, 99999, -8888, -32768, 32767:
		return true
	case -99:
		return u != TenthsCelsius && u != "" // where the unit is not known yet, table.series decides
	case -99.9, -99.99, -999.9, -999.99, -9999.9, 999, 999.9, 999.99, 9999.9:
		return u != TenthsCelsius
	}
	return false
}

package table

import (
	"strings"
	"unicode"
)

// Safe makes a text from a file or a form harmless to a terminal: line breaks and
// tabs become spaces, and control characters, which could move the cursor or turn
// the reading direction round, become U+FFFD.
func Safe(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\r' || r == '\t' || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.IsControl(r), turnsText(r):
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(s, string(unicode.ReplacementChar))))
}

// turnsText says which are the explicit marks of the Unicode bidirectional algorithm (UAX 9,
// section 2) by which a name could be made to read backwards.
func turnsText(r rune) bool {
	return r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069
}

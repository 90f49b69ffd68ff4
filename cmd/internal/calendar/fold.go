package calendar

import (
	"strings"
	"unicode/utf8"
)

// lineOctets is the longest line without its line break (RFC 5545, 3.1).
const lineOctets = 75

// refold folds each content line anew so that no fold parts a backslash from the
// character it escapes. The standard allows that, but some calendar programs drop such
// events.
func refold(s string) string {
	s = strings.ReplaceAll(s, "\r\n ", "")
	var b strings.Builder
	for _, line := range strings.Split(strings.TrimSuffix(s, "\r\n"), "\r\n") {
		used := 0
		for len(line) > 0 {
			n := unit(line)
			if used+n > lineOctets {
				b.WriteString("\r\n ")
				used = 1
			}
			b.WriteString(line[:n])
			used += n
			line = line[n:]
		}
		b.WriteString("\r\n")
	}
	return b.String()
}

// unit is the length of the first character, taken together with its backslash.
func unit(s string) int {
	_, n := utf8.DecodeRuneInString(s)
	if s[0] == '\\' && len(s) > 1 {
		_, m := utf8.DecodeRuneInString(s[1:])
		n += m
	}
	return n
}

package table

import (
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// width is the number of places that a text takes on a screen.
func width(s string) int { return displaywidth.String(s) }

// wrap breaks a text at spaces into lines of at most limit places, and inside a word
// only when the word alone is longer. A limit of 0 is no limit. There is always at
// least one line.
func wrap(s string, limit int) []string {
	if limit <= 0 || width(s) <= limit {
		return []string{s}
	}
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		for width(word) > limit {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			head := cut(word, limit)
			lines, word = append(lines, head), word[len(head):]
		}
		switch {
		case word == "":
		case line == "":
			line = word
		case width(line)+1+width(word) <= limit:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// cut returns the longest beginning of a word that fits, and at least one character.
func cut(word string, limit int) string {
	n, used := 0, 0
	g := displaywidth.StringGraphemes(word)
	for g.Next() {
		if used+g.Width() > limit && n > 0 {
			break
		}
		used += g.Width()
		n += len(g.Value())
	}
	return word[:n]
}

func longestWord(s string) int {
	longest := 0
	for _, word := range strings.Fields(s) {
		longest = max(longest, width(word))
	}
	return longest
}

// twoLines is the least width in which a heading stands in two lines.
func twoLines(heading string) int {
	w := longestWord(heading)
	for len(wrap(heading, w)) > 2 {
		w++
	}
	return w
}

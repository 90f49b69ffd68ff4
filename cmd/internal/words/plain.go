package words

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/table"
)

// Dash stands where there is nothing to say.
const Dash = table.Dash

// Day says a season day, "24 May", or a dash where there is none.
func Day(c climate.Calendar, v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Dash
	}
	return c.Words(climate.SeasonDay(math.Round(v)))
}

// Date says a calendar day: "16 May 2026".
func Date(d climate.Day) string {
	y, m, md := d.Date()
	return fmt.Sprintf("%d %s %d", md, m.String()[:3], y)
}

// Plural counts things: "1 season", "3 seasons".
func Plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// List joins words as a sentence does: "a, b and c".
func List(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Capital begins a sentence with a capital letter.
func Capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

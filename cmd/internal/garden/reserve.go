package garden

import (
	"fmt"
	"strconv"
	"strings"

	"frostward/climate"
)

// Reserve is what a planting falls back on, as written: "6 plants until 06-10" or "again 21 days
// later". The zero value is none.
type Reserve struct {
	Text      string
	Plants    int // spare ones, held back under cover
	Until     Date
	DaysLater int // of a second sowing or planting
}

// parseReserve reads one.
func parseReserve(s string, c climate.Calendar) (r Reserve, err error) {
	bad := fmt.Errorf(`reserve: %q; wanted spare plants, such as "6 plants until 06-10", or a second sowing or planting, such as "again 21 days later"`, s)
	words := strings.Fields(s)
	r.Text = strings.Join(words, " ")
	switch {
	case len(words) == 0:
		return r, nil
	case len(words) > 3 && (words[1] == "plants" || words[1] == "plant") && words[2] == "until":
		if r.Plants, err = strconv.Atoi(words[0]); err != nil || r.Plants < 1 || r.Plants > maxPlants {
			return r, bad
		}
		if r.Until, err = parseDate(strings.Join(words[3:], " "), c); err != nil {
			return r, fmt.Errorf("reserve: %w", err)
		}
	case len(words) == 4 && words[0] == "again" && (words[2] == "days" || words[2] == "day") && words[3] == "later":
		if r.DaysLater, err = strconv.Atoi(words[1]); err != nil || r.DaysLater < 1 || r.DaysLater > maxLater {
			return r, bad
		}
	default:
		return r, bad
	}
	return r, nil
}

// The most spare plants, and the longest between a planting and a second one, in days.
const maxPlants, maxLater = 10000, 200

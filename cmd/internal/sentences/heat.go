package sentences

import (
	"fmt"

	"frostward/cmd/internal/words"
)

// Heat says how hot a sheltered spot becomes in the seven days ahead and what to do: the share of the days that pass 32 °C at
// the plants, and of those with a mean above 25 °C. "" where it hardly does.
func Heat(u words.Units, spot string, hot, mean float64, seasons int) string {
	if hot < 0.05 {
		return ""
	}
	out := fmt.Sprintf("%s: about %s of the seven ahead in a usual year pass %s at the plants, by a thermometer in the sun, though aired. "+
		"Open vents and doors on a sunny morning before it is %s inside, and shut them before the evening cools",
		spot, words.Plural(int(max(1, 7*hot+0.5)), "day"), u.Degrees(32), u.Degrees(25))
	if mean > 0.05 {
		out += fmt.Sprintf("; shade: the mean of %.0f days in a hundred is above %s, from which tomatoes set fewer fruit", 100*mean, u.Degrees(25))
	}
	return out + fmt.Sprintf(" (%s of record; kept shut it is far hotter).", words.Plural(seasons, "season"))
}

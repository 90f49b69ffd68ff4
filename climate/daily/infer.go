package daily

import (
	"fmt"
	"math"

	"frostward/climate"
)

// Units are told from the values only where no doubt is left.
//
// Take the warmest month's mean maximum, as the number in the file. Read as °F, a
// number below 50 is below 10 °C: in a record of the whole year that is tundra or ice
// (Köppen's limit of tree growth, there for the daily mean, common knowledge), where
// nobody plans a garden, so it must be °C. Read as °C, 50 or more is hotter than any
// month on earth (the hottest place, Death Valley, has about 47 °C in July, from
// memory), so it must be °F. Above 135 it is neither, and looks like tenths.
const (
	tundraNumber = 50
	tundraTenths = 10
	tenthsNumber = 135
	// halfYearNumber does the same for 6 to 11 months, which hold no proper summer:
	// below 32 no month of them would have thawed in °F.
	halfYearNumber = 32
	// monthEnough is the number of days from which a month of the year counts.
	monthEnough = 15
)

// infer tells the units of a table from its values, or says why they cannot be told.
// With tenths set, the file has the form of one in tenths of °C and nothing but whole
// numbers, and is taken for it unless that makes a tundra of the place.
func (t *table) infer(tenths bool) (Units, error) {
	var sum [13]float64
	var n [13]int
	days := 0
	for i := t.from; i < t.to; i++ {
		day := t.at(i)
		v := day.tmax
		if math.IsNaN(v) {
			v = day.tmin // a record of the minimum alone: colder, so the rules below ask more often
		}
		if math.IsNaN(v) {
			continue
		}
		_, m, _ := (windowFirst + climate.Day(i)).Date()
		sum[m] += v
		n[m]++
		days++
	}
	months, warmest := 0, math.Inf(-1)
	for m := 1; m <= 12; m++ {
		if n[m] >= monthEnough {
			months++
			warmest = max(warmest, sum[m]/float64(n[m]))
		}
	}
	switch {
	case days == 0:
		return Celsius, nil // nothing to convert
	case tenths && (months < 12 || warmest >= 10*tundraTenths):
		return TenthsCelsius, nil
	case tenths:
		return "", fmt.Errorf("has the form of a file in tenths of °C, but its warmest month has only %.1f °C by day then; "+
			"state the units (--units tenths, c or f)", warmest/10)
	case months == 0:
		return "", fmt.Errorf("does not say whether it is in °C or °F, and %d days are too few to tell; "+
			"state the units (--units c or f)", days)
	case warmest > tenthsNumber:
		return "", fmt.Errorf("has a warmest month of %.0f by day, which is neither °C nor °F; if it is tenths of °C, "+
			"state it (--units tenths)", warmest)
	case warmest >= tundraNumber:
		return Fahrenheit, nil
	case months == 12 || months >= 6 && warmest < halfYearNumber:
		return Celsius, nil
	}
	return "", fmt.Errorf("does not say whether it is in °C or °F, and %d months are too few to tell; "+
		"state the units (--units c or f)", months)
}

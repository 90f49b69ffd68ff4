package quality

// Rule is one check of a record.
type Rule struct {
	Name      string
	Says      string  // what it doubts, in words
	Threshold float64 // its main number
	Unit      string
	Source    string
	find      func(*record) []Flag
}

const (
	durre = "Durre et al. 2010, J. Appl. Meteor. Climatol. 49, 1615-1633"
	ours  = "our own; measured by planting faults, see seeded_test.go"
)

// Rules are the checks in the order in which they are made: the published ones in their order,
// with our own between them where their finds would otherwise be taken for something else. A
// value flagged by one is missing for those after it.
var Rules = []Rule{
	{"both zero", "both values exactly 0 °C, or 0 °F, as left by an empty form", 0, "°C", durre, bothZero},
	{"repeated month", "a month that is another month over again", 0, "°C", durre, repeatedMonths},
	{"repeated days", "days that are those of another time over again", repeatedRun, "days", ours, repeatedDays},
	{"tmax is tmin", "a month in which the two values agree on many days", equalDays, "days", durre, equalMonths},
	{"world bounds", "outside what has been measured on Earth", worldHigh, "°C", durre, bounds},
	{"streak", "the same value many days in a row", streakDays, "days", durre, streaks},
	{"same value", "one value more days in a row than chance would have it in a record of this kind", sameChance, "chance", ours, sameValue},
	{"same days", "the same two values many days in a row", sameDays, "days", ours, sameDay},
	{"swapped", "the two values would do the other way round", swapFits, "s.d.", ours, swapped},
	{"misread days", "days that would be usual in another unit, or with minus signs, and are not as they stand", 0, "", ours, misreadDays},
	{"gap", "parted by a hole from the other values of its month of the year", gapSize, "°C", durre, gaps},
	{"outlier", "too far from what is usual at the time of the year", outlierZ, "s.d.", durre, outliers},
	{"tmax below tmin", "the day's or a neighbouring day's values contradict each other", crossAllow, "°C", durre, internal},
	{"lone value", "borne out neither by the other value of its day nor by the days beside, or so only with a slip put right", loneZ, "s.d.", ours, loneValues},
	{"spike", "far from both neighbouring days", spikeSize, "°C", durre, spikes},
	{"lagged range", "too far from the other value on the days around", laggedRange, "°C", durre, lagged},
	{"mega", "a minimum above every maximum of its month, or a maximum below every minimum", 0, "°C", durre, mega},
}

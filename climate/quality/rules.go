package quality

// Rule is one check of a record.
type Rule struct {
	Name      string
	Says      string  // what it doubts, in words
	Threshold float64 // its main number
	Unit      string
	Source    string
	find      func(*record) []Flag

	// quiet, where a rule has one, tells at less cost than find that it would find nothing in the
	// record as it stands; false where it cannot tell. A rule without one is always made.
	quiet func(*record) bool
}

const (
	durre = "Durre et al. 2010, J. Appl. Meteor. Climatol. 49, 1615-1633"
	ours  = "our own; measured by planting faults, see seeded_test.go"
)

// Thresholds of the rules, in °C or days.
const (
	worldLow      = -89.4 // lowest in the world; Durre et al. 2010
	worldHigh     = 57.7  // highest
	equalDays     = 10    // days of a month with tmax = tmin
	streakDays    = 20    // identical values in a row
	gapSize       = 10.0  // hole in a month's sorted values
	outlierZ      = 6.0   // biweight standard deviations
	outlierValues = 100   // values wanted for a climatology
	outlierWindow = 7     // days to either side
	biweightC     = 7.5   // Lanzante 1996's constant, as Durre et al. use
	crossAllow    = 1.0   // allowance between neighbouring days
	spikeSize     = 25.0  // from both neighbours
	laggedRange   = 40.0  // between tmax and the tmin of neighbouring days
)

// Rules are the checks in the order in which they are made: the published ones in their order,
// with our own between them where their finds would otherwise be taken for something else. A
// value flagged by one is missing for those after it.
var Rules = []Rule{
	{"naught", "both values exactly 0 °C, or 0 °F, as left by an empty form", 0, "°C", durre, naught, noNaught},
	{"repeated month", "a month that is another month over again", 0, "°C", durre, repeatedMonths, noRepeatedMonths},
	{"repeated stretch", "days that are those of another time over again", stretchDays, "days", ours, repeatedStretch, noRepeatedStretch},
	{"tmax is tmin", "a month in which the two values agree on many days", equalDays, "days", durre, equalMonths, noEqualMonths},
	{"world bounds", "outside what has been measured on Earth", worldHigh, "°C", durre, bounds, noneOutside},
	{"streak", "the same value many days in a row", streakDays, "days", durre, streaks, noStreaks},
	{"same value", "one value more days in a row than chance would have it in a record of this kind", sameChance, "chance", ours, sameValue, noSameValue},
	{"same days", "the same two values many days in a row", sameDays, "days", ours, sameDay, noSameDay},
	{"swapped", "the two values would do the other way round", swapFits, "s.d.", ours, swapped, noSwapped},
	{"other units", "days that would be usual in another unit and are not in °C", unitsEvidence, "log likelihood ratio", ours, otherUnitValues, noOtherUnits},
	{"gap", "parted by a hole from the other values of its month of the year", gapSize, "°C", durre, gaps, noGaps},
	{"outlier", "too far from what is usual at the time of the year", outlierZ, "s.d.", durre, outliers, noOutliers},
	{"tmax below tmin", "the day's or a neighbouring day's values contradict each other", crossAllow, "°C", durre, internal, noInternal},
	{"lost sign", "a minimum that the days beside bear out with a minus sign and not without", signAlone, "log likelihood ratio", ours, lostSignValues, nil},
	{"lone value", "borne out neither by the other value of its day nor by the days beside", loneZ, "s.d.", ours, loneValues, nil},
	{"spike", "far from both neighbouring days", spikeSize, "°C", durre, spikes, noSpikes},
	{"lagged range", "too far from the other value on the days around", laggedRange, "°C", durre, lagged, noLagged},
	{"mega", "a minimum above every maximum of its month, or a maximum below every minimum", 0, "°C", durre, mega, noMega},
}

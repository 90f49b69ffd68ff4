package quality

// critical95 and critical99 are what the statistic of the standard normal homogeneity test
// exceeds in 5 and in 1 unchanged records of 100, by the number of years: Alexandersson &
// Moberg 1997, Int. J. Climatol. 17, 25-34 (5 %) and, for 1 %, Wijngaard et al. 2003, Int. J.
// Climatol. 23, 679-692; both from memory. Khaliq & Ouarda 2007 (Int. J. Climatol. 27, 681-687)
// simulated them anew, to within about 0.1 of these. step_test.go simulates them too.
var (
	critical95 = []limit{{10, 5.70}, {20, 6.95}, {30, 7.65}, {40, 8.10}, {50, 8.45}, {70, 8.80}, {100, 9.15}, {150, 9.35}}
	critical99 = []limit{{20, 9.56}, {30, 10.45}, {40, 11.01}, {50, 11.38}, {70, 11.89}, {100, 12.32}}
)

type limit struct {
	years int
	t     float64
}

// critical returns the limit for a number of years: on straight lines between those of the
// table, that of the nearest outside it.
func critical(n int, table []limit) float64 {
	if n <= table[0].years {
		return table[0].t
	}
	for i := 1; i < len(table); i++ {
		a, b := table[i-1], table[i]
		if n <= b.years {
			return a.t + (b.t-a.t)*float64(n-a.years)/float64(b.years-a.years)
		}
	}
	return table[len(table)-1].t
}

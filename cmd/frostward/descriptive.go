package main

import (
	"math"

	"github.com/montanaflynn/stats"
)

// meanSD returns the mean and the sample standard deviation (n-1), NaN where there are too
// few values.
func meanSD(x []float64) (mean, sd float64) {
	mean, err := stats.Mean(x)
	if err != nil {
		mean = math.NaN()
	}
	sd, err = stats.StandardDeviationSample(x)
	if err != nil || len(x) < 2 {
		sd = math.NaN()
	}
	return mean, sd
}

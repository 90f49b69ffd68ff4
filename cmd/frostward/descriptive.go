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

// median returns the median of the dates that seasons have, NaN where none has.
func median(dates []float64) float64 {
	var x []float64
	for _, v := range dates {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			x = append(x, v)
		}
	}
	m, err := stats.Median(x)
	if err != nil {
		return math.NaN()
	}
	return m
}

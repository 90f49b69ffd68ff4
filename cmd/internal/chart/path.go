package chart

import "math"

// path joins points with straight lines, lifting the pen where a value is NaN.
func path(n int, x, y func(i int) float64) []byte {
	var d []byte
	down := false
	for i := range n {
		px, py := x(i), y(i)
		if math.IsNaN(px) || math.IsNaN(py) {
			down = false
			continue
		}
		if down {
			d = append(d, 'L')
		} else {
			d = append(d, 'M')
		}
		d = appendNumber(append(appendNumber(d, px), ' '), py)
		down = true
	}
	return d
}

// between is the closed area between two lines over the same x, one area for each
// run without NaN.
func between(n int, x, low, high func(i int) float64) []byte {
	var d []byte
	gap := func(i int) bool { return math.IsNaN(x(i)) || math.IsNaN(low(i)) || math.IsNaN(high(i)) }
	for i := 0; i < n; i++ {
		if gap(i) {
			continue
		}
		j := i
		for j+1 < n && !gap(j+1) {
			j++
		}
		for k := i; k <= j; k++ {
			d = append(d, "ML"[min(k-i, 1)])
			d = appendNumber(append(appendNumber(d, x(k)), ' '), high(k))
		}
		for k := j; k >= i; k-- {
			d = append(d, 'L')
			d = appendNumber(append(appendNumber(d, x(k)), ' '), low(k))
		}
		d = append(d, 'Z')
		i = j
	}
	return d
}

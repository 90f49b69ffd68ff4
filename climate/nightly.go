package climate

import "math"

// NightShares returns, for each season day from SpanFrom on, the share of nights at or
// below a threshold among all nights within half days of it in all seasons of the ensemble:
// how usual such a night is at that time of the year. It is a picture for the eye, smoothed
// over the neighbouring days, and carries no interval. NaN where no night is known.
func (e Ensemble) NightShares(f Frost, half int) []float64 {
	cold, known := make([]float64, SpanLen+1), make([]float64, SpanLen+1) // running totals
	for i := range SpanLen {
		cold[i+1], known[i+1] = cold[i], known[i]
		for _, s := range e.Seasons {
			low := s.Lows()[i]
			if math.IsNaN(low) {
				continue
			}
			known[i+1]++
			if low <= float64(f) {
				cold[i+1]++
			}
		}
	}
	out := make([]float64, SpanLen)
	for i := range out {
		from, to := max(i-half, 0), min(i+half+1, SpanLen)
		out[i] = (cold[to] - cold[from]) / (known[to] - known[from])
	}
	return out
}

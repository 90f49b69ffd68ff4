package stat

import (
	"cmp"
	"math"
	"slices"
)

// Expense is what a yes-or-no decision costs per season, as shares of the loss: acting
// costs cost/loss whether or not the event comes, not acting costs 1 when it does (Murphy
// 1977, Mon. Wea. Rev. 105, 803-816; Katz and Murphy 1997, Economic Value of Weather and
// Climate Forecasts, both from memory).
type Expense struct {
	Method  float64 // acting when the chance issued exceeds cost/loss
	Climate float64 // always or never acting, whichever is cheaper
	Perfect float64 // acting just when the event comes
}

// Value is the relative value: the share of what perfect knowledge would save over the
// cheaper of always and never acting. 1 is perfect, 0 is no gain, below 0 a loss. It is NaN
// where there is nothing to gain.
func (e Expense) Value() float64 { return (e.Climate - e.Method) / (e.Climate - e.Perfect) }

// CostLoss replays decisions at a ratio of cost to loss between 0 and 1.
func CostLoss(chance []float64, came []bool, ratio float64) Expense {
	if len(chance) != len(came) {
		panic("stat: wants one outcome a chance")
	}
	var e Expense
	var base float64
	n := float64(len(chance))
	for i, c := range chance {
		if came[i] {
			base += 1 / n
		}
		switch {
		case c > ratio:
			e.Method += ratio / n
		case came[i]:
			e.Method += 1 / n
		}
	}
	e.Climate = min(ratio, base)
	e.Perfect = base * ratio
	return e
}

// Coverage returns the share of values that fell within their intervals, ends included.
// NaN values and intervals are passed over; without any the share is NaN.
func Coverage(low, high, came []float64) float64 {
	var in, n float64
	for i, y := range came {
		if math.IsNaN(y) || math.IsNaN(low[i]) || math.IsNaN(high[i]) {
			continue
		}
		n++
		if low[i] <= y && y <= high[i] {
			in++
		}
	}
	return in / n
}

// BestRule returns the fixed rule "protect at or below so much" that would have cost least over
// the nights forecast, chosen afterwards, and its mean cost a night in losses. It is the hardest
// rule to match: nobody could have known it beforehand.
func BestRule(forecast []float64, came []bool, ratio float64) (cost, rule float64) {
	n := len(forecast)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(forecast[i], forecast[j]) })
	total := 0.0 // of never protecting
	for _, c := range came {
		if c {
			total++
		}
	}
	cost, rule = total, math.Inf(-1)
	for k, i := range order {
		total += ratio
		if came[i] {
			total--
		}
		last := k+1 == n || forecast[order[k+1]] > forecast[i] // a rule cannot part equal forecasts
		if last && total < cost {
			cost, rule = total, forecast[i]
		}
	}
	return cost / float64(n), rule
}

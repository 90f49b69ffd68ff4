package quality

import "math"

// tails is the density of what is left of a value when its expectation is taken away, in standard
// deviations, for one month of the year: it is skew, and has longer tails than the normal density.
type tails struct {
	log   [tailBins]float64     // of the density at the bins' middles
	above [tailBins + 1]float64 // share above the bins' lower ends
}

const (
	tailBins = 160
	tailPer  = 10   // bins in a standard deviation
	tailWild = 0.01 // share of values that are anything
)

func tailBin(z float64) int {
	return int(min(max(math.Floor(z*tailPer)+tailBins/2, 0), tailBins-1))
}

// newTails smooths counts, the more the further from the middle and the fewer they are, and adds
// one value in a hundred from anywhere (density of Student's t with four degrees of freedom,
// twice as wide): no value is impossible.
func newTails(count *[tailBins]float64) *tails {
	t := &tails{}
	n := 0.0
	for _, c := range count {
		n += c
	}
	for b := range t.log {
		off := float64(b-tailBins/2) + 0.5
		width := 2.5 + 0.08*math.Abs(off)
		sum := 0.0
		for c := max(0, b-int(5*width)); c < min(tailBins, b+int(5*width)+1); c++ {
			if count[c] > 0 {
				d := float64(c-b) / width
				sum += count[c] * math.Exp(-d*d/2)
			}
		}
		sum *= tailPer / (width * math.Sqrt(2*math.Pi) * n)
		z := off / tailPer / 2
		wild := 0.375 / 2 * math.Pow(1+z*z/4, -2.5)
		t.log[b] = math.Log((1-tailWild)*sum + tailWild*wild)
	}
	for b := tailBins - 1; b >= 0; b-- {
		t.above[b] = t.above[b+1] + math.Exp(t.log[b])
	}
	for b, all := tailBins, t.above[0]; b >= 0; b-- {
		t.above[b] /= all
	}
	return t
}

// at returns the logarithm of the density.
func (t *tails) at(z float64) float64 {
	x := z*tailPer + tailBins/2 - 0.5
	if !(x > 0) {
		return t.log[0]
	}
	if x >= tailBins-1 {
		return t.log[tailBins-1]
	}
	b := int(x)
	x -= float64(b)
	return t.log[b]*(1-x) + t.log[b+1]*x
}

// tails gathers the densities of what is left.
func (p *pairs) tails(l *left) [13]*tails {
	var count [13][tailBins]float64
	for i, m := range p.month {
		if d := l.off[i]; d == d {
			count[m][tailBin(d/l.sd[i])]++
		}
	}
	return seasonalTails(&count)
}

// seasonalTails makes the densities of counts by month, each with its neighbours'.
func seasonalTails(count *[13][tailBins]float64) (out [13]*tails) {
	for m := 1; m <= 12; m++ {
		sum := count[m]
		for b := range sum {
			sum[b] += count[(m+10)%12+1][b] + count[m%12+1][b]
		}
		out[m] = newTails(&sum)
	}
	return out
}

// below returns the share below.
func (t *tails) below(z float64) float64 { return 1 - t.above[tailBin(z)] }

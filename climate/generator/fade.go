package generator

import "math"

// slowDays is how many days the slow part of a state looks back over.
const slowDays = 30

// fadeDays is how long a state is followed on for: as long as a piece may be.
const fadeDays = 60

// fade says how the state before a day shows in the days that follow: the expected residual
// of day k is last[v][k]*state.last[v] + slow[v][k]*state.slow[v].
type fade struct{ last, slow [2][fadeDays]float64 }

// findStates notes the state before each day. Where the days before are missing it is NaN.
func (m *Model) findStates() {
	m.state = make([]state, len(m.z[0]))
	for v := range 2 {
		var sum, n float64
		z := m.z[v]
		for i := range z {
			m.state[i].last[v], m.state[i].slow[v] = math.NaN(), math.NaN()
			if i > 0 {
				m.state[i].last[v] = z[i-1]
				if !math.IsNaN(z[i-1]) {
					sum += z[i-1]
					n++
				}
			}
			if o := i - 1 - slowDays; o >= 0 && !math.IsNaN(z[o]) {
				sum -= z[o]
				n--
			}
			if n >= slowDays/2 {
				m.state[i].slow[v] = sum / n
			}
		}
	}
}

// fadeLags are the days for which the regressions are made; between them the fade is drawn in
// straight lines. It bends only in the first days.
var fadeLags = []int{0, 1, 2, 3, 4, 5, 7, 10, 14, 20, 30, 45, fadeDays - 1}

// fitFade regresses the residual k days on upon the state, over the whole record and all times
// of the year.
func (m *Model) fitFade() {
	for v := range 2 {
		for j, k := range fadeLags {
			last, slow := m.fadeAt(v, k)
			m.fade.last[v][k], m.fade.slow[v][k] = last, slow
			if j == 0 {
				continue
			}
			from := fadeLags[j-1]
			for i := from + 1; i < k; i++ {
				f := float64(i-from) / float64(k-from)
				m.fade.last[v][i] = m.fade.last[v][from] + f*(last-m.fade.last[v][from])
				m.fade.slow[v][i] = m.fade.slow[v][from] + f*(slow-m.fade.slow[v][from])
			}
		}
	}
}

// fadeAt is the regression for one variable and one k: least squares without an intercept,
// residuals having mean 0.
func (m *Model) fadeAt(v, k int) (last, slow float64) {
	z := m.z[v]
	var aa, ab, bb, ay, by float64
	for i := slowDays; i+k < len(z); i++ {
		a, b, y := m.state[i].last[v], m.state[i].slow[v], z[i+k]
		if math.IsNaN(a + b + y) {
			continue
		}
		aa += a * a
		ab += a * b
		bb += b * b
		ay += a * y
		by += b * y
	}
	det := aa*bb - ab*ab
	if det <= 1e-9*aa*bb {
		return 0, 0
	}
	return (ay*bb - by*ab) / det, (by*aa - ay*ab) / det
}

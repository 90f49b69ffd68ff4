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

// fitFade regresses the residual k days on upon the state, over the whole record and all times
// of the year, for each k.
func (m *Model) fitFade() {
	for v := range 2 {
		z := m.z[v]
		for k := range fadeDays {
			var aa, ab, bb, ay, by float64
			for i := slowDays; i+k < len(z); i++ {
				s := &m.state[i]
				a, b, y := s.last[v], s.slow[v], z[i+k]
				if t := a + b + y; t != t {
					continue
				}
				aa += a * a
				ab += a * b
				bb += b * b
				ay += a * y
				by += b * y
			}
			det := aa*bb - ab*ab
			if det > 1e-9*aa*bb {
				m.fade.last[v][k] = (ay*bb - by*ab) / det
				m.fade.slow[v][k] = (by*aa - ay*ab) / det
			}
		}
	}
}

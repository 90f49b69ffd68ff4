package stat

import "sync"

// memo keeps the results of a costly function of three numbers. The rank of a quantile's
// interval and the noncentral t hang on the sample's size and the chance alone, not on its
// values; a plan asks for the same few thousands of times, and each takes some tens of
// microseconds to find. Safe for use from several goroutines.
type memo struct {
	mu sync.RWMutex
	m  map[[3]float64]float64
}

// memoMost bounds a memo: at 32 bytes an entry it stays below a megabyte.
const memoMost = 1 << 14

// of returns f of the key, worked out but once.
func (c *memo) of(a, b, d float64, f func(a, b, d float64) float64) float64 {
	k := [3]float64{a, b, d}
	c.mu.RLock()
	v, ok := c.m[k]
	c.mu.RUnlock()
	if ok {
		return v
	}
	v = f(a, b, d)
	c.mu.Lock()
	if c.m == nil || len(c.m) >= memoMost {
		c.m = make(map[[3]float64]float64)
	}
	c.m[k] = v
	c.mu.Unlock()
	return v
}

var ranks, noncentrals memo

package climate

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// InParallel runs work on all cores, each taking the next of n pieces from next until that is
// n or more. What comes out must not depend on who takes which: a piece has its own place for
// its result, and its own source of random numbers.
func InParallel(n int, work func(next func() int)) {
	var taken atomic.Int64
	next := func() int { return int(taken.Add(1)) - 1 }
	var g sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) - 1 {
		g.Go(func() { work(next) })
	}
	work(next)
	g.Wait()
}

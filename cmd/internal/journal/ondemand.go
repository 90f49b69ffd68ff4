package journal

import (
	"regexp"
	"sync"
)

// onDemand compiles an expression when it is first asked for, as most commands read no log.
func onDemand(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}

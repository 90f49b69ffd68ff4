package daily

import (
	"regexp"
	"sync"
)

// onDemand compiles an expression when it is first asked for: most files want none of them, and
// to compile all would be a tenth of the program's start.
func onDemand(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}

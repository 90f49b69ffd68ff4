// Package early has the heap's first block stand in large pages, for the program's start: what
// other packages make before main takes 500 small ones, a sixth of that time on a virtual machine.
// It is to be imported for that alone. It needs hardly any other package, as Go readies
// the packages that need the fewest first.
package early

//go:build race

package daily

// racing: under the race detector pools drop what they are given, at random, so that bytes
// allocated say nothing.
const racing = true

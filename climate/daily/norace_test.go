//go:build !race

package daily

const racing = false

//go:build !linux

package hugepages

func reserve(int) {}

package hugepages

import (
	"runtime"
	"runtime/debug"
	"syscall"
	"unsafe"
)

const pageSize = 2 << 20

func reserve(bytes int) {
	// So large a block starts a collection while it is in use. It is to start when it no longer is,
	// and to go on beside the program's own work.
	defer debug.SetGCPercent(debug.SetGCPercent(-1))
	block := make([]byte, bytes)
	if whole := within(block); len(whole) > 0 {
		_ = syscall.Madvise(whole, syscall.MADV_HUGEPAGE) // a wish; a system that has none says so
	}
	runtime.KeepAlive(block)
}

// within returns the part of a block that is whole large pages.
func within(block []byte) []byte {
	if len(block) < pageSize {
		return nil
	}
	at := uintptr(unsafe.Pointer(unsafe.SliceData(block)))
	from := int((pageSize - at%pageSize) % pageSize)
	if from > len(block) {
		return nil
	}
	n := (len(block) - from) / pageSize * pageSize
	return block[from : from+n]
}

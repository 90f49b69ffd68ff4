package early

import (
	"syscall"
	"unsafe"
)

// block is what the heap grows by, and where each part of it begins.
const block = 4 << 20

// some memory of the heap's.
var some = new([64]byte)

// collapse is MADV_COLLAPSE, since Linux 6.1: large pages at once, also where some small ones are in
// use already. Package syscall does not have it.
const collapse = 25

// Wishes, as in package hugepages: were the heap laid out otherwise, the kernel would say that
// there is no such memory, or take it for other memory of this program, to which it does no harm.
func init() {
	at := uintptr(unsafe.Pointer(some)) &^ (block - 1)
	syscall.Syscall(syscall.SYS_MADVISE, at, block, syscall.MADV_HUGEPAGE)
	syscall.Syscall(syscall.SYS_MADVISE, at, block, collapse)
}

package hugepages

import (
	"bufio"
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"
	"unsafe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	_ "frostward/cmd/internal/hugepages/early"
)

// blocks are none of the heap's, where they would leave room before what Reserve asks for.
var blocks [8 * pageSize]byte

func TestWithin(t *testing.T) {
	for _, n := range []int{0, 1, pageSize - 1, pageSize, 2*pageSize - 1, 5*pageSize + 4096} {
		for _, off := range []int{0, 1, 4096, pageSize - 1} {
			block := blocks[off : off+n]
			whole := within(block)
			assert.Zero(t, len(whole)%pageSize)
			assert.LessOrEqual(t, len(whole), n)
			assert.GreaterOrEqual(t, len(whole)+2*pageSize, n, "no more than a page is left at either end")
			if len(whole) > 0 {
				assert.Zero(t, uintptr(unsafe.Pointer(&whole[0]))%pageSize)
			}
		}
	}
}

// small is made before main, so in the heap's first block.
var small = new([64]byte)

// Both are told by the kernel's own account: "hg" among the flags of the mapping (proc(5),
// VmFlags). What is made after Reserve stands where large pages were asked for.
func TestReserve(t *testing.T) {
	if _, err := os.Stat("/sys/kernel/mm/transparent_hugepage/enabled"); err != nil {
		t.Skip("this kernel has no transparent huge pages")
	}
	assert.Contains(t, flagsAt(t, unsafe.Pointer(small)), "hg", "package early")
	Reserve(32 << 20)
	runtime.GC()
	memory := make([]byte, 8<<20)
	assert.Contains(t, flagsAt(t, unsafe.Pointer(&memory[4<<20])), "hg")
	memory[4<<20] = 1
}

func flagsAt(t *testing.T, p unsafe.Pointer) []string {
	t.Helper()
	f, err := os.Open("/proc/self/smaps")
	require.NoError(t, err)
	defer f.Close()
	inside := false
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var from, to uintptr
		if n, _ := fmt.Sscanf(lines.Text(), "%x-%x ", &from, &to); n == 2 {
			inside = from <= uintptr(p) && uintptr(p) < to
		}
		if flags, ok := strings.CutPrefix(lines.Text(), "VmFlags:"); ok && inside {
			return strings.Fields(flags)
		}
	}
	require.Fail(t, "no such memory")
	return nil
}

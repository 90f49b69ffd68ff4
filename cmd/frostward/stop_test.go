//go:build !windows

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stations says at SIGTERM what is kept and how it goes on; the same command then ends in the bytes of a run in one go.
func TestStationsStopped(t *testing.T) {
	dir := t.TempDir()
	records := filepath.Join(dir, "records")
	require.NoError(t, os.Mkdir(records, 0o755))
	for k := range 3000 {
		text := fmt.Sprintf("date,tmin_c,tmax_c\n2001-04-01,-1.0,%d\n2001-04-02,2.0,11.0\n", 5+k%9)
		require.NoError(t, os.WriteFile(filepath.Join(records, fmt.Sprintf("s%04d.csv", k)), []byte(text), 0o644))
	}
	out := filepath.Join(dir, "out.csv")
	command := func(to string) *exec.Cmd {
		return exec.Command("frostward", "stations", records, "--at", "0", "--crop", "courgette", "--latitude", "52", "-o", to)
	}
	first := command(out)
	var said bytes.Buffer
	first.Stderr = &said
	require.NoError(t, first.Start())
	marks := filepath.Join(out+".frostward-part", "marks")
	for {
		if info, err := os.Stat(marks); err == nil && info.Size() > 0 {
			break
		}
		if _, err := os.Stat(out); err == nil {
			break // too fast to be stopped: the assertions below say so
		}
		time.Sleep(time.Millisecond)
	}
	require.NoError(t, first.Process.Signal(syscall.SIGTERM))
	require.Error(t, first.Wait())
	assert.Regexp(t, `frostward: stopped; \d+ stations done and kept in .*out\.csv\.frostward-part, nothing written to .*out\.csv: the same command goes on`, said.String())
	assert.NoFileExists(t, out)

	again, err := command(out).CombinedOutput()
	require.NoError(t, err, string(again))
	assert.Contains(t, string(again), "going on from an earlier run")
	assert.NoDirExists(t, out+".frostward-part")
	got, err := os.ReadFile(out)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(got)), "\n")
	require.Len(t, lines, 3001)
	for k, line := range lines[1:] {
		require.True(t, strings.HasPrefix(line, fmt.Sprintf("s%04d,s%04d.csv,done,", k, k)), line[:40])
	}
}

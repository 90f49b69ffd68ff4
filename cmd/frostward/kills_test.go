//go:build !windows

package main

import (
	"bufio"
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/cmd/internal/journal"
)

// manyKills is for a longer run than every test's: go test ./cmd/frostward -run KilledWriters -v -kills 1000
var manyKills = flag.Int("kills", 12, "processes to kill in TestKilledWriters")

// Three processes write to one log, two of log and a serve that is sent readings, and each is killed at a random moment,
// half of them just when the log grows, until so many are dead: each reading that one said is logged is in the log, once;
// nothing else is but readings tried and lines known to be cut off; what stood there before is untouched.
func TestKilledWriters(t *testing.T) {
	dir := shortGarden(t)
	path := filepath.Join(dir, "log.csv")
	var killed atomic.Int64
	var mu sync.Mutex
	said, tried := map[string]bool{}, map[string]bool{} // by note
	note := func(to map[string]bool, name string) {
		mu.Lock()
		defer mu.Unlock()
		to[name] = true
	}
	command := func(args ...string) *exec.Cmd {
		return exec.Command("frostward", append([]string{"--garden", dir, "--as-of", "2026-05-17", "--by", "record"}, args...)...)
	}
	size := func() int64 {
		info, err := os.Stat(path)
		if err != nil {
			return 0
		}
		return info.Size()
	}
	// kill waits for a process that has begun, and kills it at a random moment if it has not ended by then.
	kill := func(c *exec.Cmd, rng *rand.Rand, within time.Duration) {
		ended := make(chan struct{})
		go func() {
			defer close(ended)
			_ = c.Wait() // its state says how it ended
		}()
		moment, was, whenGrown := time.Now().Add(time.Duration(rng.Int64N(int64(within)))), size(), rng.IntN(2) == 0
		for time.Now().Before(moment) && !(whenGrown && size() > was) {
			select {
			case <-ended:
				return
			case <-time.After(50 * time.Microsecond):
			}
		}
		_ = c.Process.Kill() // it may just have ended
		<-ended
		if !c.ProcessState.Exited() {
			killed.Add(1)
		}
	}
	began := time.Now()
	require.NoError(t, command("log", "--spot", "open bed", "--min", "1").Run())
	usual := time.Since(began) // on this machine, so that half of the kills come before the end
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	var writers sync.WaitGroup
	for w := range 2 {
		writers.Go(func() {
			rng := rand.New(rand.NewPCG(*faultSeed, uint64(w)))
			for n := 0; killed.Load() < int64(*manyKills); n++ {
				name := fmt.Sprintf("log %d, %d", w, n)
				note(tried, name)
				c := command("log", "--spot", "open bed", "--min", "-1.5", "--note", name)
				var errs bytes.Buffer
				c.Stderr = &errs
				if !assert.NoError(t, c.Start()) {
					return
				}
				kill(c, rng, 2*usual)
				if c.ProcessState.Success() {
					note(said, name)
				}
				assert.Empty(t, errs.String())
			}
		})
	}
	writers.Go(func() {
		rng := rand.New(rand.NewPCG(*faultSeed, 2))
		client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
		for n := 0; killed.Load() < int64(*manyKills); n++ {
			c := command("serve", "--listen", "127.0.0.1:0")
			out, err := c.StdoutPipe()
			if !assert.NoError(t, err) || !assert.NoError(t, c.Start()) {
				return
			}
			line, _ := bufio.NewReader(out).ReadString('\n')
			at := regexp.MustCompile(`http://[0-9.:]+`).FindString(line)
			for k := 0; ; k++ {
				name := fmt.Sprintf("serve %d, %d", n, k)
				note(tried, name)
				p, err := client.PostForm(at+"/log", url.Values{"date": {"2026-05-17"}, "spot": {"open bed"}, "tmin": {"2.5"}, "note": {name}, "replace": {"yes"}})
				if err != nil {
					break // killed
				}
				p.Body.Close()
				if !assert.Equal(t, http.StatusSeeOther, p.StatusCode) {
					return
				}
				note(said, name)
				if k == 0 { // it is at work
					writers.Go(func() { kill(c, rng, 4*usual) })
				}
			}
		}
	})
	writers.Wait()
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(now, before))
	l, err := journal.Read(bytes.NewReader(now), "log.csv")
	require.NoError(t, err)
	cut := 0
	for _, f := range l.Faults {
		require.True(t, f.CutOff, f.Error())
		cut++
	}
	found := map[string]int{}
	for _, e := range l.Entries {
		found[e.Note]++
	}
	for name := range said {
		require.Equal(t, 1, found[name], name)
	}
	stored := 0
	for name, n := range found {
		if tried[name] {
			require.Equal(t, 1, n, name)
			stored++
		}
	}
	was, err := journal.Read(bytes.NewReader(before), "log.csv")
	require.NoError(t, err)
	require.Len(t, l.Entries, len(was.Entries)+stored)
	t.Logf("%d processes killed; of %d readings tried %d were said to be logged, %d are, %d lines are cut off", killed.Load(), len(tried), len(said), stored, cut)
}

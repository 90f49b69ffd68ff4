package journal

import (
	"bufio"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// writerEnv makes the test binary a writer: it appends numbered readings to the log
// that it names until it is killed, and says the number of each once Append is back.
const writerEnv = "FROSTWARD_TEST_WRITER"

func TestMain(m *testing.M) {
	if v := os.Getenv(writerEnv); v != "" {
		path, name, _ := strings.Cut(v, "|")
		for i := 0; ; i++ {
			e := NewEntry(climate.NewDay(2026, 1, 1), name)
			e.Tmin, e.Note = float64(i%40)/4-5, "no "+strconv.Itoa(i)
			if err := Append(path, e); err != nil {
				fmt.Println("error", err)
				os.Exit(1)
			}
			fmt.Println(i)
			time.Sleep(time.Duration(rand.IntN(6)) * time.Millisecond) // lets the others have the lock, which is not taken in turn
		}
	}
	os.Exit(m.Run())
}

// writer is a child with the readings it says are logged.
type writer struct {
	name   string
	cmd    *exec.Cmd
	acked  chan struct{} // one for each
	logged int
}

func startWriter(t *testing.T, path, name string) *writer {
	t.Helper()
	w := &writer{name: name, cmd: exec.Command(os.Args[0]), acked: make(chan struct{})}
	w.cmd.Env = append(os.Environ(), writerEnv+"="+path+"|"+name)
	out, err := w.cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, w.cmd.Start())
	go func() {
		defer close(w.acked)
		n := 0
		for sc := bufio.NewScanner(out); sc.Scan(); n++ {
			if sc.Text() != strconv.Itoa(n) {
				t.Errorf("%s: %q", name, sc.Text())
			}
			w.acked <- struct{}{}
		}
	}()
	return w
}

// kill kills the writer a moment after it has logged so many, and counts what it still
// gets out.
func (w *writer) kill(t *testing.T, after int, moment time.Duration) {
	t.Helper()
	for range after {
		if _, alive := <-w.acked; !alive {
			t.Errorf("%s ended by itself", w.name)
			return
		}
		w.logged++
	}
	time.Sleep(moment)
	require.NoError(t, w.cmd.Process.Kill())
	for range w.acked {
		w.logged++
	}
	_ = w.cmd.Wait() // killed
}

// leastKills is for a longer run than every test's: go test ./cmd/internal/journal -run Killed -kills 1000
var leastKills = flag.Int("kills", 0, "writers to kill at the least in TestKilledWriters")

// Three writers at a time, by the function that log and serve write with, are killed at random
// points until 1,000 writes have been acknowledged: each of those is in the log, once, and
// nothing else is but lines known to be cut off.
func TestKilledWriters(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	path := filepath.Join(t.TempDir(), "log.csv")
	rng := rand.New(rand.NewPCG(1, 2))
	said := map[string]int{} // acknowledged, by writer
	total, runs := 0, 0
	for total < 1000 || runs < *leastKills {
		var wg sync.WaitGroup
		var three []*writer
		for range 3 {
			runs++
			three = append(three, startWriter(t, path, fmt.Sprint("writer ", runs)))
		}
		for _, w := range three {
			after, moment := rng.IntN(30), time.Duration(rng.IntN(3000))*time.Microsecond
			wg.Add(1)
			go func() {
				defer wg.Done()
				w.kill(t, after, moment)
			}()
		}
		wg.Wait()
		for _, w := range three {
			said[w.name] = w.logged
			total += w.logged
		}
	}
	l, err := readFile(path)
	require.NoError(t, err)
	for _, f := range l.Faults {
		require.True(t, f.CutOff, f.Error())
	}
	found := map[string]int{}
	for _, e := range l.Entries {
		require.Equal(t, fmt.Sprint("no ", found[e.Spot]), e.Note, "each once and in order")
		found[e.Spot]++
	}
	for name, n := range said {
		require.GreaterOrEqual(t, found[name], n, name)
		require.LessOrEqual(t, found[name], n+1, "written, and killed before it could say so")
	}
	t.Logf("%d writers killed, %d readings acknowledged, %d stored, %d cut off", runs, total, len(l.Entries), len(l.Faults))
}

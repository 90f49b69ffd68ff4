package journal

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
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
		}
	}
	os.Exit(m.Run())
}

// Two writers at a time are killed at random moments until 1,000 writes have been
// acknowledged: each of those is in the log, once, and nothing else is but lines known
// to be cut off.
func TestKilledWriters(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	path := filepath.Join(t.TempDir(), "log.csv")
	rng := rand.New(rand.NewPCG(1, 2))
	said := map[string]int{} // acknowledged, by writer
	total, runs := 0, 0
	for total < 1000 {
		type child struct {
			name string
			cmd  *exec.Cmd
			n    chan int
		}
		var children []child
		for range 2 {
			runs++
			c := child{name: fmt.Sprint("writer ", runs), n: make(chan int)}
			c.cmd = exec.Command(os.Args[0])
			c.cmd.Env = append(os.Environ(), writerEnv+"="+path+"|"+c.name)
			out, err := c.cmd.StdoutPipe()
			require.NoError(t, err)
			require.NoError(t, c.cmd.Start())
			go func() {
				n := 0
				for sc := bufio.NewScanner(out); sc.Scan(); n++ {
					if sc.Text() != strconv.Itoa(n) {
						t.Errorf("%s: %q", c.name, sc.Text())
					}
				}
				c.n <- n
			}()
			children = append(children, c)
		}
		for _, c := range children {
			time.Sleep(time.Duration(rng.IntN(120_000)) * time.Microsecond)
			require.NoError(t, c.cmd.Process.Kill())
		}
		for _, c := range children {
			said[c.name] = <-c.n
			total += said[c.name]
			_ = c.cmd.Wait() // killed
		}
	}
	l, err := ReadFile(path)
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

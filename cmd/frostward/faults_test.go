package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/cmd/internal/demo"
	"frostward/cmd/internal/journal"
)

// A longer run than every test's, from a seed of its own:
//
//	go test ./cmd/frostward -run 'Corrupted|InjectedFaults' -v -corrupted 2000 -faults 200 -seed 7
var (
	manyCorrupted = flag.Int("corrupted", 25, "inputs to corrupt in TestCorruptedInputs")
	manyFaults    = flag.Int("faults", 6, "faults to inject in TestInjectedFaults")
	faultSeed     = flag.Uint64("seed", 1, "of the two")
)

// shortGarden writes the built-in garden with the record's last nine years, a diary and a forecast.
func shortGarden(t testing.TB) string {
	dir := t.TempDir()
	names, err := fs.Glob(demo.Files(), "*")
	require.NoError(t, err)
	for _, n := range names {
		b, err := fs.ReadFile(demo.Files(), n)
		require.NoError(t, err)
		if n == "record.csv" {
			head, _, _ := bytes.Cut(b, []byte("\n"))
			b = append(append(head, '\n'), b[bytes.Index(b, []byte("2017-01-01")):]...)
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, n), b, 0o644))
	}
	for name, text := range map[string]string{
		"diary.csv":    "date,planting,what,note\n\"2026-05-06\",early courgettes,planted out,\"\"\n\"2026-05-10\",courgettes,sown,\"\"\n",
		"forecast.csv": "date,tmin_c,tmax_c\n2026-05-18,1.5,14\n2026-05-19,-0.5,15\n2026-05-20,4,16\n",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	return dir
}

// worse makes a file worse in one of the ways that files come to harm.
func worse(rng *rand.Rand, b []byte) ([]byte, string) {
	b = bytes.Clone(b)
	at := func() int { return rng.IntN(len(b) + 1) }
	insert := func(i int, text string) []byte { return append(append(bytes.Clone(b[:i]), text...), b[i:]...) }
	lines := bytes.SplitAfter(b, []byte("\n"))
	k := rng.IntN(len(lines))
	switch rng.IntN(14) {
	case 0:
		return b[:at()], "cut off"
	case 1:
		for range 1 + rng.IntN(8) {
			if i := at(); i < len(b) {
				b[i] ^= 1 << rng.IntN(8)
			}
		}
		return b, "bits flipped"
	case 2:
		i, j := at(), at()
		return append(bytes.Clone(b[:min(i, j)]), b[max(i, j):]...), "a piece lost"
	case 3:
		return insert(at(), string(make([]byte, 1+rng.IntN(600)))), "zero bytes"
	case 4:
		return insert(at(), []string{"\x1b[2J\x1b]0;x\a", "\u009b31m", "\u202e", "\x00", "\r", "\ufeff", "\xff\xfe", "\"", "'", "=1+1"}[rng.IntN(10)]), "characters put in"
	case 5:
		return bytes.Join(append(lines[:k:k], lines[min(k+1, len(lines)-1):]...), nil), "a line lost"
	case 6:
		return append(b, lines[k]...), "a line twice"
	case 7:
		cells := bytes.Split(lines[k], []byte(","))
		cells[rng.IntN(len(cells))] = []byte([]string{"1e400", "NaN", "-999999999999", "x", "1,5", "31 February", strings.Repeat("9", 5000), "[[[", "&a *a"}[rng.IntN(9)])
		lines[k] = append(bytes.Join(cells, []byte(",")), '\n')
		return bytes.Join(lines, nil), "another cell"
	case 8:
		return nil, "emptied"
	case 9:
		out := make([]byte, rng.IntN(4000))
		for i := range out {
			out[i] = byte(rng.Uint32())
		}
		return out, "noise"
	case 10:
		return bytes.ReplaceAll(b, []byte("\n"), []byte("\r")), "other line ends"
	case 11:
		out := []byte{0xFF, 0xFE}
		for _, c := range b {
			out = append(out, c, 0)
		}
		return out[:len(out)-rng.IntN(2)], "UTF-16"
	case 12:
		return bytes.Repeat(b, 2), "twice"
	}
	i, j := at(), at()
	return append(append(bytes.Clone(b[:min(i, j)]), b...), b[max(i, j):]...), "mixed"
}

var controls = regexp.MustCompile(`[\x00-\x08\x0b-\x1f\x7f\x{80}-\x{9f}\x{202a}-\x{202e}]`)

// The commands that read a garden, those that write to it last.
func gardenCommands(dir string) [][]string {
	forecast := filepath.Join(dir, "forecast.csv")
	return [][]string{
		{"plan"}, {"check"}, {"frosts"}, {"warmth"}, {"when", "courgette"}, {"sow", "lettuce"}, {"log"}, {"spots"}, {"week"}, {"did"},
		{"tonight", "--forecast", "1"}, {"tonight", "--forecast", forecast}, {"outlook"}, {"calendar"}, {"crops"}, {"plan", "--format", "json"},
		{"page", "-o", filepath.Join(dir, "page.html")},
		{"log", "--spot", "open bed", "--min", "-1.5", "--note", "ours"},
		{"did", "courgettes", "planted", "out", "--note", "ours"},
		{"move", "courgettes", "7", "June"},
	}
}

// Whatever a file of a garden holds, each command ends, without a panic, with a status of its own and no control
// character, and leaves every byte of the garden's files where it was but for what it was asked to change.
func TestCorruptedInputs(t *testing.T) {
	rng := rand.New(rand.NewPCG(*faultSeed, 14))
	garden := shortGarden(t)
	files := []string{"garden.yaml", "record.csv", "plan.csv", "log.csv", "diary.csv", "forecast.csv"}
	statuses := map[int]int{}
	for n := range *manyCorrupted {
		dir := t.TempDir()
		require.NoError(t, os.CopyFS(dir, os.DirFS(garden)))
		name := files[n%len(files)]
		sound, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		text, how := worse(rng, sound)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), text, 0o644))
		all := gardenCommands(dir)
		args := append(all[rng.IntN(len(all))], "--garden", dir, "--by", "record")
		what := fmt.Sprintf("input %d: %s, %s: %q", n, name, how, args)

		before := readAll(t, dir)
		var out, errs bytes.Buffer
		w := world{in: strings.NewReader(""), out: &out, err: &errs, getenv: func(string) string { return "" },
			today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
		ended := make(chan int, 1)
		go func() { ended <- run(w, args) }()
		select {
		case status := <-ended:
			statuses[status]++
			if status != exitDone && status < exitUnfit {
				assert.Contains(t, errs.String(), "frostward: ", what)
			}
		case <-time.After(3 * time.Minute):
			t.Fatalf("%s: does not end", what)
		}
		for _, s := range []string{out.String(), errs.String()} {
			s = strings.ReplaceAll(s, "\r\n", "\n") // of calendars
			assert.Empty(t, controls.FindString(s), what)
			assert.False(t, strings.Contains(s, "runtime error"), what)
		}
		for file, was := range before {
			now, err := os.ReadFile(filepath.Join(dir, file))
			require.NoError(t, err, what)
			switch {
			case was == string(now), file == "page.html":
			case file == "log.csv" && args[0] == "log", file == "diary.csv" && args[0] == "did":
				assert.True(t, strings.HasPrefix(string(now), was), what+": "+file+" lost something")
			case file == "plan.csv" && args[0] == "move":
				assert.Len(t, strings.Split(string(now), "\n"), len(strings.Split(was, "\n")), what+": plan.csv lost a line")
			default:
				t.Errorf("%s: %s was written to", what, file)
			}
		}
		if t.Failed() {
			t.Logf("%s\n%q\nsaid:\n%.2000s", what, text[:min(len(text), 3000)], errs.String())
			return
		}
	}
	t.Logf("%d corrupted inputs; by status: %v", *manyCorrupted, statuses)
}

// readAll reads the plain files in a folder.
func readAll(t *testing.T, dir string) map[string]string {
	all := map[string]string{}
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		if e.Type().IsRegular() {
			b, err := os.ReadFile(filepath.Join(dir, e.Name()))
			require.NoError(t, err)
			all[e.Name()] = string(b)
		}
	}
	return all
}

// Where the system fails a call, a command says so or has done its work: what it said is stored is there, what was
// there before stays, and the next run works.
func TestInjectedFaults(t *testing.T) {
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skip("no strace, which injects the faults")
	}
	if exec.Command(strace, "-o", os.DevNull, "true").Run() != nil {
		t.Skip("strace may trace nothing here")
	}
	rng := rand.New(rand.NewPCG(*faultSeed, 15))
	dir := shortGarden(t)
	said, failed, injected := 0, 0, 0
	trace := filepath.Join(t.TempDir(), "trace")
	stored := []string{}                      // notes that a command said it had stored
	for n := 0; injected < *manyFaults; n++ { // some commands make no such call
		call := []string{"write", "fsync", "openat", "renameat,renameat2", "linkat", "ftruncate", "close", "flock", "fchmodat,fchmod"}[rng.IntN(9)]
		fault := []string{"ENOSPC", "EIO", "EACCES"}[rng.IntN(3)]
		note := fmt.Sprintf("note %d", n)
		commands := [][]string{
			{"log", "--spot", "open bed", "--min", "-1.5", "--note", note},
			{"log", "--spot", "open bed", "--min", "-1.5", "--note", note},
			{"did", "courgettes", "planted", "out", "--note", note},
			{"move", "courgettes", fmt.Sprint(1 + rng.IntN(28)), "June"},
			{"calendar", "--by", "record", "-o", filepath.Join(dir, "out.ics")},
		}
		args := commands[rng.IntN(len(commands))]
		when := 1 + rng.IntN(map[bool]int{true: 20, false: 2}[call == "openat"])
		before := readAll(t, dir)
		var out bytes.Buffer
		ctx, stop := context.WithTimeout(context.Background(), 3*time.Minute)
		traced := []string{"-f", "-qq", "-o", trace, "-e", "trace=" + call, "-e", fmt.Sprintf("inject=%s:error=%s:when=%d", call, fault, when)}
		if onlyHere := call == "write" || call == "close" || rng.IntN(2) == 0; onlyHere { // else what the runtime writes and closes for itself
			for _, name := range []string{"", "log.csv", "log.csv.lock", "diary.csv", "diary.csv.lock", "plan.csv", "out.ics"} {
				traced = append(traced, "-P", filepath.Join(dir, name))
			}
		}
		c := exec.CommandContext(ctx, strace, append(append(traced, "frostward", "--garden", dir, "--as-of", "2026-05-17"), args...)...)
		c.Stdout, c.Stderr = &out, &out
		err := c.Run()
		late := ctx.Err()
		stop()
		what := fmt.Sprintf("fault %d: %s %s at %d: %q: %s", n, call, fault, when, args, out.String())
		require.NoError(t, late, what)
		require.NotContains(t, out.String(), "panic", what)
		calls, terr := os.ReadFile(trace)
		require.NoError(t, terr)
		injected += min(1, bytes.Count(calls, []byte("(INJECTED)")))
		switch {
		case err != nil:
			failed++
			require.Contains(t, out.String(), "frostward: ", what)
		case args[0] == "log", args[0] == "did":
			said++
			stored = append(stored, args[0]+" "+note)
		}
		for file, was := range before {
			now, err := os.ReadFile(filepath.Join(dir, file))
			switch {
			case file == "log.csv" || file == "diary.csv":
				require.NoError(t, err, what)
				require.True(t, strings.HasPrefix(string(now), was), what)
			case file == "plan.csv" && args[0] == "move":
				require.NoError(t, err, what)
				require.Len(t, strings.Split(string(now), "\n"), len(strings.Split(was, "\n")), what)
			case file != "out.ics" && !strings.Contains(file, ".before-") && !strings.HasSuffix(file, ".tmp") && !strings.HasSuffix(file, ".lock"):
				require.True(t, err == nil && was == string(now), "%s: %s changed", what, file)
			}
		}
	}
	log := readNotes(t, filepath.Join(dir, "log.csv"), func(r io.Reader) (notes []string, err error) {
		l, err := journal.Read(r, "log.csv")
		for _, e := range l.Entries {
			notes = append(notes, "log "+e.Note)
		}
		return notes, err
	})
	diary := readNotes(t, filepath.Join(dir, "diary.csv"), func(r io.Reader) (notes []string, err error) {
		d, err := journal.ReadDiary(r, "diary.csv")
		for _, e := range d.Deeds {
			notes = append(notes, "did "+e.Note)
		}
		return notes, err
	})
	assert.Subset(t, append(log, diary...), stored)
	t.Logf("%d faults injected: %d commands failed and said so, %d lines said to be stored, all there", injected, failed, said)
}

func readNotes(t *testing.T, name string, read func(io.Reader) ([]string, error)) []string {
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	notes, err := read(f)
	require.NoError(t, err)
	return notes
}

package journal

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/gofrs/flock"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/cmd/internal/deliver"
)

func reading(t testing.TB, date string, tmin float64, note string) Entry {
	e := NewEntry(day(t, date), "open bed")
	e.Tmin, e.Note = tmin, note
	return e
}

func readFile(path string) (Log, error) {
	f, err := os.Open(path)
	if err != nil {
		return Log{}, err
	}
	defer f.Close()
	return Read(f, path)
}

func content(t testing.TB, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

func TestAppendMakesTheFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, Append(path, reading(t, "2026-05-01", -1.5, "")))
	require.NoError(t, Append(path, reading(t, "2026-05-02", 2, "hail, \"small\"\nthen sun")))
	require.Equal(t, "date,spot,tmin_c,tmax_c,beside_c,evening_c,dew_point_c,humidity_pct,cloud,wind,forecast_c,covered,damage,\"note\"\n"+
		"\"2026-05-01\",open bed,-1.5,,,,,,,,,,,\"\"\n"+
		"\"2026-05-02\",open bed,2,,,,,,,,,,,\"hail, 'small' then sun\"\n", content(t, path))
	left, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".*"))
	require.NoError(t, err)
	require.Empty(t, left, "nothing is left beside it")
}

// A writer killed while it made the file leaves nothing behind for long.
func TestLeftOversAreRemoved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	left, backup := filepath.Join(filepath.Dir(path), ".frostward-0123456789abcdef.tmp"), filepath.Join(filepath.Dir(path), ".log.csv-backup")
	for _, name := range []string{left, backup} {
		require.NoError(t, os.WriteFile(name, []byte("date,sp"), 0o600))
		require.NoError(t, os.Chtimes(name, time.Time{}, time.Now().Add(-time.Hour)))
	}
	require.NoError(t, Append(path, reading(t, "2026-05-01", -1.5, "")))
	require.NoFileExists(t, left)
	require.FileExists(t, backup, "a file of the user's")
}

// What is added follows the file's custom, and what stood there is left as it was.
func TestAppendFollowsTheFile(t *testing.T) {
	for name, c := range map[string]struct{ before, added string }{
		"semicolon":       {"date;spot;tmin_c;note\r\n2026-04-01;bed;1,5;x\r\n", "\"2026-05-01\";open bed;-1,5;\"\"\r\n"},
		"semicolon empty": {"date;spot;tmin_c;note\n", "\"2026-05-01\";open bed;-1,5;\"\"\n"},
		"semicolon, dots": {"date;spot;tmin_c;note\n2026-04-01;bed;1.5;x\n", "\"2026-05-01\";open bed;-1.5;\"\"\n"},
		"order":           {"note,tmin_c,frogs,spot,date\n", "\"\",-1.5,,open bed,\"2026-05-01\"\n"},
		"byte order mark": {"\ufeffdate,spot,tmin_c\n", "\"2026-05-01\",open bed,\"-1.5\"\n"},
		"no line end":     {"date,spot,tmin_c\n2026-04-01,bed,2", "\n\"2026-05-01\",open bed,\"-1.5\"\n"},
		"cut off":         {"date,spot,tmin_c\n\"2026-04-01\",bed,\"2", " <cut off>\n\"2026-05-01\",open bed,\"-1.5\"\n"},
		"empty":           {"", "\"date\",spot,tmin_c,tmax_c,beside_c,evening_c,dew_point_c,humidity_pct,cloud,wind,forecast_c,covered,damage,\"note\"\n\"2026-05-01\",open bed,-1.5,,,,,,,,,,,\"\"\n"},
		"missing column":  {"date,spot,forecast_c\n2026-04-01,bed,2\n", "\"date\",spot,forecast_c,\"tmin_c\"\n\"2026-05-01\",open bed,,\"-1.5\"\n"},
	} {
		path := filepath.Join(t.TempDir(), "log.csv")
		require.NoError(t, os.WriteFile(path, []byte(c.before), 0o644))
		require.NoError(t, Append(path, reading(t, "2026-05-01", -1.5, "")), name)
		require.Equal(t, c.before+c.added, content(t, path), name)
		l, err := readFile(path)
		require.NoError(t, err)
		last := l.Entries[len(l.Entries)-1]
		require.Equal(t, -1.5, last.Tmin, name)
		require.Equal(t, "open bed", last.Spot, name)
	}
}

func TestAppendRefuses(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	require.ErrorContains(t, Append(path, reading(t, "2026-05-01", 99, "")), "tmin_c: 99 °C is outside")
	require.ErrorContains(t, Append(path, NewEntry(day(t, "2026-05-01"), "bed")), "has no value")
	require.NoFileExists(t, path)
	require.NoError(t, os.WriteFile(path, []byte("dear diary\n"), 0o644))
	require.ErrorContains(t, Append(path, reading(t, "2026-05-01", 1, "")), `nothing was logged: log.csv:1: "dear diary" is not a heading`)
	require.Equal(t, "dear diary\n", content(t, path))
	require.ErrorContains(t, Append(filepath.Join(t.TempDir(), "no", "log.csv"), reading(t, "2026-05-01", 1, "")), "no such file or directory")
}

// Texts that a spreadsheet would run are stored with an apostrophe and read without.
func TestFormulas(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	notes := []string{"=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "'quoted'", "fine"}
	for i, n := range notes {
		require.NoError(t, Append(path, reading(t, "2026-05-01", float64(i), n)))
	}
	for _, line := range strings.Split(content(t, path), "\n")[1:] {
		cells, err := cellsOf(line+"\n", ',')
		if err != nil {
			continue
		}
		require.NotContains(t, []string{"=", "+", "@"}, cells[len(cells)-1][:min(1, len(cells[len(cells)-1]))], line)
	}
	l, err := readFile(path)
	require.NoError(t, err)
	require.Empty(t, l.Faults)
	for i, e := range l.Entries {
		require.Equal(t, strings.TrimSpace(notes[i]), e.Note)
	}
}

// Wherever a line is cut off, it is reported and not used, the next append begins on a
// fresh line, and the cut-off line stays known.
func TestCutOffAnywhere(t *testing.T) {
	for name, before := range map[string]string{
		"usual":       "",
		"tmin last":   "date,spot,note,tmin_c\n2026-04-01,bed,\"a, b\",1\n",
		"date last":   "spot;tmin_c;date\r\nbed;1,5;2026-04-01\r\n",
		"new heading": "tmin_c,date,spot\n1,2026-04-01,bed\n",
	} {
		whole, err := parse([]byte(before), "log.csv", logForm)
		require.NoError(t, err)
		e := reading(t, "2026-05-01", -12.75, "")
		if name == "new heading" {
			e.Note = "adds a column"
		}
		if name == "usual" {
			e.Forecast, e.Note = -2.25, "say 'when', please"
			text, err := whole.custom.addition(reading(t, "2026-04-01", 1, ""), logForm)
			require.NoError(t, err)
			before = text
			whole, err = parse([]byte(before), "log.csv", logForm)
			require.NoError(t, err)
		}
		text, err := whole.custom.addition(e, logForm)
		require.NoError(t, err)
		for cut := 1; cut < len(text); cut++ {
			l, err := parse([]byte(before+text[:cut]), "log.csv", logForm)
			require.NoError(t, err)
			stored := len(l.Entries) - len(whole.Entries)
			cutOffs := 0
			for _, f := range l.Faults {
				require.True(t, f.CutOff)
				cutOffs++
			}
			if stored == 1 { // only the line end is missing
				require.Zero(t, cutOffs, text[:cut])
				got := l.Entries[len(l.Entries)-1]
				require.Equal(t, e.Tmin, got.Tmin)
				require.Equal(t, e.Day, got.Day)
				require.Equal(t, e.Note, got.Note)
			} else if whole := name == "new heading" && (strings.HasSuffix(text[:cut], "\"\n") || cut > 20 && strings.HasSuffix(text[:cut], "note\"")); whole {
				require.Zero(t, cutOffs, "%q: the heading alone, whole", text[:cut])
			} else {
				require.Equal(t, 1, cutOffs, "%s %q", name, text[:cut])
			}
			next := reading(t, "2026-05-02", 7.5, "")
			more, err := l.custom.addition(next, logForm)
			require.NoError(t, err)
			after, err := parse([]byte(before+text[:cut]+more), "log.csv", logForm)
			require.NoError(t, err)
			require.Len(t, after.Entries, len(whole.Entries)+stored+1)
			require.Equal(t, 7.5, after.Entries[len(after.Entries)-1].Tmin)
			require.Len(t, after.Faults, cutOffs)
			require.True(t, strings.HasPrefix(before+text[:cut]+more, before+text[:cut]))
		}
	}
}

// failing is a log file on a disk that runs full, or breaks.
type failing struct {
	*os.File
	room     int // bytes that still fit
	sync     error
	truncate error
}

func (f failing) Write(b []byte) (int, error) {
	if len(b) <= f.room {
		return f.File.Write(b)
	}
	n, err := f.File.Write(b[:f.room])
	return n, errors.Join(err, &os.PathError{Op: "write", Path: "log.csv", Err: syscall.ENOSPC})
}

func (f failing) Sync() error {
	if f.sync != nil {
		return f.sync
	}
	return f.File.Sync()
}

func (f failing) Truncate(n int64) error {
	if f.truncate != nil {
		return f.truncate
	}
	return f.File.Truncate(n)
}

func TestFullDisk(t *testing.T) {
	for _, truncates := range []bool{true, false} {
		for room := 0; room < 20; room += 7 {
			path := filepath.Join(t.TempDir(), "log.csv")
			require.NoError(t, Append(path, reading(t, "2026-05-01", -1.5, "")))
			before := content(t, path)
			_, err := appendLocked(path, reading(t, "2026-05-02", 3, ""), logForm, func(p string) (file, error) {
				f, err := os.OpenFile(p, os.O_RDWR|os.O_APPEND, 0)
				ff := failing{File: f, room: room}
				if !truncates {
					ff.truncate = errors.New("broken")
				}
				return ff, err
			})
			require.ErrorContains(t, err, "nothing was logged: no space left on device")
			if truncates {
				require.Equal(t, before, content(t, path))
			}
			l, err := readFile(path)
			require.NoError(t, err)
			require.Len(t, l.Entries, 1)
			// Room again: the log goes on.
			require.NoError(t, Append(path, reading(t, "2026-05-02", 3, "")))
			l, err = readFile(path)
			require.NoError(t, err)
			require.Len(t, l.Entries, 2)
			require.True(t, strings.HasPrefix(content(t, path), before))
		}
	}
}

func TestSyncFails(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	_, err := appendLocked(path, reading(t, "2026-05-02", 3, ""), logForm, func(p string) (file, error) {
		f, err := os.OpenFile(p, os.O_RDWR|os.O_APPEND, 0)
		return failing{File: f, room: 1 << 20, sync: io.ErrUnexpectedEOF}, err
	})
	require.ErrorContains(t, err, "may not be stored: sync")
}

func TestReadOnly(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Log("as root, permissions stop nobody: a folder in the file's place is tried instead")
		path := filepath.Join(t.TempDir(), "log.csv")
		require.NoError(t, os.Mkdir(path, 0o755))
		require.ErrorContains(t, Append(path, reading(t, "2026-05-01", 1, "")), "is no plain file")
		return
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "log.csv")
	require.NoError(t, os.WriteFile(path, []byte("date,spot,tmin_c\n"), 0o444))
	require.NoError(t, os.Chmod(dir, 0o555))
	defer os.Chmod(dir, 0o755)
	require.ErrorContains(t, Append(path, reading(t, "2026-05-01", 1, "")), "permission denied")
	l, err := readFile(path) // reading needs no lock
	require.NoError(t, err)
	require.Empty(t, l.Entries)
}

// A spreadsheet puts another file in the log's place while a line is being written:
// the reading is in the new one when Append returns.
func TestFileReplacedMeanwhile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, Append(path, reading(t, "2026-05-01", -1.5, "")))
	saved := content(t, path)
	replace := func(p string) (file, error) {
		f, err := os.OpenFile(p, os.O_RDWR|os.O_APPEND, 0)
		require.NoError(t, os.WriteFile(p+".new", []byte(saved), 0o644))
		require.NoError(t, os.Rename(p+".new", p))
		return f, err
	}
	moved, err := appendLocked(path, reading(t, "2026-05-02", 3, ""), logForm, replace)
	require.NoError(t, err)
	require.True(t, moved, "the caller is told to write it again")
	vanish := func(p string) (file, error) {
		f, err := os.OpenFile(p, os.O_RDWR|os.O_APPEND, 0)
		require.NoError(t, os.Remove(p))
		return f, err
	}
	moved, err = appendLocked(path, reading(t, "2026-05-02", 3, ""), logForm, vanish)
	require.NoError(t, err)
	require.True(t, moved)
	require.NoError(t, Append(path, reading(t, "2026-05-02", 3, "")), "a vanished log is begun anew")
	l, err := readFile(path)
	require.NoError(t, err)
	require.Len(t, l.Entries, 1)
}

func TestLockIsHeld(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	lock := flock.New(deliver.LockName(path))
	require.NoError(t, lock.Lock())
	done := make(chan error)
	go func() { done <- Append(path, reading(t, "2026-05-01", 1, "")) }()
	select {
	case <-done:
		t.Fatal("written through another's lock")
	default:
	}
	require.NoError(t, lock.Unlock())
	require.NoError(t, <-done)
}

// Readers and writers at once: a reader never sees a fault, nor fewer readings than
// before.
func TestReadWhileGrowing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, Append(path, reading(t, "2026-01-01", 0, "")))
	const writers, each = 2, 40
	var wg sync.WaitGroup
	for w := range writers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range each {
				e := NewEntry(climate.NewDay(2026, 1, 1)+climate.Day(i), fmt.Sprint("spot ", w))
				e.Tmin = float64(i)
				if err := Append(path, e); err != nil {
					t.Error(err)
				}
			}
		}()
	}
	stop := make(chan struct{})
	go func() { wg.Wait(); close(stop) }()
	for seen := 0; ; {
		l, err := readFile(path)
		require.NoError(t, err)
		require.Empty(t, l.Faults)
		require.GreaterOrEqual(t, len(l.Entries), seen)
		seen = len(l.Entries)
		select {
		case <-stop:
			l, err := readFile(path)
			require.NoError(t, err)
			require.Len(t, l.Entries, 1+writers*each)
			return
		default:
		}
	}
}

package batch

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/klauspost/compress/zstd"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/crops"
)

// silent counts what a run reports.
type silent struct {
	stations []string
	failed   int
	before   int
	each     func()
}

func (s *silent) Begin(_ int64, _, before int) { s.before = before }
func (s *silent) Read(int64)                   {}
func (s *silent) Station(id, _, status, _ string) {
	s.stations = append(s.stations, id)
	if status == failedStatus {
		s.failed++
	}
	if s.each != nil {
		s.each()
	}
}

// settings are small ones, for speed.
func settings(t *testing.T) Settings {
	s := Settings{Thresholds: []float64{-2, 0.5}, From: 100, To: 140, Aim: 0.8, Latitude: math.NaN(), ByDay: true}
	for _, name := range []string{"courgette", "French bean, dwarf", "lettuce, main", "radish"} {
		c, err := crops.Builtin().Find(name, "")
		require.NoError(t, err)
		s.Crops = append(s.Crops, Crop{c, PlantedOut(c)})
	}
	return s
}

// keyed is an invented file's text as GHCN-Daily's by-year layout has it.
func keyed(id string, file []byte) []byte {
	var b bytes.Buffer
	for _, line := range strings.Split(strings.TrimSpace(string(file)), "\n")[1:] {
		f := strings.Split(line, ",")
		var lo, hi float64
		fmt.Sscan(f[1], &lo)
		fmt.Sscan(f[2], &hi)
		day := strings.ReplaceAll(f[0], "-", "")
		fmt.Fprintf(&b, "%s,%s,TMAX,%.0f,,,S,\n%s,%s,PRCP,5,,,S,\n%s,%s,TMIN,%.0f,,,S,\n", id, day, hi*10, id, day, id, day, lo*10)
	}
	return b.Bytes()
}

// folder makes a folder with stations in every kind of source, and returns it.
func folder(t *testing.T) string {
	dir := t.TempDir()
	write := func(name string, b []byte) {
		p := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(p), 0o755))
		require.NoError(t, os.WriteFile(p, b, 0o644))
	}
	for k := range 3 {
		write(fmt.Sprintf("plain/p%d.csv", k), inventedFile(uint64(k), 8))
	}
	write("broken.csv", []byte("date,tmin_c,tmax_c\nyesterday,cold,warm\n"))
	write("README", []byte("nothing to read here\n"))
	write(".hidden.csv", inventedFile(9, 8))
	var long []byte
	for k := range 4 {
		long = append(long, keyed(fmt.Sprintf("KEY%08d", k), inventedFile(uint64(10+k), 8))...)
	}
	write("long.csv", long)
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	w := tar.NewWriter(z)
	for k := range 2 {
		text := inventedFile(uint64(20+k), 8)
		require.NoError(t, w.WriteHeader(&tar.Header{Name: fmt.Sprintf("all/t%d.csv", k), Mode: 0o644, Size: int64(len(text)), ModTime: time.Unix(1e9, 0)}))
		_, err := w.Write(text)
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	require.NoError(t, z.Close())
	write("many.tar.gz", packed.Bytes())
	return dir
}

func runIt(t *testing.T, o Options) ([]byte, Summary, error) {
	if o.Watch == nil {
		o.Watch = &silent{}
	}
	if o.Workers == 0 {
		o.Workers = 2
	}
	if len(o.Crops) == 0 {
		o.Settings = settings(t)
	}
	sum, err := Run(context.Background(), o)
	if err != nil {
		return nil, sum, err
	}
	b, err := os.ReadFile(o.Output)
	require.NoError(t, err)
	return b, sum, nil
}

// sameBytes shows the first row that differs, cut short.
func sameBytes(t *testing.T, want, got []byte, what string) {
	t.Helper()
	if bytes.Equal(want, got) {
		return
	}
	a, b := strings.Split(string(want), "\n"), strings.Split(string(got), "\n")
	for i := range max(len(a), len(b)) {
		x, y := "nothing", "nothing"
		if i < len(a) {
			x = a[i]
		}
		if i < len(b) {
			y = b[i]
		}
		if x != y {
			t.Fatalf("%s: row %d differs:\n%.150s\n%.150s", what, i, x, y)
		}
	}
}

// The same stations give the same bytes, for any number of workers, any order of files, any
// size of the pieces a long file is cut into.
func TestSameBytes(t *testing.T) {
	dir, out := folder(t), t.TempDir()
	want, sum, err := runIt(t, Options{Args: []string{dir}, Output: filepath.Join(out, "a.csv"), Workers: 1})
	require.NoError(t, err)
	assert.Equal(t, Summary{Sources: 7, Stations: 11, Done: 9, Failed: 2, Assumed: 9}, sum)
	for k, o := range []Options{{Workers: 2}, {Workers: 5}, {Workers: 3, chunkSize: 1}, {Workers: 2, chunkSize: 1 << 16}} {
		o.Args, o.Output = []string{dir}, filepath.Join(out, fmt.Sprintf("b%d.csv", k))
		got, _, err := runIt(t, o)
		require.NoError(t, err)
		sameBytes(t, want, got, fmt.Sprintf("%+v", o.Workers))
		assert.NoDirExists(t, partName(o.Output))
	}
	files := func(order ...string) []string {
		for i := range order {
			order[i] = filepath.Join(dir, order[i])
		}
		return order
	}
	one, _, err := runIt(t, Options{Args: files("long.csv", "plain/p0.csv", "many.tar.gz"), Output: filepath.Join(out, "c.csv")})
	require.NoError(t, err)
	two, _, err := runIt(t, Options{Args: files("many.tar.gz", "long.csv", "plain/p0.csv"), Output: filepath.Join(out, "d.csv")})
	require.NoError(t, err)
	sameBytes(t, one, two, "order")
}

// A row has every field of the header, the same in both formats, packed or not.
func TestFormatsHaveTheSameFields(t *testing.T) {
	dir, out := folder(t), t.TempDir()
	args := []string{dir}
	plain, _, err := runIt(t, Options{Args: args, Output: filepath.Join(out, "a.csv")})
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(plain)).ReadAll() // fails where a row is short
	require.NoError(t, err)
	set := settings(t)
	require.Equal(t, set.columns(), rows[0])
	seen := map[string]bool{}
	for _, c := range rows[0] {
		require.False(t, seen[c], c)
		seen[c] = true
	}

	packed, _, err := runIt(t, Options{Args: args, Output: filepath.Join(out, "a.jsonl.zst")})
	require.NoError(t, err)
	z, err := zstd.NewReader(nil)
	require.NoError(t, err)
	text, err := z.DecodeAll(packed, nil)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	require.Len(t, lines, len(rows)-1)
	for i, line := range lines {
		var fields map[string]any
		require.NoError(t, json.Unmarshal([]byte(line), &fields))
		require.Len(t, fields, len(rows[0]))
		for k, name := range rows[0] {
			want := rows[i+1][k]
			switch v := fields[name].(type) {
			case nil:
				assert.Empty(t, want, name)
			case string:
				assert.Equal(t, want, v, name)
			case float64:
				var f float64
				_, err := fmt.Sscan(want, &f)
				require.NoError(t, err, name)
				assert.Equal(t, f, v, name)
			}
		}
	}
}

// A broken file has a row that says why, and the others are done.
func TestFailuresAreTold(t *testing.T) {
	dir := folder(t)
	w := &silent{}
	b, _, err := runIt(t, Options{Args: []string{dir}, Output: filepath.Join(t.TempDir(), "a.csv"), Watch: w})
	require.NoError(t, err)
	assert.Equal(t, 2, w.failed)
	assert.Contains(t, string(b), "broken,broken.csv,failed,")
	assert.NotContains(t, string(b), dir, "where the folder lies is no part of the result")
	assert.NotContains(t, string(b), "hidden")
}

// A fault of the program in one station is its loss only.
func TestGuard(t *testing.T) {
	err := guard(func() { panic("no such day") })
	require.ErrorContains(t, err, "no such day")
}

func TestHemisphereByTheWarmerHalf(t *testing.T) {
	dir := t.TempDir()
	north := inventedFile(1, 8)
	var south bytes.Buffer
	for _, line := range strings.Split(string(north), "\n") {
		if at, err := time.Parse(time.DateOnly, strings.SplitN(line, ",", 2)[0]); err == nil {
			line = at.AddDate(0, 6, 0).Format(time.DateOnly) + line[10:]
		}
		south.WriteString(line + "\n")
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "n.csv"), north, 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "s.csv"), south.Bytes(), 0o644))
	b, _, err := runIt(t, Options{Args: []string{dir}, Output: filepath.Join(t.TempDir(), "a.csv")})
	require.NoError(t, err)
	assert.Contains(t, string(b), "\nn,n.csv,done,,,50.0000,assumed,")
	assert.Contains(t, string(b), "\ns,s.csv,done,,,-50.0000,assumed,")
}

func TestPlacesAndOption(t *testing.T) {
	dir := t.TempDir()
	for _, n := range []string{"a", "b"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, n+".csv"), inventedFile(1, 8), 0o644))
	}
	set := settings(t)
	set.Latitude = 55
	set.Places = map[string]Place{"a": {Name: "=A place", Latitude: 60.5, Longitude: nan, Elevation: 12}}
	b, _, err := runIt(t, Options{Settings: set, Args: []string{dir}, Output: filepath.Join(t.TempDir(), "a.csv")})
	require.NoError(t, err)
	assert.Contains(t, string(b), "\na,a.csv,done,,'=A place,60.5000,places,,12.0,")
	assert.Contains(t, string(b), "\nb,b.csv,done,,,55.0000,option,,,")
}

func TestWrongOutputName(t *testing.T) {
	_, _, err := runIt(t, Options{Args: []string{t.TempDir()}, Output: filepath.Join(t.TempDir(), "a.txt")})
	require.ErrorContains(t, err, "wanted .csv or .jsonl")
}

func TestTwoFilesOfOneName(t *testing.T) {
	dir := t.TempDir()
	for _, n := range []string{"x", "y"} {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, n), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, n, "a.csv"), inventedFile(1, 2), 0o644))
	}
	_, _, err := runIt(t, Options{Args: []string{filepath.Join(dir, "x"), filepath.Join(dir, "y")}, Output: filepath.Join(dir, "a.csv")})
	require.ErrorContains(t, err, `both be called "a.csv"`)
}

// What is doubtful is counted by the value: a day of two noughts is two.
func TestDoubtfulValues(t *testing.T) {
	plain := inventedFile(3, 8)
	a, z := bytes.Index(plain, []byte("1964-06-01")), bytes.Index(plain, []byte("1964-06-02"))
	noughts := slices.Concat(plain[:a], []byte("1964-06-01,0.0,0.0\n"), plain[z:])
	doubtful := func(text []byte) int {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "a.csv"), text, 0o644))
		b, _, err := runIt(t, Options{Args: []string{dir}, Output: filepath.Join(dir, "out.csv")})
		require.NoError(t, err)
		rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 2)
		n, err := strconv.Atoi(rows[1][slices.Index(rows[0], "doubtful")])
		require.NoError(t, err)
		return n
	}
	assert.Equal(t, doubtful(plain)+2, doubtful(noughts))
}

// A folder of many files is walked in order of name, a page at a time, each file once.
func TestPagesOfAFolder(t *testing.T) {
	dir := t.TempDir()
	var want []string
	for k := range 40 {
		name := fmt.Sprintf("%02d.csv", (k*17)%40)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o644))
		want = append(want, name)
	}
	slices.Sort(want)
	for _, size := range []int{1, 7, 40, 41, 1000} {
		var got []string
		for after := ""; ; after = got[len(got)-1] {
			page, err := pageOf(dir, after, size)
			require.NoError(t, err)
			if got = append(got, page...); len(page) < size {
				break
			}
		}
		assert.Equal(t, want, got, size)
	}
}

package daily

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// endless repeats a text for a number of bytes, in no memory.
type endless struct {
	text string
	left int64
	at   int
}

func (e *endless) Read(p []byte) (int, error) {
	n := 0
	for n < len(p) && e.left > 0 {
		c := copy(p[n:], e.text[e.at:])
		c = min(c, int(e.left))
		e.at = (e.at + c) % len(e.text)
		n += c
		e.left -= int64(c)
	}
	if n == 0 {
		return 0, io.EOF
	}
	return n, nil
}

// readBounded reads, and fails where that took more memory than a reader has any
// business with: its table, its blocks and the decompressor's window.
func readBounded(t *testing.T, r io.Reader, opts Options) (Report, error) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, rep, err := Read(r, "x", opts)
	runtime.ReadMemStats(&after)
	if !racing {
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(40<<20), "bytes allocated")
	}
	return rep, err
}

func TestGiantLine(t *testing.T) {
	_, err := readBounded(t, &endless{text: "x", left: 1 << 26}, Options{})
	require.ErrorContains(t, err, "x:1: a line of more than 262144 bytes")

	rows := "date,tmin_c,tmax_c\n2001-01-01,1,9\n"
	r := io.MultiReader(strings.NewReader(rows), &endless{text: "2001-01-02,1,9 ", left: 1 << 26}, strings.NewReader("\n2001-01-03,2,8\n"))
	rep, err := readBounded(t, r, Options{})
	require.NoError(t, err)
	assert.Equal(t, 2, rep.Days)
	require.Equal(t, 1, rep.FaultCount)
	assert.Equal(t, 3, rep.Faults[0].Line)
	assert.Less(t, len(rep.Faults[0].Error()), 200)
}

func TestMillionColumns(t *testing.T) {
	rows := "date,tmin_c,tmax_c\n2001-01-01,1,9\n2001-01-02,3,4" + strings.Repeat(",5", 1e6) + "\n2001-01-03,2,8\n"
	rep, err := readBounded(t, strings.NewReader(rows), Options{})
	require.NoError(t, err)
	assert.Equal(t, 2, rep.Days)
	assert.Equal(t, 1, rep.FaultCount)

	// A header of as many columns as a line may hold is read, if slowly.
	wide := "date,tmin_c,tmax_c" + strings.Repeat(",x", 1e5) + "\n"
	rep, err = readBounded(t, strings.NewReader(wide+"2001-01-01,1,9"+strings.Repeat(",", 1e5)+"\n"), Options{})
	require.NoError(t, err)
	assert.Equal(t, 1, rep.Days)
}

func TestBombs(t *testing.T) {
	gz := func(text string, n int64) []byte {
		var b bytes.Buffer
		z, _ := gzip.NewWriterLevel(&b, gzip.BestSpeed)
		io.Copy(z, &endless{text: text, left: n})
		z.Close()
		return b.Bytes()
	}
	zs := func(text string, n int64) []byte {
		var b bytes.Buffer
		z, _ := zstd.NewWriter(&b, zstd.WithEncoderLevel(zstd.SpeedFastest), zstd.WithEncoderConcurrency(1))
		io.Copy(z, &endless{text: text, left: n})
		z.Close()
		return b.Bytes()
	}
	row := "2001-01-01,1,9\n"
	for name, c := range map[string]struct {
		data []byte
		opts Options
		want string
	}{
		"gzip of zeros":     {gz("\x00", 80<<20), Options{}, "more than 262144 bytes"},
		"zstd of zeros":     {zs("\x00", 80<<20), Options{}, "more than 262144 bytes"},
		"zstd of rows":      {zs("date,tmin_c,tmax_c\n"+row, 80<<20), Options{}, "is no weather record"},
		"gzip beyond limit": {gz("date,tmin_c,tmax_c\n"+row, 10<<20), Options{MaxBytes: 5 << 20}, "gzip: unpacks to more than the limit of 5242880 bytes"},
		"zstd beyond limit": {zs("date,tmin_c,tmax_c\n"+row, 10<<20), Options{MaxBytes: 5 << 20}, "zstd: unpacks to more than the limit"},
	} {
		_, err := readBounded(t, bytes.NewReader(c.data), c.opts)
		assert.ErrorContains(t, err, c.want, name)
	}
	// Twice packed is not unpacked twice.
	_, err := readBounded(t, bytes.NewReader(func() []byte {
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		z.Write(gz(row, 1000))
		z.Close()
		return b.Bytes()
	}()), Options{})
	assert.Error(t, err)
}

// failing gives some bytes and then an error, as a disk or a pipe may.
type failing struct{ r io.Reader }

var errDisk = errors.New("input/output error")

func (f failing) Read(p []byte) (int, error) {
	n, err := f.r.Read(p)
	if err == io.EOF {
		err = errDisk
	}
	return n, err
}

func TestReadErrorIsNotAnEnd(t *testing.T) {
	_, _, err := Read(failing{strings.NewReader("date,tmin_c,tmax_c\n2001-01-01,1,9\n")}, "x", Options{})
	require.ErrorIs(t, err, errDisk)
	_, _, err = Read(failing{strings.NewReader("")}, "x", Options{})
	require.ErrorIs(t, err, errDisk)
}

func TestFaultsAreCapped(t *testing.T) {
	var b strings.Builder
	b.WriteString("date,tmin_c,tmax_c\n2001-01-01,1,9\n")
	for range 10000 {
		fmt.Fprintln(&b, "2001-01-02,x,y")
	}
	_, rep, err := Read(strings.NewReader(b.String()), "x", Options{})
	require.NoError(t, err)
	assert.Equal(t, 10000, rep.FaultCount)
	assert.Len(t, rep.Faults, defaultMaxFaults)
}

func TestFutureDays(t *testing.T) {
	const rows = "date,tmin_c,tmax_c\n2001-01-01,1.0,9.0\n2001-01-02,1.0,9.0\n2001-01-03,1.0,9.0\n2001-02-01,1.0,9.0\n"
	_, rep, err := Read(strings.NewReader(rows), "x", Options{Until: mustDay("2001-01-02")})
	require.NoError(t, err)
	assert.Equal(t, 2, rep.Days)
	require.Equal(t, 2, rep.FaultCount)
	assert.Equal(t, `x:4: date: "2001-01-03" is in the future; wanted a day up to 2001-01-02`, rep.Faults[0].Error())
}

package daily

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
)

// plainRows makes rows of date,tmin,tmax from 1900 on, over and over, as a large file
// must. Values depend on the date, or on the row too, so that all days clash.
func plainRows(size int, clash bool) []byte {
	rng := rand.New(rand.NewPCG(1, 2))
	var b bytes.Buffer
	b.Grow(size + 64)
	b.WriteString("date,tmin_c,tmax_c\n")
	first := int(mustDay("1900-01-01"))
	n := int(mustDay("2025-12-31")) - first + 1
	row := make([]string, n)
	for i := 0; b.Len() < size; i++ {
		k := i % n
		if clash || row[k] == "" {
			lo := rng.Float64()*45 - 20
			row[k] = fmt.Sprintf("%s,%.1f,%.1f\n", dayOffset(first+k), lo, lo+1+rng.Float64()*18)
		}
		b.WriteString(row[k])
	}
	return b.Bytes()
}

// BenchmarkReadRecord reads one real record of each layout.
func BenchmarkReadRecord(b *testing.B) {
	for _, name := range []string{"boulder-daily-c.csv", "boulder-daily-f.txt", "ghcnd-USW00003870.dly",
		"ghcnd-access-USW00004848.csv", "knmi-daily-283.txt", "seattle-weather.csv"} {
		b.Run(name, func(b *testing.B) {
			data, err := io.ReadAll(shared(b, name))
			if err != nil {
				b.Fatal(err)
			}
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			for b.Loop() {
				if _, _, err := Read(bytes.NewReader(data), name, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkReadPlain(b *testing.B) {
	for _, clash := range []bool{false, true} {
		data := plainRows(64<<20, clash)
		b.Run(fmt.Sprintf("clash=%v", clash), func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			for b.Loop() {
				if _, rep, err := Read(bytes.NewReader(data), "x", Options{}); err != nil && !strings.Contains(err.Error(), "no day") || rep.Rows == 0 && !clash {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(bytes.Count(data, []byte{'\n'})), "ns/row")
		})
	}
}

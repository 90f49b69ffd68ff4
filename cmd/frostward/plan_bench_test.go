package main

import (
	"io"
	"strings"
	"testing"

	"frostward/climate"
)

// plan on the built-in garden, from arguments to output, by each way.
func BenchmarkPlan(b *testing.B) {
	for _, way := range []string{"record", "weather"} {
		b.Run(way, func(b *testing.B) {
			for b.Loop() {
				w := world{in: strings.NewReader(""), out: io.Discard, err: io.Discard, getenv: func(string) string { return "" },
					today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
				if status := run(w, []string{"plan", "--by", way}); status != exitDone {
					b.Fatal("status ", status)
				}
			}
		})
	}
}

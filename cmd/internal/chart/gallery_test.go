package chart_test

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"frostward/cmd/internal/chart"
)

// TestGallery writes all samples into one HTML file to be looked at, when
// FROSTWARD_GALLERY names it.
func TestGallery(t *testing.T) {
	path := os.Getenv("FROSTWARD_GALLERY")
	if path == "" {
		t.Skip("FROSTWARD_GALLERY does not name a file to write")
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "<!doctype html><meta charset=utf-8><style>body{margin:8px;background:#888}div{display:flex;flex-wrap:wrap;gap:8px}\n%s</style>", chart.DarkStyle(".dark"))
	for i, class := range []string{"light", "dark"} {
		fmt.Fprintf(&b, "<div class=%s>", class)
		for _, name := range []string{"curves", "window", "fan", "scatter", "reliability", "season"} {
			b.Write(samples[name].SVG(fmt.Sprint(name, i), chart.Narrow))
		}
		b.Write(samples["season"].SVG(fmt.Sprint("wide", i), chart.Wide))
		b.WriteString("</div>")
	}
	if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
}

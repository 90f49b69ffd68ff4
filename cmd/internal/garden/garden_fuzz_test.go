package garden

import (
	"fmt"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/goccy/go-yaml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/cmd/internal/demo"
)

// FuzzGarden reads any bytes as a garden.yaml: no panic, and what is accepted is the same when
// written and read again.
func FuzzGarden(f *testing.F) {
	own, err := demo.Files().Open(File)
	require.NoError(f, err)
	text := make([]byte, maxSettings)
	n, _ := own.Read(text)
	f.Add(text[:n])
	for _, s := range []string{
		"latitude: 50\n",
		"\ufefflatitude: 50\r\nname: \"\\u0000\"\r\n",
		"latitude: .inf\n", "latitude: 0x32\n", "latitude: 5_0\n", "latitude: '50'\n",
		"latitude: 50\nspots: [{name: a, kind: open bed}]\ncovers: [{name: x, gain: 2, spread: 1}]\n",
		"latitude: &a 50\nlongitude: *a\n",
		"latitude: 50\nspots: &a [*a]\n",
		"<<: {latitude: 50}\n",
		"latitude: 50\n---\nlatitude: 60\n",
		"latitude: 50\naim: 0.5\ncosts: {cover: 1, set_back: 1, lost: 1}\n",
		"latitude: [", "{", "!!binary x", "? latitude\n: 50\n",
		bomb(3),
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		g, err := Parse(b, "garden.yaml")
		if err != nil {
			if !strings.HasPrefix(err.Error(), "garden.yaml:") {
				t.Errorf("the error does not begin with its place: %v", err)
			}
			return
		}
		out, err := yaml.Marshal(g)
		if err != nil {
			t.Fatalf("accepted, and cannot be written: %v", err)
		}
		out = notGiven.ReplaceAll(out, nil)
		again, err := Parse(out, "again.yaml")
		if err != nil {
			t.Fatalf("accepted, and not when written again: %v\n%s", err, out)
		}
		twice, err := yaml.Marshal(again)
		if a, b := string(out), string(notGiven.ReplaceAll(twice, nil)); err != nil || a != b {
			t.Fatalf("not the same when written and read again:\n%s\n%s", a, b)
		}
	})
}

// notGiven are the lines that no file has: a number not given is NaN.
var notGiven = regexp.MustCompile(`(?m)^.*: \.nan\n`)

// bomb is a file in which each level names the one below nine times over.
func bomb(levels int) string {
	var b strings.Builder
	b.WriteString("latitude: 50\nspots:\n- &a0 {name: a, kind: open bed}\n")
	for i := 1; i <= levels; i++ {
		fmt.Fprintf(&b, "- &a%d [%s*a%d]\n", i, strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 8), i-1)
	}
	return b.String()
}

// Hostile files are refused soon and without much memory: aliases that multiply, in and out of
// known keys, deep nesting, and a file that is too long.
func TestHostileGardens(t *testing.T) {
	elsewhere := strings.NewReplacer("latitude: 50\nspots:", "x:").Replace(bomb(30))
	merged := "a0: &a0 {name: a}\n"
	for i := 1; i < 40; i++ {
		merged += fmt.Sprintf("a%d: &a%d {x: *a%d, y: *a%d, z: *a%d}\n", i, i, i-1, i-1, i-1)
	}
	names := "latitude: 50\nname: &n " + strings.Repeat("x", 900) + "\nspots:\n" + strings.Repeat("- {name: *n, kind: *n}\n", 2_000)
	for name, text := range map[string]string{
		"bomb":          bomb(30),
		"bomb outside":  elsewhere,
		"mapping bomb":  merged,
		"long names":    names,
		"deep flow":     "latitude: " + strings.Repeat("[\n", 30_000),
		"deep flow map": "latitude: " + strings.Repeat("{a:\n", 15_000),
		"deep block":    deepBlock(350),
		"dashes":        strings.Repeat("- ", 490),
		"questions":     strings.Repeat("? ", 490),
		"quotes":        "name: \"" + strings.Repeat("\\", 900),
		"anchors":       strings.Repeat("&a\n", 20_000),
		"long line":     "name: " + strings.Repeat("x", 2000),
		"many spots":    "latitude: 50\nspots:\n" + strings.Repeat("- {name: n, kind: k}\n", 3_000),
		"bars":          strings.Repeat("a: |\n", 13_000),
		"itself":        "spots: &a [*a]\nlatitude: 50\n",
		"no number":     "latitude: 50\ncosts: {cover: .nan}\n",
		"infinity":      "latitude: 50\ncovers: [{name: a, gain: -.inf}]\n",
		"half a piece":  "latitude: 50\ncovers: [{name: a, pieces: 2.5}]\n",
		"too long":      strings.Repeat("#\n", maxSettings/2+1),
	} {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			_, err := Parse([]byte(text), "garden.yaml")
			runtime.ReadMemStats(&after)
			require.Error(t, err)
			assert.Less(t, len(err.Error()), 4000, "the message is one a person can read")
			taken := after.TotalAlloc - before.TotalAlloc
			t.Logf("%v, %d MB, %.80s", time.Since(start).Round(time.Millisecond), taken>>20, err.Error())
			assert.Less(t, taken, uint64(256<<20), "bytes allocated")
		})
	}
}

// deepBlock nests block mappings.
func deepBlock(levels int) string {
	var b strings.Builder
	for i := range levels {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

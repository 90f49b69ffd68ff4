//go:build browser

package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/cmd/internal/browsertest"
)

// The whole way as a grower goes it, in a real browser, at a desk's and a telephone's width.
func TestGardenInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	for _, width := range []int{1280, 390} {
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			r := serveGarden(t, true, "")
			tab := open(t, width, width == 390)
			visit := func(name string) {
				t.Helper()
				tab.Shot(fmt.Sprintf("own-%s-%d", name, width))
				tab.Accessible()
			}
			tab.Open(r.url + "/")
			assert.Contains(t, tab.Text("h1"), "Sallow Yard")
			visit("garden")

			tab.Click(`nav a[href="/log"]`)
			browsertest.Eval[bool](tab, "document.querySelector('#morning details').open = true")
			tab.Fill("#date", "2026-05-17")
			tab.Type("#tmin", "-1.5")
			visit("log")
			tab.Click("#morning button")
			assert.Contains(t, tab.Text("[role=status]"), "The reading is in the log")
			log, err := os.ReadFile(filepath.Join(r.dir, "log.csv"))
			require.NoError(t, err)
			assert.Contains(t, string(log), `"2026-05-17",open bed,-1.5,`)

			// An evening with a clear sky and a low forecast brings a warning to the page.
			tab.Fill("#forecast", "-1")
			tab.Fill("#cloud", "clear")
			tab.Fill("#wind", "calm")
			tab.Click("#evening button")
			assert.Contains(t, tab.Text("[role=status]"), "The evening is in the log")
			tab.Click(`nav a[href="/"]`)
			assert.Contains(t, tab.Text(".headline"), "Cover early courgettes")
			visit("warned")

			tab.Click(`nav a[href="/try"]`)
			tab.Fill("#crop", "courgette")
			tab.Fill("#date", "2026-05-08")
			tab.Fill("#cover", "fleece")
			tab.Click(`form[action="/try"] button`)
			assert.Contains(t, tab.Text("#answer"), "under fleece: if it goes out on 8 May it survives and ripens in")
			visit("try")

			tab.Click(`nav a[href="/plantings"]`)
			browsertest.Eval[bool](tab, "document.querySelectorAll('details').forEach(d => d.open = true), true")
			tab.Click(`button[value="planted out"]`)
			assert.Contains(t, tab.Text("[role=status]"), "It is in the diary")
			assert.Contains(t, tab.Text("main"), "planted out on 17 May 2026")
			visit("plantings")
			tab.Open(r.url + "/")
			tab.Clean(r.url)
			require.NoError(t, r.stop())
		})
	}
}

// The page as a file, with hostile names in its plan.
func TestPageFileInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	dir := filepath.Join(t.TempDir(), "g")
	discard := io.Discard
	w := world{out: discard, err: discard, getenv: os.Getenv, today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	require.Equal(t, 0, run(w, []string{"start", dir}))
	hostile := `<script>document.title="owned"</script>`
	require.NoError(t, os.WriteFile(filepath.Join(dir, "plan.csv"), []byte("name,crop,plant_out\n"+`"<script>document.title=""owned""</script>"`+",courgette,05-24\n"), 0o666))
	file := filepath.Join(dir, "garden.html")
	require.Equal(t, 0, run(w, []string{"page", "--garden", dir, "-o", file}))
	for _, width := range []int{1280, 390} {
		tab := open(t, width, false)
		tab.Open("file://" + file)
		tab.Shot(fmt.Sprintf("file-%d", width))
		assert.Equal(t, "Sallow Yard (invented)", browsertest.Eval[string](tab, "document.title"))
		assert.Contains(t, tab.Text("body"), hostile)
		tab.Accessible()
		tab.Clean("file://" + file)
	}
}

// Whatever the width, nothing of the page runs over its edge and no table cuts a word, also at
// twice the size of text and with all that folds opened.
func TestPageWidthsInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	file := filepath.Join(t.TempDir(), "garden.html")
	w := world{out: io.Discard, err: io.Discard, getenv: os.Getenv, today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	require.Equal(t, 0, run(w, []string{"page", "-o", file}))
	for _, width := range []int{320, 390, 600, 768, 1024, 1280} {
		tab := open(t, width, false)
		tab.Open("file://" + file)
		tab.Fits()
		browsertest.Eval[bool](tab, "document.querySelectorAll('details').forEach(d => d.open = true), true")
		tab.Fits()
		browsertest.Eval[bool](tab, "document.documentElement.style.fontSize = '200%', true")
		tab.Fits()
	}
}

// The sheet for the wall is one A4 page that cuts nothing off, with few plantings and many,
// the last of them named at length.
func TestSheetInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	for _, n := range []int{1, 15, 25} {
		dir := filepath.Join(t.TempDir(), "g")
		w := world{out: io.Discard, err: io.Discard, getenv: os.Getenv, today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
		require.Equal(t, 0, run(w, []string{"start", dir}))
		plan := "name,crop,class,spot,bed,plant_out\n"
		for i := range n - 1 {
			plan += fmt.Sprintf("courgettes number %d,courgette,,south wall,bed %d,05-24\n", i, i)
		}
		plan += "winter squash of a kind that has no short name,winter squash,early,south wall,the long bed,05-28\n"
		require.NoError(t, os.WriteFile(filepath.Join(dir, "plan.csv"), []byte(plan), 0o666))
		file := filepath.Join(dir, "sheet.html")
		require.Equal(t, 0, run(w, []string{"page", "--sheet", "--garden", dir, "-o", file}))
		tab := open(t, 1280, true)
		tab.Open("file://" + file)
		tab.Accessible()
		tab.Clean("file://" + file)
		pdf := tab.PDF()
		assert.Len(t, regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1), 1, "%d plantings: one page", n)
		// A4 is 210 by 297 mm (ISO 216), 595.3 by 841.9 points.
		assert.Regexp(t, `/MediaBox \[0 0 59[45][.0-9]* 84[12]`, string(pdf))
		tab = open(t, 703, false) // 186 mm, the width of A4 within its margins
		tab.Open("file://" + file)
		tab.Fits()
	}
}

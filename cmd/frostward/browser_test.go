//go:build browser

package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

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

// moved puts every date of a text half a year later, as its garden would have it on the other side of the equator.
func moved(text string) string {
	return regexp.MustCompile(`\b(\d{4}-)?\d\d-\d\d\b`).ReplaceAllStringFunc(text, func(s string) string {
		d, err := time.Parse("2006-01-02", "2026-"+s[len(s)-5:])
		if len(s) > 5 {
			d, err = time.Parse("2006-01-02", s)
		}
		if err != nil {
			return s
		}
		return d.AddDate(0, 0, 182).Format("2006-01-02")[10-len(s):]
	})
}

// gardens are five to look at, all invented: the built-in one, and what is changed in it for the others.
var gardens = []struct {
	name, asOf string
	change     func(name, text string) string
}{
	{"built-in", "2026-05-17", func(_, text string) string { return text }},
	{"many", "2026-05-17", func(name, text string) string {
		if name == "plan.csv" { // 25 plantings
			text += `carrots,carrot,,open bed,bed 13,04-20,,,,
parsnips,parsnip,,open bed,bed 14,04-10,,,,
onions from sets,onion,sets,open bed,bed 15,04-01,,,,
garlic,garlic,,open bed,bed 16,10-20,,,,
peas,pea,,open bed,bed 17,04-05,,,,again 21 days later
broad beans,broad bean,,open bed,bed 18,03-20,,,,
a lettuce with a name of more than forty letters in all,lettuce,,open bed,bed 19,03-20,05-12,,,again 14 days later
cucumbers,cucumber,,glasshouse,bench 2,04-20,05-28,,,
chillies,chilli,,glasshouse,bench 3,02-20,05-25,,,
pumpkins,pumpkin,,south wall,bed 20,04-25,05-28,fleece,,4 plants until 06-12
`
		}
		return text
	}},
	{"no-log", "2026-05-17", func(name, text string) string {
		if name == "log.csv" {
			text, _, _ = strings.Cut(text, "\n")
		}
		return text
	}},
	{"south-f", "2026-11-15", func(name, text string) string {
		if name != "garden.yaml" {
			return moved(text)
		}
		return strings.NewReplacer("latitude: 53.6", "latitude: -43.6", "# show: f", "show: f").Replace(text)
	}},
	{"january", "2026-01-15", func(name, text string) string {
		if name == "plan.csv" { // nothing that stands the winter
			text = regexp.MustCompile(`(?m)^(leeks|sprouts|winter kale),.*\n`).ReplaceAllString(text, "")
		}
		return text
	}},
}

// Five gardens, at every width, by day and by night: nothing of the page runs over its edge and no table cuts a word,
// also at twice the size of text and with all that folds opened; axe-core finds nothing; °F is shown throughout where asked for.
func TestFiveGardensInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	for _, g := range gardens {
		t.Run(g.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "g")
			w := world{out: io.Discard, err: io.Discard, getenv: os.Getenv, today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
			require.Equal(t, 0, run(w, []string{"start", dir}))
			for _, name := range []string{"garden.yaml", "plan.csv", "record.csv", "log.csv"} {
				b, err := os.ReadFile(filepath.Join(dir, name))
				require.NoError(t, err)
				require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(g.change(name, string(b))), 0o666))
			}
			file := filepath.Join(dir, "garden.html")
			require.Equal(t, 0, run(w, []string{"page", "--garden", dir, "--as-of", g.asOf, "-o", file}))
			for _, width := range []int{320, 390, 600, 768, 1024, 1280} {
				for _, dark := range []bool{false, true} {
					name := fmt.Sprintf("%s-%d%s", g.name, width, map[bool]string{true: "-dark"}[dark])
					tab := open(t, width, dark)
					tab.Open("file://" + file)
					tab.Shot(name)
					tab.Clean("file://" + file)
					tab.Accessible()
					browsertest.Eval[bool](tab, "document.querySelectorAll('details').forEach(d => d.open = true), true")
					tab.Fits()
					browsertest.Eval[bool](tab, "document.documentElement.style.fontSize = '200%', true")
					tab.Fits()
					if g.name == "south-f" {
						browsertest.Eval[bool](tab, "document.querySelector('#sources').remove(), true") // sources are cited in their own unit
						assert.NotContains(t, browsertest.Eval[string](tab, "document.body.textContent"), "°C")
					}
				}
			}
		})
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

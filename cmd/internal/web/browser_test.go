//go:build browser

package web_test

import (
	"bytes"
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/cmd/internal/browsertest"
	"frostward/cmd/internal/page"
	pages "frostward/cmd/internal/page/sample"
	"frostward/cmd/internal/web"
)

// screens are a desk's, a telephone's and a small telephone's.
var screens = []int{1280, 390, 320}

// The page as a file: nothing asked for, nothing in the console, hostile names as text.
func TestPageFileInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	file := filepath.Join(t.TempDir(), "garden.html")
	var b bytes.Buffer
	require.NoError(t, page.Write(&b, pages.View(), page.Options{}))
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o666))
	for _, width := range screens {
		for _, dark := range []bool{false, true} {
			name := fmt.Sprintf("page-%d-dark-%v", width, dark)
			t.Run(name, func(t *testing.T) {
				tab := open(t, width, dark)
				tab.Open("file://" + file)
				tab.Shot(name)
				assert.Equal(t, "Garden behind the mill", browsertest.Eval[string](tab, "document.title"))
				assert.Contains(t, tab.Text("body"), hostile)
				shown := browsertest.Eval[float64](tab, "getComputedStyle(document.querySelector('.lead')).fontSize.replace('px','') * 1")
				assert.Greater(t, shown, 16.0, "the policy lets the style sheet work")
				tab.Clean("file://" + file)
				tab.Fits()
				tab.Accessible()
			})
		}
	}
}

// Through the forms as a grower goes.
func TestFormsInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	for _, width := range screens {
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			g := &fake{}
			s := httptest.NewServer(newServer(g).Handler())
			defer s.Close()
			tab := open(t, width, width < 600)
			visit := func(name string) {
				t.Helper()
				tab.Shot(fmt.Sprintf("%s-%d", name, width))
				tab.Fits()
				tab.Accessible()
			}
			tab.Open(s.URL + "/")
			visit("live")
			assert.Contains(t, tab.Text("main"), "Cover the courgettes tonight")

			tab.Click(`nav a[href="/log"]`)
			browsertest.Eval[bool](tab, "document.querySelector('#morning details').open = true")
			tab.Fill("#date", "2026-05-24")
			tab.Type("#tmin", "-1.5")
			tab.Fill("#spot", "patio by the wall")
			visit("log")
			tab.Click("#morning button")
			assert.Contains(t, tab.Text(`[role=status]`), "The reading is in the log")
			visit("log-done")
			require.Len(t, g.readings, 1)
			assert.Equal(t, -1.5, g.readings[0].Tmin)
			assert.Equal(t, "patio by the wall", g.readings[0].Spot)

			// A mistake that only the garden finds comes back with what was filled in.
			tab.Type("#tmin", "2")
			browsertest.Eval[bool](tab, "document.querySelector('#morning details').open = true")
			tab.Type("#note", "twice")
			tab.Click("#morning button")
			assert.Contains(t, tab.Text(`[role=alert]`), "The date: stands in the log")
			assert.Equal(t, "twice", browsertest.Eval[string](tab, "document.querySelector('#note').value"))
			visit("log-mistake")
			require.Len(t, g.readings, 1)

			tab.Click(`nav a[href="/try"]`)
			tab.Fill("#crop", "courgette")
			tab.Fill("#date", "2026-05-08")
			tab.Fill("#cover", "fleece")
			visit("try")
			tab.Click(`form[action="/try"] button`)
			assert.Contains(t, tab.Text("#answer"), "courgette out on 2026-05-08 would succeed")
			visit("try-answer")
			assert.Equal(t, []web.Trial{{Crop: "courgette", Spot: "patio by the wall", Cover: "fleece", Day: today - 17}}, g.trials)

			tab.Type("#name", "second courgettes")
			tab.Click("#keep button")
			assert.Contains(t, tab.Text(`[role=status]`), "The planting is in the plan")
			assert.Equal(t, []string{"courgette as second courgettes"}, g.kept)

			tab.Click(`nav a[href="/plantings"]`)
			assert.Contains(t, tab.Text("main"), "courgettes")
			browsertest.Eval[bool](tab, "document.querySelectorAll('details').forEach(d => d.open = true), true")
			visit("plantings")
			tab.Click(`form button[value="planted out"]`)
			assert.Contains(t, tab.Text(`[role=status]`), "It is in the diary")
			assert.Contains(t, tab.Text("main"), "out since 25 May")
			assert.Contains(t, tab.Text("main"), hostile)
			require.Len(t, g.deeds, 1)
			tab.Click(`[role=status] button`)
			assert.Contains(t, tab.Text(`[role=status]`), "taken back")
			assert.Equal(t, 1, g.undone)

			// What is due, and a reading in two taps, from the first page.
			tab.Open(s.URL + "/")
			tab.Click(`.due button[value="not yet"]`)
			assert.Contains(t, tab.Text(`[role=status]`), "asked again tomorrow")
			tab.Click(`.due button[value="done"]`)
			assert.Contains(t, tab.Text(`[role=status]`), "It is in the diary")
			require.Len(t, g.deeds, 2)
			tab.Type("#quick", "-2")
			visit("quick")
			tab.Click(`.due form[action="/log"] button`)
			assert.Contains(t, tab.Text(`[role=status]`), "The reading is in the log")
			require.Len(t, g.readings, 2)
			assert.Equal(t, "patio by the wall", g.readings[1].Spot, "the spot is remembered")
			tab.Clean(s.URL)
		})
	}
}

// The tab must be able to find fault.
func TestTroubleInBrowser(t *testing.T) {
	open := browsertest.Browser(t)
	file := filepath.Join(t.TempDir(), "bad.html")
	require.NoError(t, os.WriteFile(file, []byte(`<!doctype html><main><p style="color:#aaa;background:#fff">pale</p><input></main><script>console.error("trouble")</script>`), 0o666))
	tab := open(t, 390, false)
	tab.Open("file://" + file)
	assert.NotEmpty(t, tab.Troubles())
	found := strings.Join(tab.Violations(), "\n")
	for _, rule := range []string{"color-contrast", "html-has-lang", "label"} {
		assert.Contains(t, found, rule)
	}
}

package main

import (
	"bytes"
	"context"
	"fmt"
	"html"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// runningServer is a server of a garden, for as long as a test lasts.
type runningServer struct {
	url, dir string
	stop     func() error
}

// serveGarden serves a copy of the built-in garden, or itself, with chances by a way; by
// record is quicker than the default.
func serveGarden(t testing.TB, own bool, by string) runningServer {
	t.Helper()
	out, outW := io.Pipe()
	a := &app{world: world{out: outW, err: io.Discard, getenv: os.Getenv, today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}}
	a.seed, a.by = 1, by
	r := runningServer{}
	if own {
		r.dir = filepath.Join(t.TempDir(), "garden")
		maker := &app{world: world{out: io.Discard, err: io.Discard}}
		require.NoError(t, maker.start(r.dir))
		a.garden = r.dir
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() {
		err := a.serve(ctx, serveOptions{listen: "127.0.0.1:0"})
		outW.CloseWithError(err)
		done <- err
	}()
	buf := make([]byte, 500)
	n, err := out.Read(buf)
	require.NoError(t, err)
	go io.Copy(io.Discard, out)
	r.url = regexp.MustCompile(`http://[0-9.:]+`).FindString(string(buf[:n]))
	require.NotEmpty(t, r.url)
	r.stop = func() error { cancel(); return <-done }
	t.Cleanup(func() { cancel() })
	return r
}

func get(t testing.TB, url string) string {
	t.Helper()
	r, err := http.Get(url)
	require.NoError(t, err)
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	require.Equal(t, 200, r.StatusCode, string(b))
	return string(b)
}

func TestServeWritesTheLog(t *testing.T) {
	r := serveGarden(t, true, "record")
	assert.Contains(t, get(t, r.url+"/"), "Sallow Yard")
	before, err := os.ReadFile(filepath.Join(r.dir, "log.csv"))
	require.NoError(t, err)

	p, err := http.PostForm(r.url+"/log", url.Values{"date": {"2026-05-17"}, "spot": {"open bed"}, "tmin": {"-1.5"}, "cloud": {"clear"}, "note": {"=1+1"}})
	require.NoError(t, err)
	p.Body.Close()
	require.Equal(t, 200, p.StatusCode) // after the redirection
	after, err := os.ReadFile(filepath.Join(r.dir, "log.csv"))
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(after, before), "what was there stays")
	assert.Contains(t, string(after[len(before):]), `"2026-05-17",open bed,-1.5,`)
	assert.NotContains(t, string(after[len(before):]), ",=1+1", "no formula for a spreadsheet")

	p, err = http.PostForm(r.url+"/evening", url.Values{"spot": {"open bed"}, "forecast": {"-1"}, "cloud": {"clear"}, "wind": {"calm"}})
	require.NoError(t, err)
	p.Body.Close()
	assert.Regexp(t, `class="headline bad">Cover early courgettes`, get(t, r.url+"/"))

	send := func(path string, form url.Values) string {
		t.Helper()
		p, err := http.PostForm(r.url+path, form)
		require.NoError(t, err)
		defer p.Body.Close()
		b, err := io.ReadAll(p.Body)
		require.NoError(t, err)
		require.Equal(t, 200, p.StatusCode, string(b))
		return string(b)
	}
	file := func(name string) string {
		b, err := os.ReadFile(filepath.Join(r.dir, name))
		require.NoError(t, err)
		return string(b)
	}
	assert.Contains(t, send("/did", url.Values{"planting": {"early courgettes"}, "what": {"planted out"}, "date": {"2026-05-16"}}), "planted out on 16 May 2026")
	assert.Contains(t, file("diary.csv"), `"2026-05-16",early courgettes,planted out,`)
	assert.NotContains(t, send("/undo", nil), "planted out on 16 May 2026")

	// A planting moved to its better day, one kept, and the old plan beside.
	plan := file("plan.csv")
	assert.Contains(t, get(t, r.url+"/plantings"), "Move it to its better day")
	send("/move", url.Values{"planting": {"late sweet corn"}})
	moved := file("plan.csv")
	assert.NotEqual(t, plan, moved)
	assert.NotContains(t, moved, "late sweet corn,sweet corn,late,open bed,bed 7,05-15,06-15,,")
	assert.Equal(t, len(strings.Split(plan, "\n")), len(strings.Split(moved, "\n")))
	assert.Equal(t, plan, file("plan.csv.before-1"))
	send("/undo", nil)
	assert.Equal(t, plan, file("plan.csv"))
	send("/keep", url.Values{"crop": {"courgette"}, "spot": {"south wall"}, "date": {"2026-06-01"}, "how": {"raised"}, "name": {"wall courgettes"}})
	assert.Regexp(t, `\nwall courgettes,courgette,,south wall,,0\d-\d\d,06-01,,,\n$`, file("plan.csv"))
	assert.Contains(t, get(t, r.url+"/plantings"), "wall courgettes")

	// A garden edited meanwhile is shown as it now is.
	g, err := os.ReadFile(filepath.Join(r.dir, "garden.yaml"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "garden.yaml"), bytes.Replace(g, []byte("Sallow Yard"), []byte("Sallow Yard & Daughters"), 1), 0o666))
	assert.Contains(t, get(t, r.url+"/"), "Sallow Yard &amp; Daughters")
	assert.NoError(t, r.stop())
}

func TestServeTries(t *testing.T) {
	r := serveGarden(t, false, "record")
	for _, crop := range []string{"courgette", "sweet corn, early", "tomato, main"} {
		body := get(t, r.url+"/try?"+url.Values{"crop": {crop}, "spot": {"open bed"}, "date": {"2026-05-08"}, "cover": {"fleece"}, "how": {"raised"}}.Encode())
		assert.Contains(t, body, "under fleece: if it goes out on 8 May it survives and ripens in")
		assert.Contains(t, body, "<svg")
	}
	p, err := http.PostForm(r.url+"/log", url.Values{"date": {"2026-05-16"}, "spot": {"open bed"}, "tmin": {"-1.5"}})
	require.NoError(t, err)
	b, _ := io.ReadAll(p.Body)
	p.Body.Close()
	assert.Equal(t, 422, p.StatusCode)
	assert.Contains(t, string(b), "built in and invented")
}

// The built-in garden's pages, one after another; what serve promises is less than 50 ms each.
func BenchmarkServe(b *testing.B) {
	r := serveGarden(b, false, "")
	for _, path := range []string{"/", "/log", "/plantings", "/try?crop=courgette&spot=open+bed&date=2026-05-08"} {
		get(b, r.url+path) // the first works the garden out
		b.Run(path, func(b *testing.B) {
			for b.Loop() {
				get(b, r.url+path)
			}
		})
	}
}

// serve's slowest requests, a hundred of each: a crop's first try, and the page after a write.
// go test ./cmd/frostward -run XXX -bench ServeSlowest -benchtime 1x
func BenchmarkServeSlowest(b *testing.B) {
	const requests = 100
	measure := func(b *testing.B, ask func(i int) time.Duration) {
		for b.Loop() {
			took := make([]float64, requests)
			for i := range took {
				took[i] = float64(ask(i).Microseconds()) / 1000
			}
			slices.Sort(took)
			b.ReportMetric((took[requests/2-1]+took[requests/2])/2, "median-ms")
			b.ReportMetric(took[requests-2], "99th-ms")
		}
	}
	timed := func(url string) time.Duration {
		start := time.Now()
		get(b, url)
		return time.Since(start)
	}
	b.Run("first-try", func(b *testing.B) {
		other := serveGarden(b, false, "record")
		_, list, _ := strings.Cut(get(b, other.url+"/try"), `id="crop"`)
		list, _, _ = strings.Cut(list, "</select>")
		var tries []string // that have an answer, found on another server
		for _, c := range regexp.MustCompile(`<option[^>]*>([^<]+)</option>`).FindAllStringSubmatch(list, -1) {
			q := url.Values{"crop": {html.UnescapeString(c[1])}, "spot": {"open bed"}, "date": {"2026-06-01"}, "how": {"raised"}}
			p, err := http.Get(other.url + "/try?" + q.Encode())
			require.NoError(b, err)
			p.Body.Close()
			if p.StatusCode == http.StatusOK {
				tries = append(tries, "/try?"+q.Encode())
			}
		}
		require.NoError(b, other.stop())
		require.Greater(b, len(tries), 40)
		var r runningServer
		measure(b, func(i int) time.Duration {
			if i%len(tries) == 0 { // a server that has tried none
				r = serveGarden(b, false, "")
				get(b, r.url+"/try")
			}
			return timed(r.url + tries[i%len(tries)])
		})
	})
	b.Run("page-after-a-write", func(b *testing.B) {
		r := serveGarden(b, true, "")
		get(b, r.url+"/")
		log := filepath.Join(r.dir, "log.csv")
		measure(b, func(i int) time.Duration {
			before, err := os.ReadFile(log)
			require.NoError(b, err)
			form := url.Values{"date": {"2026-05-17"}, "spot": {"open bed"}, "tmin": {fmt.Sprintf("%.1f", 2+float64(i)/10)}, "replace": {"yes"}}
			start := time.Now()
			p, err := http.PostForm(r.url+"/log", form) // the redirection too, to the page
			require.NoError(b, err)
			_, err = io.Copy(io.Discard, p.Body)
			require.NoError(b, err)
			p.Body.Close()
			took := time.Since(start)
			require.Equal(b, 200, p.StatusCode)
			took += timed(r.url + "/")
			after, err := os.ReadFile(log)
			require.NoError(b, err)
			require.NotEqual(b, string(before), string(after), "a reading is written")
			return took
		})
	})
}

// Every crop of the catalogue can be tried without a fault.
func TestServeTriesEveryCrop(t *testing.T) {
	if testing.Short() {
		t.Skip("tries the whole catalogue")
	}
	r := serveGarden(t, false, "record")
	page := get(t, r.url+"/try")
	list := page[strings.Index(page, `id="crop"`):]
	list = list[:strings.Index(list, "</select>")]
	crops := regexp.MustCompile(`<option[^>]*>([^<]+)</option>`).FindAllStringSubmatch(list, -1)
	require.Greater(t, len(crops), 40)
	answered := 0
	for _, c := range crops {
		for _, how := range []string{"raised", "sown"} {
			q := url.Values{"crop": {html.UnescapeString(c[1])}, "spot": {"open bed"}, "date": {"2026-05-08"}, "how": {how}}
			res, err := http.Get(r.url + "/try?" + q.Encode())
			require.NoError(t, err)
			b, _ := io.ReadAll(res.Body)
			res.Body.Close()
			switch res.StatusCode {
			case 200:
				answered++
				assert.Contains(t, string(b), `id="answer"`)
			case 422:
				assert.Regexp(t, "not raised under cover|no warmth or days|no base temperature|no killing", string(b), c[1])
			default:
				t.Fatal(fmt.Sprint(res.StatusCode, c[1], how))
			}
		}
	}
	assert.Greater(t, answered, len(crops))
}

// Several visitors at once see and write without harm; run with -race it finds what is shared.
func TestServeManyAtOnce(t *testing.T) {
	r := serveGarden(t, true, "record")
	var wait sync.WaitGroup
	for i := range 12 {
		wait.Go(func() {
			switch i % 4 {
			case 0:
				p, err := http.PostForm(r.url+"/log", url.Values{"date": {fmt.Sprintf("2026-05-%02d", i+1)}, "spot": {"south wall"}, "tmin": {"1.5"}})
				if assert.NoError(t, err) {
					assert.Equal(t, 200, p.StatusCode)
					p.Body.Close()
				}
			case 1:
				get(t, r.url+"/")
			case 2:
				get(t, r.url+"/try?crop=courgette&spot=open+bed&date=2026-05-08")
			case 3:
				get(t, r.url+"/plantings")
			}
		})
	}
	wait.Wait()
	b, err := os.ReadFile(filepath.Join(r.dir, "log.csv"))
	require.NoError(t, err)
	assert.Equal(t, 3, strings.Count(string(b), "south wall,1.5"))
	assert.NoError(t, r.stop())
}

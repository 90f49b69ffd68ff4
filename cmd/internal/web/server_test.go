package web_test

import (
	"context"
	"fmt"
	"io"
	"math"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/cmd/internal/web"
	"frostward/cmd/internal/words"
)

type request struct {
	method, path, host string
	body               string
	header             map[string]string
}

func ask(t *testing.T, h http.Handler, r request) *http.Response {
	t.Helper()
	if r.method == "" {
		r.method = "GET"
	}
	q := httptest.NewRequest(r.method, r.path, strings.NewReader(r.body))
	q.Host = "127.0.0.1:8080"
	if r.host != "" {
		q.Host = r.host
	}
	if r.method == "POST" {
		q.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for k, v := range r.header {
		q.Header.Set(k, v)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, q)
	return w.Result()
}

func text(t *testing.T, r *http.Response) string {
	t.Helper()
	b, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	return string(b)
}

func form(kv ...string) string {
	v := url.Values{}
	for i := 0; i < len(kv); i += 2 {
		v.Set(kv[i], kv[i+1])
	}
	return v.Encode()
}

func TestPages(t *testing.T) {
	h := newServer(&fake{}).Handler()
	for path, want := range map[string]string{
		"/": "Cover the courgettes tonight", "/log": "Lowest temperature", "/try": "What if", "/plantings": "planted out",
	} {
		r := ask(t, h, request{path: path})
		body := text(t, r)
		assert.Equal(t, 200, r.StatusCode, path)
		assert.Contains(t, body, want)
		assert.Contains(t, r.Header.Get("Content-Security-Policy"), "default-src 'none'; style-src 'sha256-")
		assert.NotContains(t, r.Header.Get("Content-Security-Policy"), "script-src")
		assert.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"))
		assert.NotContains(t, body, "<script")
		assert.NotContains(t, body, "<img")
	}
	assert.Equal(t, "/etc/passwd", ask(t, h, request{path: "/../../etc/passwd"}).Header.Get("Location"))
	assert.Equal(t, 404, ask(t, h, request{path: "/etc/passwd"}).StatusCode)
	assert.Equal(t, 404, ask(t, h, request{path: "/garden.yaml"}).StatusCode)
	assert.Equal(t, 405, ask(t, h, request{method: "POST", path: "/"}).StatusCode)
	assert.Equal(t, 405, ask(t, h, request{method: "DELETE", path: "/log"}).StatusCode)
}

// The page is written anew when the garden's state changes, and only then.
func TestPageIsKept(t *testing.T) {
	g := &fake{state: " one"}
	h := newServer(g).Handler()
	once := regexp.MustCompile(`name="once" value="[^"]*"`)
	first := text(t, ask(t, h, request{path: "/"}))
	assert.Contains(t, first, "mill one")
	assert.NotContains(t, first, "forms-here", "the forms stand in its place")
	second := text(t, ask(t, h, request{path: "/"}))
	assert.NotEqual(t, once.FindString(first), once.FindString(second))
	assert.Equal(t, once.ReplaceAllString(first, ""), once.ReplaceAllString(second, ""))
	g.state = " two"
	assert.Contains(t, text(t, ask(t, h, request{path: "/"})), "mill two")
}

func TestLog(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	r := ask(t, h, request{method: "POST", path: "/log", body: form("date", "2026-05-24", "spot", "open bed", "tmin", "-1,5", "cover", "fleece", "note", "a =cmd")})
	assert.Equal(t, 303, r.StatusCode)
	assert.Equal(t, "/log?done=morning", r.Header.Get("Location"))
	require.Len(t, g.readings, 1)
	got := g.readings[0]
	assert.Equal(t, today-1, got.Day)
	assert.Equal(t, "open bed", got.Spot)
	assert.Equal(t, -1.5, got.Tmin)
	assert.True(t, math.IsNaN(got.Evening))
	assert.Equal(t, "fleece", got.Cover)
	assert.Equal(t, "a =cmd", got.Note)
	assert.Contains(t, text(t, ask(t, h, request{path: "/log?done=morning"})), "The reading is in the log")
}

func TestLogMistakes(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	good := []string{"date", "2026-05-24", "spot", "open bed", "tmin", "-1.5"}
	for _, c := range []struct{ field, value, want string }{
		{"date", "2026-05-26", "is still to come"},
		{"date", "yesterday", "is not a date"},
		{"date", "1066-10-14", "too long ago"},
		{"spot", "moon", "is not one of the choices"},
		{"tmin", "", "is missing"},
		{"tmin", "warm", "is not a number"},
		{"tmin", "NaN", "is not a number"},
		{"tmin", "0x1p3", "is not a number"},
		{"tmin", "1e999", "is not a number"},
		{"tmin", "61", "is not between"},
		{"cover", "pink", "is not one of the choices"},
		{"note", "a\nb", "has characters that are not text"},
		{"note", strings.Repeat("x", 201), "is longer than 200"},
		{"note", "twice", "stands in the log"},
	} {
		r := ask(t, h, request{method: "POST", path: "/log", body: form(append(good[:6:6], c.field, c.value)...)})
		body := text(t, r)
		assert.Equal(t, 422, r.StatusCode, c)
		assert.Contains(t, body, c.want, c)
		assert.Contains(t, body, `role="alert"`)
	}
	assert.Empty(t, g.readings)
	body := text(t, ask(t, h, request{method: "POST", path: "/log", body: form("date", "2026-05-24", "spot", hostile, "tmin", `"><script>`)}))
	assert.NotContains(t, body, "<script")
	assert.Contains(t, body, `<option selected>&lt;script&gt;`, "what was filled in stays")
}

// An evening is a line of the coming morning, without a minimum.
func TestEvening(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	r := ask(t, h, request{method: "POST", path: "/evening", body: form("spot", "open bed", "forecast", "2", "cloud", "clear", "humidity", "80")})
	assert.Equal(t, "/log?done=evening", r.Header.Get("Location"))
	require.Len(t, g.readings, 1)
	got := g.readings[0]
	assert.Equal(t, today+1, got.Day)
	assert.True(t, math.IsNaN(got.Tmin))
	assert.Equal(t, 2.0, got.Forecast)
	assert.Equal(t, 80.0, got.Humidity)
	assert.Equal(t, "clear", got.Cloud)
	for field, value := range map[string]string{"forecast": "", "humidity": "0", "cloud": "pink", "reading": "1e9"} {
		r := ask(t, h, request{method: "POST", path: "/evening", body: form("spot", "open bed", field, value)})
		assert.Equal(t, 422, r.StatusCode, field)
	}
	assert.Len(t, g.readings, 1)
}

func TestTry(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	body := text(t, ask(t, h, request{path: "/try?crop=courgette&spot=open+bed&cover=fleece&date=2026-05-08&how=raised"}))
	assert.Contains(t, body, "courgette out on 2026-05-08 would succeed in 9 years of 10.")
	assert.Contains(t, body, "<svg")
	assert.Equal(t, []web.Trial{{Crop: "courgette", Spot: "open bed", Cover: "fleece", Day: today - 17}}, g.trials)
	r := ask(t, h, request{path: "/try?crop=triffid&spot=open+bed&date=2026-05-08"})
	assert.Equal(t, 422, r.StatusCode)
	assert.Contains(t, text(t, r), "The crop: &#34;triffid&#34; is not one of the choices")
}

func TestDid(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	did := []string{"planting", "courgettes, open bed", "what", "planted out", "date", "2026-05-25"}
	r := ask(t, h, request{method: "POST", path: "/did", body: form(did...)})
	assert.Equal(t, 303, r.StatusCode)
	assert.Equal(t, "/plantings?done=did", r.Header.Get("Location"))
	want := []web.Deed{{Planting: "courgettes, open bed", What: "planted out", Day: today}}
	assert.Equal(t, want, g.deeds)
	r = ask(t, h, request{method: "POST", path: "/did", body: form(append(did, "answer", "not yet", "from", "/")...)})
	assert.Equal(t, "/?done=later", r.Header.Get("Location"))
	assert.Equal(t, want, g.later)
	for _, bad := range []string{form("planting", "../x", "what", "planted out", "date", "2026-05-25"), form("planting", "courgettes, open bed", "what", "eaten", "date", "2026-05-25")} {
		assert.Equal(t, 422, ask(t, h, request{method: "POST", path: "/did", body: bad}).StatusCode)
	}
	assert.Len(t, g.deeds, 1)
	assert.Equal(t, "/plantings?done=move", ask(t, h, request{method: "POST", path: "/move", body: form("planting", "courgettes, open bed", "from", "//evil.example")}).Header.Get("Location"))
	assert.Equal(t, []string{"courgettes, open bed"}, g.moved)
	assert.Contains(t, text(t, ask(t, h, request{path: "/?done=did"})), "Take it back")
	ask(t, h, request{method: "POST", path: "/undo"})
	assert.Equal(t, 1, g.undone)
}

// A form that comes twice, as over a bad network, is stored once; one that was put right is not
// the same.
func TestSentTwice(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	page := text(t, ask(t, h, request{path: "/"}))
	once := regexp.MustCompile(`name="once" value="([^"]+)"`).FindStringSubmatch(page)
	require.NotNil(t, once)
	reading := []string{"once", once[1], "from", "/", "date", "2026-05-25", "spot", "open bed", "tmin", "1"}
	for _, want := range []string{"/?done=morning", "/?done=again"} {
		assert.Equal(t, want, ask(t, h, request{method: "POST", path: "/log", body: form(reading...)}).Header.Get("Location"))
	}
	assert.Len(t, g.readings, 1)
	assert.Contains(t, text(t, ask(t, h, request{path: "/?done=again"})), "it is stored once")
	reading[9] = "1.5"
	assert.Equal(t, "/?done=morning", ask(t, h, request{method: "POST", path: "/log", body: form(reading...)}).Header.Get("Location"))
	assert.Len(t, g.readings, 2)
}

// The spot logged for last is offered first.
func TestSpotIsRemembered(t *testing.T) {
	h := newServer(&fake{}).Handler()
	r := ask(t, h, request{method: "POST", path: "/log", body: form("date", "2026-05-25", "spot", "patio by the wall", "tmin", "1")})
	require.Len(t, r.Cookies(), 1)
	body := text(t, ask(t, h, request{path: "/", header: map[string]string{"Cookie": r.Cookies()[0].Name + "=" + r.Cookies()[0].Value}}))
	assert.Contains(t, body, `name="spot" value="patio by the wall"`)
	assert.Contains(t, text(t, ask(t, h, request{path: "/"})), `name="spot" value="open bed"`)
}

func TestFahrenheit(t *testing.T) {
	g := &fake{units: words.Units{Fahrenheit: true}}
	h := newServer(g).Handler()
	assert.Contains(t, text(t, ask(t, h, request{path: "/log"})), "night, °F")
	ask(t, h, request{method: "POST", path: "/log", body: form("date", "2026-05-25", "spot", "open bed", "tmin", "41")})
	require.Len(t, g.readings, 1)
	assert.Equal(t, 5.0, g.readings[0].Tmin)
	assert.Equal(t, 422, ask(t, h, request{method: "POST", path: "/log", body: form("date", "2026-05-25", "spot", "open bed", "tmin", "-90")}).StatusCode)
}

func TestKeep(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	trial := []string{"crop", "courgette", "spot", "open bed", "cover", "fleece", "date", "2026-05-08", "how", "raised"}
	body := text(t, ask(t, h, request{path: "/try?" + form(trial...)}))
	assert.Contains(t, body, "Keep it in the plan")
	assert.Contains(t, body, "Try the better day, 2026-05-30")
	r := ask(t, h, request{method: "POST", path: "/keep", body: form(append(trial, "name", "second courgettes")...)})
	assert.Equal(t, "/try?done=keep", r.Header.Get("Location"))
	assert.Equal(t, []string{"courgette as second courgettes"}, g.kept)
}

// What other sites make a browser send is refused.
func TestCrossSite(t *testing.T) {
	g := &fake{}
	h := newServer(g).Handler()
	body := form("date", "2026-05-24", "spot", "open bed", "tmin", "1")
	for name, header := range map[string]map[string]string{
		"cross-site":   {"Sec-Fetch-Site": "cross-site"},
		"same-site":    {"Sec-Fetch-Site": "same-site"},
		"other origin": {"Origin": "http://evil.example"},
		"null origin":  {"Origin": "null"},
	} {
		assert.Equal(t, 403, ask(t, h, request{method: "POST", path: "/log", body: body, header: header}).StatusCode, name)
	}
	assert.Empty(t, g.readings)
	assert.Equal(t, 303, ask(t, h, request{method: "POST", path: "/log", body: body, header: map[string]string{"Sec-Fetch-Site": "same-origin"}}).StatusCode)
}

func TestHost(t *testing.T) {
	loop := newServer(&fake{}).Handler()
	for host, want := range map[string]int{
		"127.0.0.1:1": 200, "localhost": 200, "[::1]:80": 200, "LOCALHOST:9": 200,
		"evil.example": 421, "127.0.0.1.evil.example": 421, "192.168.1.5:80": 421, "": 421,
	} {
		q := httptest.NewRequest("GET", "/", nil)
		q.Host = host
		w := httptest.NewRecorder()
		loop.ServeHTTP(w, q)
		assert.Equal(t, want, w.Code, host)
	}
	open := newServer(&fake{}, func(o *web.Options) { o.Loopback, o.Token, o.Names = false, "abcd-efgh-ijkl", []string{"shed.home"} }).Handler()
	for host, want := range map[string]int{"192.168.1.5:80": 303, "shed.home": 303, "evil.example": 421} {
		assert.Equal(t, want, ask(t, open, request{path: "/", host: host}).StatusCode, host)
	}
}

func TestSizeLimit(t *testing.T) {
	g := &fake{}
	r := ask(t, newServer(g).Handler(), request{method: "POST", path: "/log", body: form("note", strings.Repeat("x", 20_000))})
	assert.Equal(t, 413, r.StatusCode)
	assert.Empty(t, g.readings)
}

// What went wrong on the disk is for the grower's eyes, not the visitor's.
func TestFailure(t *testing.T) {
	var logged string
	g := &fake{broken: errDisk}
	h := newServer(g, func(o *web.Options) { o.Logf = func(f string, a ...any) { logged = fmt.Sprintf(f, a...) } }).Handler()
	for _, q := range []request{{path: "/"}, {method: "POST", path: "/log", body: form("date", "2026-05-24", "spot", "open bed", "tmin", "1")},
		{method: "POST", path: "/did", body: form("planting", "courgettes, open bed", "what", "planted out", "date", "2026-05-24")}} {
		logged = ""
		r := ask(t, h, q)
		assert.Equal(t, 500, r.StatusCode)
		assert.NotContains(t, text(t, r), "secret")
		assert.Contains(t, logged, "no space left on device")
	}
	h = newServer(&fake{panics: true}, func(o *web.Options) { o.Logf = func(f string, a ...any) { logged = fmt.Sprintf(f, a...) } }).Handler()
	assert.Equal(t, 500, ask(t, h, request{path: "/"}).StatusCode)
	assert.Contains(t, logged, "a fault of the program")
}

func TestToken(t *testing.T) {
	token := web.NewToken()
	assert.Regexp(t, `^[a-z2-7]{4}(-[a-z2-7]{4}){3}$`, token)
	assert.NotEqual(t, token, web.NewToken())
	g := &fake{}
	s := newServer(g, func(o *web.Options) { o.Loopback, o.Token = false, token })
	s.SetDelay(time.Millisecond)
	h := s.Handler()
	assert.Equal(t, "/enter", ask(t, h, request{path: "/"}).Header.Get("Location"))
	r := ask(t, h, request{method: "POST", path: "/log", body: form("date", "2026-05-24", "spot", "open bed", "tmin", "1")})
	assert.Equal(t, "/enter", r.Header.Get("Location"))
	assert.Empty(t, g.readings)

	r = ask(t, h, request{method: "POST", path: "/enter", body: form("token", "wrong")})
	assert.Equal(t, 403, r.StatusCode)
	assert.Empty(t, r.Cookies())
	r = ask(t, h, request{method: "POST", path: "/enter", body: form("token", " "+strings.ToUpper(token)+" ")})
	require.Len(t, r.Cookies(), 1)
	c := r.Cookies()[0]
	assert.True(t, c.HttpOnly)
	assert.Equal(t, http.SameSiteStrictMode, c.SameSite)
	assert.NotContains(t, c.Value, token)
	assert.Equal(t, 200, ask(t, h, request{path: "/", header: map[string]string{"Cookie": c.Name + "=" + c.Value}}).StatusCode)
	assert.Equal(t, 303, ask(t, h, request{path: "/", header: map[string]string{"Cookie": c.Name + "=" + c.Value + "0"}}).StatusCode)
	// Another run of the server makes other cookies.
	other := newServer(g, func(o *web.Options) { o.Loopback, o.Token = false, token }).Handler()
	assert.Equal(t, 303, ask(t, other, request{path: "/", header: map[string]string{"Cookie": c.Name + "=" + c.Value}}).StatusCode)

	assert.Panics(t, func() { newServer(g, func(o *web.Options) { o.Loopback = false }) })
}

func TestServeStopsGracefully(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- newServer(&fake{}).Serve(ctx, l) }()
	r, err := http.Get("http://" + l.Addr().String() + "/log")
	require.NoError(t, err)
	r.Body.Close()
	assert.Equal(t, 200, r.StatusCode)
	spare, err := net.Dial("tcp", l.Addr().String()) // as browsers do, and ask nothing over it
	require.NoError(t, err)
	defer spare.Close()
	time.Sleep(50 * time.Millisecond)
	stop()
	select {
	case err := <-done:
		assert.NoError(t, err)
	case <-time.After(4 * time.Second): // a second less than it would be waited for
		t.Fatal("did not stop")
	}
	_, err = net.Dial("tcp", l.Addr().String())
	assert.Error(t, err)
}

// FuzzForms throws anything at the handlers: they must answer, never with a fault of
// the program, and write nothing but sound readings.
func FuzzForms(f *testing.F) {
	f.Add("POST", "/log", form("date", "2026-05-24", "spot", "open bed", "tmin", "-1.5"))
	f.Add("GET", "/try?crop=courgette&spot=open+bed&date=2026-05-08", "")
	f.Add("POST", "/did", form("planting", "courgettes, open bed", "what", "planted out", "date", "2026-05-24"))
	f.Add("POST", "/evening", form("spot", "open bed", "forecast", "2"))
	f.Add("GET", "/try?crop=%zz;&&=", "%%%;\x00")
	g := &fake{}
	h := newServer(g, func(o *web.Options) { o.Logf = func(s string, a ...any) { panic(fmt.Sprintf(s, a...)) } }).Handler()
	f.Fuzz(func(t *testing.T, method, path, body string) {
		u, err := url.ParseRequestURI(path)
		if err != nil || u.Host != "" || !strings.HasPrefix(path, "/") || method != "GET" && method != "POST" {
			t.Skip()
		}
		q := &http.Request{Method: method, URL: u, Host: "localhost", Header: http.Header{"Content-Type": {"application/x-www-form-urlencoded"}},
			Body: io.NopCloser(strings.NewReader(body)), Proto: "HTTP/1.1", ProtoMajor: 1, ProtoMinor: 1}
		w := httptest.NewRecorder()
		h.ServeHTTP(w, q)
		if w.Code >= 500 {
			t.Fatalf("%d for %s %q %q", w.Code, method, path, body)
		}
		for _, r := range g.readings {
			evening := math.IsNaN(r.Tmin) && r.Day == today+1
			if !evening && !(r.Tmin >= -60 && r.Tmin <= 60 && r.Day <= today) || strings.ContainsAny(r.Note, "\r\n\x00") {
				t.Fatalf("wrote %+v", r)
			}
		}
		g.readings, g.deeds, g.trials = nil, nil, nil
	})
}

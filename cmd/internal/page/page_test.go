package page_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/cmd/internal/page"
	"frostward/cmd/internal/page/sample"
)

var update = flag.Bool("update", false, "write the golden files anew")

func write(t *testing.T, v page.View, o page.Options) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, page.Write(&b, v, o))
	return b.String()
}

// The golden page leaves the pictures out: they have golden files of their own.
func TestGolden(t *testing.T) {
	got := regexp.MustCompile(`(?s)<svg.*?</svg>`).ReplaceAllString(write(t, sample.View(), page.Options{}), "<svg/>")
	got = regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(got, "<style/>")
	got = regexp.MustCompile(`sha256-([^&']|&#43;)*`).ReplaceAllString(got, "sha256-")
	path := filepath.Join("testdata", "page.html")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o777))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

func TestSelfContained(t *testing.T) {
	h := write(t, sample.View(), page.Options{})
	for _, bad := range []string{"<script", "<iframe", "<object", "<form", "@import", "url(", " style=", "<img", "http://", "https://"} {
		got := strings.ReplaceAll(h, `xmlns="http://www.w3.org/2000/svg"`, "")
		got = regexp.MustCompile(`url\(#[a-z]+-\d+w?-[a-z-]+\)`).ReplaceAllString(got, "") // a chart's own clip or hatch
		assert.NotContains(t, got, bad)
	}
	assert.NotRegexp(t, `\son[a-z]+="`, regexp.MustCompile(`&[a-z#0-9]+;`).ReplaceAllString(h, ""))
	assert.Contains(t, h, "&lt;script&gt;document.title=", "hostile names are shown as text")
	assert.Less(t, len(h), 700_000)
}

func TestPolicyFitsTheStyle(t *testing.T) {
	h := write(t, sample.View(), page.Options{})
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`).FindStringSubmatch(h)
	require.NotNil(t, style)
	sum := sha256.Sum256([]byte(style[1]))
	hash := "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
	assert.Contains(t, page.Policy(false), hash)
	assert.Contains(t, page.Policy(true), hash)
	// html/template writes + of base64 as an entity in attributes; browsers read it back.
	meta := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(h)
	require.NotNil(t, meta)
	assert.Equal(t, page.Policy(false), strings.NewReplacer("&#43;", "+", "&#39;", "'").Replace(meta[1]))
	for _, word := range []string{"PAPER", "CHARTS", "DARK", "INK;"} {
		assert.NotContains(t, style[1], word, "a colour was not put in")
	}
}

func TestIDsAreUnique(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(`\sid="([^"]*)"`).FindAllStringSubmatch(write(t, sample.View(), page.Options{}), -1) {
		assert.False(t, seen[m[1]], m[1])
		seen[m[1]] = true
	}
	assert.Greater(t, len(seen), 30)
}

// Every chart has its figures as a table.
func TestTablesStandBesideCharts(t *testing.T) {
	h := write(t, sample.View(), page.Options{})
	assert.Equal(t, strings.Count(h, "<figure"), strings.Count(h, "<details><summary>The same in figures"))
}

func TestNothingKnown(t *testing.T) {
	v := page.View{Garden: "Empty"}
	v.Warmth.NotKnown = "this season has no days yet"
	h := write(t, v, page.Options{})
	assert.Equal(t, 11, strings.Count(strings.ToLower(h), "not known"), "ten parts and the sources")
	assert.Contains(t, h, "Not known: this season has no days yet")
	assert.NotContains(t, h, "<svg")
}

func TestLiveHasNoMetaPolicy(t *testing.T) {
	h := write(t, sample.View(), page.Options{Live: true, Links: []page.Link{{To: "/", Name: "Garden", Here: true}, {To: "/log", Name: "Log"}}})
	assert.NotContains(t, h, "http-equiv")
	assert.Contains(t, h, `<a href="/" aria-current="page">`)
}

func TestSheet(t *testing.T) {
	s := page.Sheet{Title: sample.Hostile, Plan: sample.View().Plan.Tables[0], Foot: []string{"Local warnings come first."}}
	var b bytes.Buffer
	require.NoError(t, page.WriteSheet(&b, s))
	assert.NotContains(t, b.String(), "<script")
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`).FindStringSubmatch(b.String())
	require.NotNil(t, style)
	sum := sha256.Sum256([]byte(style[1]))
	assert.Contains(t, strings.ReplaceAll(b.String(), "&#43;", "+"), base64.StdEncoding.EncodeToString(sum[:]))
	for len(s.Plan.Rows) < 60 {
		s.Plan.Rows = append(s.Plan.Rows, s.Plan.Rows...)
	}
	assert.ErrorContains(t, page.WriteSheet(&b, s), "do not fit on one page")
}

func BenchmarkWrite(b *testing.B) {
	v := sample.View()
	for b.Loop() {
		page.Write(&bytes.Buffer{}, v, page.Options{})
	}
}

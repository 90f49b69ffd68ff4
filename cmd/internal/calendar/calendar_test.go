package calendar

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

var update = flag.Bool("update", false, "write the golden files anew")

var stamp = time.Date(2026, 3, 1, 6, 30, 0, 0, time.UTC)

// sample is an invented garden's calendar, with names that need escaping and folding.
func sample() File {
	day := climate.NewDay(2026, time.May, 24)
	return File{Name: "Garden behind the mill; north, bed", Stamp: stamp, Events: []Event{
		{UID: uid("mill", "courgettes 1", "plant out", 2026), First: day, Last: day, Title: "Plant out courgettes",
			Text: "Chance of a frost that kills after this: 1 in 10, counted over 46 seasons.\nKeep fleece at hand.", Place: "open bed", Category: "plant out"},
		{UID: uid("mill", "courgettes 1", "harden off", 2026), First: day - 10, Last: day - 1, Title: "Harden off courgettes", Category: "harden off"},
		{UID: uid("mill", "gherkins", "sow", 2026), First: climate.NewDay(2026, time.December, 31), Last: climate.NewDay(2026, time.December, 31),
			Title: `Sow "gherkins", <b>Größe\q</b>; ` + strings.Repeat("温室,", 40), Text: "one\r\ntwo\rthree\x00four\x1b[2J" + strings.Repeat(`\q;,`, 50), Place: "bench, left; top"},
		{UID: uid("mill", "old", "sow", 2026), First: day, Last: day, Title: "Sow old", Cancelled: true},
	}}
}

func write(t *testing.T, f File) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, f))
	return b.Bytes()
}

func TestGolden(t *testing.T) {
	got := write(t, sample())
	path := filepath.Join("testdata", "sample.ics")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o777))
		require.NoError(t, os.WriteFile(path, got, 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}

// contentLine is RFC 5545, 3.1, for the parameters used here.
var contentLine = regexp.MustCompile(`^[A-Z0-9-]+(;[A-Z0-9-]+=[^";:,\x00-\x1f]+)*:(.*)$`)

// faults checks a file against the rules of RFC 5545 that this program could break.
func faults(b []byte) []string {
	var out []string
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if !bytes.HasSuffix(b, []byte("\r\n")) {
		fault("no line break at the end (3.1)")
	}
	lines := strings.Split(strings.TrimSuffix(string(b), "\r\n"), "\r\n")
	for i, l := range lines {
		if len(l) > 75 {
			fault("line %d: %d octets (3.1)", i+1, len(l))
		}
		if !utf8.ValidString(l) {
			fault("line %d: a fold inside a character (3.1)", i+1)
		}
		for _, r := range l {
			if r < 0x20 && r != '\t' || r == 0x7f {
				fault("line %d: control character %q (3.1)", i+1, r)
			}
		}
		if n := len(l) - len(strings.TrimRight(l, `\`)); n%2 == 1 {
			fault("line %d: a fold inside an escape", i+1)
		}
	}
	var stack []string
	seen := map[string]int{}
	uids := map[string]bool{}
	for i, l := range strings.Split(strings.ReplaceAll(strings.Join(lines, "\r\n"), "\r\n ", ""), "\r\n") {
		m := contentLine.FindStringSubmatch(l)
		if m == nil {
			fault("content line %d: %q is not name, parameters, value (3.1)", i+1, l)
			continue
		}
		name, _, _ := strings.Cut(l[:len(l)-len(m[2])-1], ";")
		value := m[2]
		switch name {
		case "BEGIN":
			stack = append(stack, value)
			seen = map[string]int{}
		case "END":
			if len(stack) == 0 || stack[len(stack)-1] != value {
				fault("END:%s does not match (3.4)", value)
				continue
			}
			stack = stack[:len(stack)-1]
			if value == "VEVENT" {
				for _, p := range []string{"UID", "DTSTAMP", "DTSTART", "DTEND", "SEQUENCE", "SUMMARY"} {
					if seen[p] != 1 {
						fault("%s %d times in an event (3.6.1)", p, seen[p])
					}
				}
			}
		default:
			seen[name]++
			switch name {
			case "SUMMARY", "DESCRIPTION", "LOCATION", "CATEGORIES", "X-WR-CALNAME", "NAME":
				if rest := regexp.MustCompile(`\\[\\;,nN]`).ReplaceAllString(value, ""); strings.ContainsAny(rest, `\;,`) {
					fault("%s: unescaped text (3.3.11): %s", name, value)
				}
			case "DTSTAMP":
				if _, err := time.Parse("20060102T150405Z", value); err != nil {
					fault("DTSTAMP %s is not UTC (3.8.7.2)", value)
				}
			case "DTSTART", "DTEND":
				if _, err := time.Parse("20060102", value); err != nil || !strings.Contains(l, ";VALUE=DATE:") {
					fault("%s is not a DATE (3.3.4)", l)
				}
			case "UID":
				if uids[value] {
					fault("UID %s twice (3.8.4.7)", value)
				}
				uids[value] = true
			}
		}
	}
	if len(stack) > 0 {
		fault("%v not ended", stack)
	}
	return out
}

func TestRules(t *testing.T) { assert.Empty(t, faults(write(t, sample()))) }

// The checker must be able to fail.
func TestRulesFindFaults(t *testing.T) {
	good := string(write(t, sample()))
	for name, bad := range map[string]string{
		"bare LF":     strings.Replace(good, "\r\n", "\n", 1),
		"long line":   strings.ReplaceAll(good, "\r\n ", ""),
		"no end":      strings.Replace(good, "END:VCALENDAR\r\n", "", 1),
		"unescaped":   strings.Replace(good, `\;`, `;`, 1),
		"no UID":      regexp.MustCompile(`(?m)^UID:.*\r\n`).ReplaceAllString(good, ""),
		"not a date":  strings.Replace(good, "VALUE=DATE:20260524", "VALUE=DATE:20260532", 1),
		"local stamp": strings.Replace(good, "T063000Z", "T063000", 1),
	} {
		assert.NotEmpty(t, faults([]byte(bad)), name)
	}
}

// python3-icalendar is the second, independent parser. (Its version 4 takes an escaped
// backslash before n, comma or semicolon for another escape, so the sample has none.)
func TestSecondParser(t *testing.T) {
	python := ""
	for _, p := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(p, "-c", "import icalendar").Run() == nil {
			python = p
			break
		}
	}
	if python == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("python3-icalendar is wanted in CI")
		}
		t.Skip("python3-icalendar is not installed")
	}
	f := sample()
	cmd := exec.Command(python, filepath.Join("testdata", "read.py"))
	cmd.Stdin = bytes.NewReader(write(t, f))
	out, err := cmd.Output()
	require.NoError(t, err)
	var got []struct {
		UID, Start, End, Title, Text, Place, Status, Stamp string
		Sequence                                           int
		Categories                                         []string
	}
	require.NoError(t, json.Unmarshal(out, &got))
	require.Len(t, got, len(f.Events))
	for i, e := range f.Events {
		assert.Equal(t, e.UID, got[i].UID)
		assert.Equal(t, e.First.String(), got[i].Start)
		assert.Equal(t, (e.Last + 1).String(), got[i].End)
		assert.Equal(t, clean(e.Title), got[i].Title)
		assert.Equal(t, clean(e.Text), got[i].Text)
		assert.Equal(t, e.Place, got[i].Place)
		assert.Equal(t, "2026-03-01T06:30:00+00:00", got[i].Stamp)
		// By hand: 2020-01-01 to 2026-03-01 is 2251 days, and 6.5 h: 2251*1440 + 390.
		assert.Equal(t, 3241830, got[i].Sequence)
		if e.Category != "" {
			assert.Equal(t, []string{e.Category}, got[i].Categories)
		}
		assert.Equal(t, e.Cancelled, got[i].Status == "CANCELLED")
	}
}

func TestBackslashes(t *testing.T) {
	f := File{Stamp: stamp, Events: []Event{{UID: "1", Title: `a\n\\b\,c` + "\n" + `\;`}}}
	b := write(t, f)
	assert.Empty(t, faults(b))
	assert.Contains(t, string(b), `SUMMARY:a\\n\\\\b\\\,c\n\\\;`+"\r\n")
}

func TestUIDStaysWhenTheDateMoves(t *testing.T) {
	a := uid("mill", "courgettes 1", "sow", 2026)
	assert.Equal(t, a, uid("mill", "courgettes 1", "sow", 2026))
	assert.NotEqual(t, a, uid("mill", "courgettes 1", "sow", 2027))
	assert.NotEqual(t, a, uid("mill", "courgettes 2", "sow", 2026))
	assert.NotEqual(t, uid("a", "bc", "d", 1), uid("ab", "c", "d", 1))
}

func TestGone(t *testing.T) {
	f := sample()
	b := write(t, f)
	gone, err := Gone(bytes.NewReader(b), f.Events[1:], f.Events[0].First)
	require.NoError(t, err)
	require.Len(t, gone, 1)
	assert.Equal(t, f.Events[0].UID, gone[0].UID)
	assert.Equal(t, f.Events[0].First, gone[0].First)
	assert.Equal(t, f.Events[0].Last, gone[0].Last)
	assert.True(t, gone[0].Cancelled)
	assert.Equal(t, "Plant out courgettes", gone[0].Title)

	gone, err = Gone(bytes.NewReader(b), f.Events[1:], f.Events[0].First+1)
	require.NoError(t, err)
	assert.Empty(t, gone, "what is past stays as it was")

	_, err = Gone(strings.NewReader("date,tmin\n"), nil, 0)
	assert.Error(t, err)
}

func TestBackwardsEventIsAFaultOfTheProgram(t *testing.T) {
	assert.Panics(t, func() { Write(&bytes.Buffer{}, File{Events: []Event{{First: 2, Last: 1}}}) })
}

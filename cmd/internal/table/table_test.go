package table

import (
	"bytes"
	"encoding/csv"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o777))
		require.NoError(t, os.WriteFile(path, got, 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}

// sample is an invented plan.
func sample() Table {
	t := Table{
		Title: "Plan for 2026 (invented garden)",
		Columns: []Column{
			{Name: "planting", Wrap: true},
			{Name: "spot", Drop: 1},
			{Name: "plant out"},
			{Name: "coldest night", Unit: "°C", Align: Right, Drop: 2},
			{Name: "succeeds", Align: Right},
			{Name: "seasons", Align: Right, Drop: 3},
			{Name: "why", Wrap: true, MinWidth: 20},
		},
		Notes: []string{"Chances are counted over the seasons of record; each interval is 90 %."},
	}
	t.Add(Text("courgettes"), Text("open bed"), Cell{Text: "24 May", Data: []string{"05-24"}}, Text("-3.2"), Cell{Text: "likely, 9 in 10", Data: []string{"0.9"}, Tone: Good}, Text("46"), Text("frost after planting out in 4 of 46 seasons"))
	t.Add(Text("sweet corn, early"), Text("patio by the wall"), Cell{Text: "8 May", Data: []string{"05-08"}}, Text("-0.5"), Cell{Text: "doubtful, 5 in 10", Data: []string{"0.5"}, Tone: Doubtful}, Text("46"), Text("the cobs would not ripen before the first killing frost in half of the seasons"))
	t.Add(Text("Übergrößenkürbis"), Text("温室"), Cell{Text: "1 Jun", Data: []string{"06-01"}}, Text("4.0"), Cell{Text: "not known", Tone: Quiet}, Text("3"), Text("too few seasons"))
	return t
}

func TestGolden(t *testing.T) {
	for name, o := range map[string]Options{
		"wide.txt":    {},
		"120.txt":     {Width: 120},
		"80.txt":      {Width: 80},
		"60.txt":      {Width: 60},
		"40.txt":      {Width: 40, ASCII: true},
		"colour.txt":  {Width: 80, Colour: true},
		"markdown.md": {Format: Markdown},
		"csv.csv":     {Format: CSV},
	} {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, sample().Write(&b, o))
			golden(t, name, b.Bytes())
			if o.Width > 0 && !o.Colour {
				for _, line := range strings.Split(b.String(), "\n") {
					assert.LessOrEqual(t, width(line), o.Width, line)
				}
			}
		})
	}
}

func TestWidthsNeverExceeded(t *testing.T) {
	for limit := 46; limit < 200; limit++ {
		var b bytes.Buffer
		require.NoError(t, sample().Write(&b, Options{Width: limit}))
		for _, line := range strings.Split(b.String(), "\n") {
			require.LessOrEqual(t, width(line), limit, line)
		}
	}
}

// Colours must change nothing but colours, and end on the line they begin on.
func TestColourOnlyAdds(t *testing.T) {
	for _, limit := range []int{0, 50, 80} {
		var plain, coloured bytes.Buffer
		require.NoError(t, sample().Write(&plain, Options{Width: limit}))
		require.NoError(t, sample().Write(&coloured, Options{Width: limit, Colour: true}))
		require.NotEqual(t, plain.String(), coloured.String())
		codes := regexp.MustCompile("\x1b\\[[0-9;]*m")
		assert.Equal(t, plain.String(), codes.ReplaceAllString(coloured.String(), ""))
		for _, line := range strings.Split(coloured.String(), "\n") {
			assert.Zero(t, strings.Count(line, "\x1b[")%2, "%q", line)
		}
	}
}

func TestColumnsWithoutHeadingAreLeftOutSilently(t *testing.T) {
	tab := Table{Columns: []Column{{Name: "a"}, {Drop: 1}, {Name: "b", Drop: 2}}}
	tab.Add(Text("x"), Text("##########"), Text("yyyyyyyyyy"))
	var b bytes.Buffer
	require.NoError(t, tab.Write(&b, Options{Width: 14}))
	assert.Contains(t, b.String(), "#")
	assert.Contains(t, strings.ReplaceAll(b.String(), "\n", " "), "width: b.")
	b.Reset()
	require.NoError(t, tab.Write(&b, Options{Width: 12}))
	assert.NotContains(t, b.String(), "#")
	assert.Contains(t, strings.ReplaceAll(b.String(), "\n", " "), "width: b.")
}

func TestHostileText(t *testing.T) {
	tab := Table{Columns: []Column{{Name: "file"}, {Name: "n", Align: Right}}}
	tab.Add(Text("a\x1b[2Jb\x00\nc\u202ed"), Text("1"))
	tab.Add(Text("x|y <b>*z*</b>\r\n`q`"), Text("2"))
	tab.Add(Text("=HYPERLINK(\"x\")"), Text("-3"))
	var text, md, csvs bytes.Buffer
	require.NoError(t, tab.Write(&text, Options{}))
	assert.Contains(t, text.String(), "a\ufffd[2Jb\ufffd c\ufffdd")
	assert.NotContains(t, text.String(), "\x1b")
	require.NoError(t, tab.Write(&md, Options{Format: Markdown}))
	assert.Contains(t, md.String(), `x\|y &lt;b&gt;\*z\*&lt;/b&gt;`)
	assert.Equal(t, 5, strings.Count(md.String(), "\n"), "one line a row")
	require.NoError(t, tab.Write(&csvs, Options{Format: CSV}))
	records, err := csv.NewReader(&csvs).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{`'=HYPERLINK("x")`, "-3"}, records[3])
}

func TestGuardFormula(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "beans": "beans", "-3.2": "-3.2", "+1e5": "+1e5", "-": "'-", "-Inf": "'-Inf",
		"=1+1": "'=1+1", "@x": "'@x", "-2+3": "'-2+3", "+0x1p3": "'+0x1p3", "24 May": "24 May",
	} {
		assert.Equal(t, want, GuardFormula(in), in)
	}
}

func TestCSVGivesData(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sample().Write(&b, Options{Format: CSV}))
	assert.Contains(t, b.String(), "courgettes,open bed,05-24,-3.2,0.9,46,")
}

func TestEmptyTables(t *testing.T) {
	for f := range JSON {
		require.NoError(t, Table{}.Write(&bytes.Buffer{}, Options{Format: f, Width: 80}))
		require.NoError(t, Table{Columns: []Column{{Name: "a"}}}.Write(&bytes.Buffer{}, Options{Format: f, Width: 80}))
	}
	assert.Panics(t, func() {
		t := Table{Columns: []Column{{Name: "a"}}}
		t.Add(Text("1"), Text("2"))
		t.Write(&bytes.Buffer{}, Options{})
	})
}

func TestFormats(t *testing.T) {
	for _, name := range FormatNames() {
		f, err := parseFormat(name)
		require.NoError(t, err)
		assert.Equal(t, name, f.String())
	}
	var f Format
	assert.EqualError(t, f.Set("xml"), `"xml" is not a format; wanted table, markdown, csv or json`)
}

func TestWrap(t *testing.T) {
	assert.Equal(t, []string{""}, wrap("", 3))
	assert.Equal(t, []string{"ab", "cd"}, wrap("ab cd", 4))
	assert.Equal(t, []string{"ab cd"}, wrap("ab cd", 5))
	assert.Equal(t, []string{"abc", "def", "g h"}, wrap("abcdefg h", 3))
	assert.Equal(t, []string{"温", "室"}, wrap("温室", 3))
	assert.Equal(t, []string{"温", "室"}, wrap("温室", 1), "a wide character is not lost")
}

// A table without rows says its title and notes, and has no headings to puzzle over.
func TestTextWithoutRows(t *testing.T) {
	var b strings.Builder
	require.NoError(t, Table{Title: "the week", Columns: []Column{{Name: "day"}, {Name: "what to do"}}, Notes: []string{"Nothing is to be done."}}.Write(&b, Options{Width: 80}))
	require.Equal(t, "the week\n\nNothing is to be done.\n", b.String())
}

package chart_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/chart/sample"
	"frostward/cmd/internal/table"
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

var samples = map[string]chart.Chart{
	"curves": sample.Curves(), "window": sample.Window(), "season": sample.Season(),
	"fan": sample.Fan(), "scatter": sample.Scatter(), "reliability": sample.Reliability(), "years": sample.Years(),
}

func TestGoldenData(t *testing.T) {
	for name, c := range samples {
		var b bytes.Buffer
		require.NoError(t, c.Data().Write(&b, table.Options{}))
		golden(t, name+".txt", b.Bytes())
	}
}

func TestGoldenSVG(t *testing.T) {
	for name, c := range samples {
		golden(t, name+".svg", c.SVG("c1", chart.Narrow))
	}
}

// rules checks what every picture must keep to, and returns what it found wrong.
func rules(b []byte, id string) []string {
	var out []string
	d := xml.NewDecoder(bytes.NewReader(b))
	depth, first := 0, true
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return append(out, err.Error())
		}
		switch e := tok.(type) {
		case xml.StartElement:
			depth++
			if first {
				first = false
				if e.Name.Local != "svg" {
					out = append(out, "not an svg")
				}
				for _, want := range []string{"role=img", "aria-labelledby=" + id + "-t", "aria-describedby=" + id + "-d"} {
					if !has(e, want) {
						out = append(out, "lacks "+want)
					}
				}
			}
			switch e.Name.Local {
			case "script", "style", "a", "image", "foreignObject", "use":
				out = append(out, "has "+e.Name.Local)
			}
			for _, a := range e.Attr {
				if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") {
					out = append(out, "has the attribute "+a.Name.Local)
				}
				if a.Name.Local == "id" && !strings.HasPrefix(a.Value, id+"-") {
					out = append(out, "id "+a.Value+" lacks the prefix")
				}
				// A colour needs its class, or a page could not make it dark.
				if (a.Name.Local == "fill" || a.Name.Local == "stroke") && strings.HasPrefix(a.Value, "#") &&
					!strings.Contains(attr(e, "class"), a.Name.Local[:1]+"-") {
					out = append(out, "colour without class")
				}
			}
		case xml.EndElement:
			depth--
		}
	}
	if depth != 0 || first {
		out = append(out, "not closed")
	}
	for _, n := range regexp.MustCompile(`-?\d+\.\d\d+`).FindAllString(regexp.MustCompile(`(?s)<desc.*?</desc>|opacity="[^"]*"|d="[^"]*" transform`).ReplaceAllString(string(b), ""), 3) {
		out = append(out, "more than one decimal: "+n)
	}
	if strings.Contains(string(b), "NaN") || strings.Contains(string(b), "Inf") {
		out = append(out, "NaN or Inf")
	}
	return out
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func has(e xml.StartElement, want string) bool {
	name, value, _ := strings.Cut(want, "=")
	return attr(e, name) == value
}

func TestRules(t *testing.T) {
	for name, c := range samples {
		for _, w := range []int{chart.Narrow, chart.Wide} {
			b := c.SVG("x9", w)
			assert.Empty(t, rules(b, "x9"), name)
			assert.Less(t, len(b), 60000, name)
			assert.Contains(t, string(b), "<title id=\"x9-t\">")
		}
	}
}

// The checker must be able to fail.
func TestRulesFindFaults(t *testing.T) {
	good := string(sample.Curves().SVG("x9", chart.Narrow))
	for name, bad := range map[string]string{
		"script":   strings.Replace(good, "<g ", "<script/><g ", 1),
		"style":    strings.Replace(good, "<g ", `<g style="" `, 1),
		"handler":  strings.Replace(good, "<g ", `<g onload="" `, 1),
		"id":       strings.Replace(good, `id="x9-c"`, `id="c"`, 1),
		"role":     strings.Replace(good, ` role="img"`, "", 1),
		"class":    strings.Replace(good, `class="f-paper"`, "", 1),
		"decimals": strings.Replace(good, `<line x1="`, `<line x1="0.1234`, 1),
		"cut":      good[:len(good)-8],
	} {
		assert.NotEqual(t, good, bad, name)
		assert.NotEmpty(t, rules([]byte(bad), "x9"), name)
	}
}

func TestHostileNames(t *testing.T) {
	b := string(sample.Season().SVG("s", chart.Narrow))
	assert.NotContains(t, b, "<script")
	assert.Contains(t, b, "&lt;script&gt;")
	c := sample.Curves()
	c.Curves[0].Name = `"><script>x</script>`
	c.Title, c.Desc, c.YLabel, c.Flags[0].Name = c.Curves[0].Name, c.Curves[0].Name, c.Curves[0].Name, c.Curves[0].Name
	assert.Empty(t, rules(c.SVG("x9", chart.Narrow), "x9"))
}

// Charts without figures are drawn empty, and say so, rather than panic.
func TestEmpty(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]chart.Chart{
		"curves":      chart.Curves{From: 0, To: 100, Curves: []chart.Curve{{Name: "a", X: []float64{1, 2}, Chance: []float64{nan, nan}}}},
		"no curves":   chart.Curves{From: 0, To: 100},
		"season":      chart.Season{From: 0, To: 100, Groups: []chart.Group{{Rows: []chart.Row{{Name: "a"}}}}},
		"no rows":     chart.Season{From: 0, To: 100},
		"fan":         chart.Fan{From: 0, To: 100},
		"fan of NaN":  chart.Fan{From: 0, To: 2, Past: [][]float64{{nan, nan}}, This: []float64{nan}},
		"scatter":     chart.Scatter{},
		"one point":   chart.Scatter{Points: []chart.Points{{X: []float64{1}, Y: []float64{nan}}}},
		"reliability": chart.Reliability{},
	} {
		assert.Empty(t, rules(c.SVG("x9", chart.Narrow), "x9"), name)
		c.Data()
	}
}

func TestDescriptionsTellFigures(t *testing.T) {
	b := string(sample.Curves().SVG("c", chart.Narrow))
	// By hand: 15 May is season day 134; the curve is 1 - bell((134-136)/11) = 0.572.
	assert.Contains(t, b, "15 May 6 in 10")
	b = string(sample.Season().SVG("c", chart.Narrow))
	assert.Contains(t, b, "hardening off from 12 May to 23 May")
	_ = climate.Calendar{}
}

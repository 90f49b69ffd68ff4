package chart_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/chart/sample"
)

var nan, inf = math.NaN(), math.Inf(1)

func TestSpark(t *testing.T) {
	v := []float64{0, 0.1, 0.2, 0.4, nan, 0.6, 0.8, 1, 2, -1}
	assert.Equal(t, "▁▁▂▄ ▅▇██▁", chart.Pen{}.Spark(v, 0, 1))
	assert.Equal(t, "__.- =*##_", chart.Pen{ASCII: true}.Spark(v, 0, 1))
	assert.Equal(t, "▁▁", chart.Pen{}.Spark([]float64{3, 3}, 3, 3), "no spread")
}

func TestBox(t *testing.T) {
	s := chart.Scale{From: 0, To: 20}
	f := chart.Five{Low: 2, Quarter: 6, Middle: 10, ThreeQuarters: 14, High: 18}
	assert.Equal(t, "  ├───████┃████───┤", chart.Pen{}.Box(f, s, 21))
	assert.Equal(t, "  |---====#====---|", chart.Pen{ASCII: true}.Box(f, s, 21))
	f.Low, f.High = math.Inf(-1), inf
	assert.Equal(t, "<-----====#====----->", chart.Pen{ASCII: true}.Box(f, s, 21))
	assert.Equal(t, "", chart.Pen{}.Box(chart.Five{Low: nan, Quarter: nan, Middle: nan, ThreeQuarters: nan, High: nan}, s, 21))
	assert.Equal(t, strings.Repeat(" ", 20)+">", chart.Pen{}.Box(chart.Five{Low: inf, Quarter: inf, Middle: inf, ThreeQuarters: inf, High: inf}, s, 21), "it never comes")
}

func terminalPictures(p chart.Pen) string {
	var b strings.Builder
	show := func(lines []string) { b.WriteString(strings.Join(lines, "\n") + "\n\n") }
	w := sample.Window()
	both := w.Curves[2].Chance
	both[40], both[41], both[42], both[43], both[44] = nan, nan, nan, nan, nan
	show(p.MonthBar(both, chart.Scale{From: 90, To: 212, Months: true}, 61))
	show(p.Lanes([]chart.Lane{
		{Label: "last spring frost", Five: chart.Five{Low: 95, Quarter: 106, Middle: 115, ThreeQuarters: 123, High: 136}, Mark: 128},
		{Label: "at 2 °C", Five: chart.Five{Low: 112, Quarter: 124, Middle: 131, ThreeQuarters: 139, High: 153}, Mark: nan},
	}, chart.Scale{From: 59, To: 181, Months: true}, 72))
	show(p.Lanes([]chart.Lane{
		{Label: "1 May", Five: chart.Five{Low: 60, Quarter: 80, Middle: 98, ThreeQuarters: 112, High: 140}, Mark: 120},
		{Label: "1 Jun", Five: chart.Five{Low: 190, Quarter: 240, Middle: 270, ThreeQuarters: 300, High: 360}, Mark: nan},
		{Label: "1 Sep", Five: chart.Five{Low: 800, Quarter: 880, Middle: 930, ThreeQuarters: 990, High: 1100}, Mark: nan},
	}, chart.Scale{From: 0, To: 1200}, 72))
	south := chart.Scale{From: 59, To: 181, Months: true, Calendar: climate.Calendar{South: true}}
	show(p.MonthBar(make([]float64, 122), south, 40))
	return b.String()
}

func TestTerminalGolden(t *testing.T) {
	fine, plain := terminalPictures(chart.Pen{}), terminalPictures(chart.Pen{ASCII: true})
	golden(t, "terminal.txt", []byte(fine))
	golden(t, "terminal-ascii.txt", []byte(plain))
	for _, r := range plain {
		if r > 127 && r != '°' { // the degree sign is the label's
			t.Fatalf("%q is not ASCII", r)
		}
	}
	a, b := strings.Split(fine, "\n"), strings.Split(plain, "\n")
	for i := range a {
		assert.Equal(t, len([]rune(a[i])), len([]rune(b[i])), "the twins are aligned alike: %s", b[i])
		assert.LessOrEqual(t, len([]rune(a[i])), 72)
	}
}

package chart

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type rgb [3]float64 // linear light, 0 to 1

// linear undoes sRGB's curve (IEC 61966-2-1; WCAG 2.2, "relative luminance").
func linear(t *testing.T, hex string) rgb {
	t.Helper()
	require.Regexp(t, "^#[0-9a-f]{6}$", hex)
	var c rgb
	for i := range c {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		require.NoError(t, err)
		s := float64(v) / 255
		if s <= 0.04045 {
			c[i] = s / 12.92
		} else {
			c[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return c
}

// contrast is WCAG 2.2's contrast ratio.
func contrast(a, b rgb) float64 {
	l := func(c rgb) float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }
	hi, lo := max(l(a), l(b)), min(l(a), l(b))
	return (hi + 0.05) / (lo + 0.05)
}

func TestContrastFormula(t *testing.T) {
	// WCAG 2.2: black on white is 21. #777777 on white is 4.48, just short of AA for
	// text (commonly quoted, from memory).
	assert.InDelta(t, 21, contrast(linear(t, "#000000"), linear(t, "#ffffff")), 1e-9)
	assert.InDelta(t, 4.48, contrast(linear(t, "#777777"), linear(t, "#ffffff")), 0.005)
}

func TestContrast(t *testing.T) {
	for _, dark := range []bool{false, true} {
		colour := func(r Role) rgb {
			light, night := r.Colours()
			if dark {
				return linear(t, night)
			}
			return linear(t, light)
		}
		for _, r := range append([]Role{Ink, Muted}, seriesRoles...) { // the marks that decide have the contrast of text
			assert.GreaterOrEqual(t, contrast(colour(r), colour(Paper)), 7.0, "text, %s (WCAG 2.2, 1.4.6)", shades[r].name)
		}
	}
}

// machado are the matrices for full protanopia, deuteranopia and tritanopia of Machado,
// Oliveira & Fernandes 2009 (IEEE Trans. Vis. Comput. Graph. 15, 1291-1298), severity 1,
// as the authors give them for linear RGB; figures from memory, agreeing with copies in
// two public shader libraries.
var machado = map[string][3]rgb{
	"full sight": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan":     {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deutan":     {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritan":     {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

func seenBy(m [3]rgb, c rgb) rgb {
	var out rgb
	for i := range out {
		v := m[i][0]*c[0] + m[i][1]*c[1] + m[i][2]*c[2]
		out[i] = min(1, max(0, v))
	}
	return out
}

// lab is CIE 1976 L*a*b* for D65.
func lab(c rgb) [3]float64 {
	xyz := [3]float64{
		(0.4124564*c[0] + 0.3575761*c[1] + 0.1804375*c[2]) / 0.95047,
		0.2126729*c[0] + 0.7151522*c[1] + 0.0721750*c[2],
		(0.0193339*c[0] + 0.1191920*c[1] + 0.9503041*c[2]) / 1.08883,
	}
	for i, v := range xyz {
		if v > 216.0/24389 {
			xyz[i] = math.Cbrt(v)
		} else {
			xyz[i] = (24389.0/27*v + 16) / 116
		}
	}
	return [3]float64{116*xyz[1] - 16, 500 * (xyz[0] - xyz[1]), 200 * (xyz[1] - xyz[2])}
}

func distance(a, b [3]float64) float64 {
	return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
}

// Two series colours stay at least 12 units of CIE 1976 colour difference apart for
// every kind of eye: about five times what is just noticeable (2.3, from memory).
func TestSeriesStayApart(t *testing.T) {
	for eyes, m := range machado {
		for _, row := range m {
			assert.InDelta(t, 1, row[0]+row[1]+row[2], 2e-6, "%s: grey must stay grey", eyes)
		}
		for i, a := range seriesRoles {
			for _, b := range seriesRoles[:i] {
				la, da := a.Colours()
				lb, db := b.Colours()
				for _, pair := range [][2]string{{la, lb}, {da, db}} {
					d := distance(lab(seenBy(m, linear(t, pair[0]))), lab(seenBy(m, linear(t, pair[1]))))
					assert.GreaterOrEqual(t, d, 12.0, "%s: %s and %s", eyes, shades[a].name, shades[b].name)
				}
			}
		}
	}
	// The test must be able to fail: red and green of equal lightness meet for a deutan.
	red, green := linear(t, "#b05a50"), linear(t, "#7f7f3c")
	assert.Less(t, distance(lab(seenBy(machado["deutan"], red)), lab(seenBy(machado["deutan"], green))), 12.0)
	assert.Greater(t, distance(lab(red), lab(green)), 30.0)
}

// Without any colour, dash, hatch and mark still keep the series apart.
func TestDashHatchAndMarkDiffer(t *testing.T) {
	seen := map[string]string{}
	for _, r := range seriesRoles {
		s := shades[r]
		for kind, v := range map[string]string{"dash": s.dash, "hatch": s.hatch, "mark": s.mark} {
			assert.Empty(t, seen[kind+v], "%s of %s", kind, s.name)
			seen[kind+v] = s.name
		}
		assert.NotEmpty(t, s.hatch)
		assert.NotEmpty(t, s.mark)
	}
	for i, a := range stages {
		for _, b := range stages[:i] {
			assert.True(t, a.fill != b.fill || a.height != b.height || shades[a.role].hatch != shades[b.role].hatch, "%s and %s", a.name, b.name)
		}
	}
}

func TestDarkStyleHasEveryRole(t *testing.T) {
	css := DarkStyle(".x")
	for _, s := range shades {
		assert.Contains(t, css, ".x .f-"+s.name+"{fill:"+s.dark+"}")
		assert.Contains(t, css, ".x .s-"+s.name+"{stroke:"+s.dark+"}")
	}
}

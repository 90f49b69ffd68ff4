package daily

import (
	"fmt"

	"frostward/climate"
)

// snowNames are the columns of snow lying on the ground, as columnKey gives their names, and how many cm one of their
// unit is; 0 is mm, or inches where temperatures are in °F. A name that does not tell its unit is not here.
var snowNames = map[string]float64{
	"snwd": 0, "sndp": 0, // GHCN-Daily readme: SNWD in mm; Climate Data Online and GSOD: inches with °F
	"shktag": 1, "hto000d0": 1, "snodybde": 1, // DWD, MeteoSwiss and met.no: cm
	"snowongrndcm": 1, "snowdepthcm": 1, "snowcm": 1, "lumensyvyyscm": 1,
	"snowdepthmm": 0.1, "snowmm": 0.1, "snowdepthm": 100, "snowdepthinch": 2.54, "snowdepthinches": 2.54,
}

// snowColumn is where a table has snow; cm is what one of its unit is.
type snowColumn struct {
	known     bool
	at, flags int // flags -1: none
	cm        float64
}

func snowIn(keys []string, l *layout) (c snowColumn) {
	c.flags = -1
	for i, k := range keys {
		cm, ok := snowNames[k]
		if k == "snow" && l != nil && l.name == "Meteostat daily" { // elsewhere it is what fell
			cm, ok = 0.1, true
		}
		switch {
		case ok && !c.known:
			c.known, c.at, c.cm = true, i, cm
		case k == "snwdattributes":
			c.flags = i
		}
	}
	return c
}

// last is the last column of a row that is wanted.
func (c snowColumn) last() int {
	if !c.known {
		return -1
	}
	return max(c.at, c.flags)
}

// read takes the snow of a row. What is no depth is none: it is beside the temperatures, and no fault of theirs.
func (c snowColumn) read(t *table, day climate.Day, f [][]byte) {
	if !c.known || c.at >= len(f) || c.flags >= 0 && c.flags < len(f) && qualityFlag(f[c.flags]) {
		return
	}
	if v, ok := parseNumber(f[c.at]); ok && !isCode(v, "") {
		t.snowUnit = c.cm == 0
		if !t.snowUnit {
			v *= c.cm
		}
		t.addSnow(day, v)
	}
}

// mostSnow is the deepest snow that is believed, in cm or mm: no weather station has had 12 m of it.
const mostSnow = 12_000

func (t *table) addSnow(day climate.Day, v float64) {
	if !(v > 0 && v < mostSnow) {
		return
	}
	if t.snow == nil {
		t.snow = map[int]float64{}
	}
	t.snow[int(day-windowFirst)] = v
}

// lay puts the snow on a series that begins at an index.
func (t *table) lay(s *climate.Series, u Units, from int, rep *Report) {
	if t.snow == nil {
		return
	}
	cm := 1.0
	if t.snowUnit {
		if cm = 0.1; u == Fahrenheit {
			cm = 2.54
		}
	}
	s.Snow = make([]float64, s.Len())
	for i := range s.Snow {
		s.Snow[i] = cm * t.snow[from+i]
	}
	rep.Notes = append(rep.Notes, fmt.Sprintf("snow on the ground is read, too: it lay on %d days", len(t.snow)))
}

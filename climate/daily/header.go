package daily

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// idle are words in a column's name that say nothing of which column it is.
var idle = map[string]bool{
	"in": true, "of": true, "the": true, "deg": true, "degrees": true, "degree": true, "daily": true, "grad": true,
	"graden": true, "0": true, "1": true, "unit": true, "units": true,
}

// folded are letters beyond ASCII as names are compared, spelt as the languages do where they have to.
var folded = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "å", "a", "æ", "ae", "ø", "o", "á", "a", "à", "a",
	"â", "a", "ã", "a", "ç", "c", "č", "c", "é", "e", "è", "e", "ê", "e", "ę", "e", "í", "i", "ı", "i", "ł", "l", "ń", "n", "ñ", "n", "ó", "o", "ô", "o",
	"õ", "o", "ś", "s", "š", "s", "ú", "u", "ý", "y", "ż", "z", "ź", "z")

// columnKey is a column's name as it is compared: in lower case, letters beyond ASCII folded, with nothing but
// letters and digits, and without words of unit and place.
func columnKey(name string) string {
	if !utf8.ValidString(name) { // Latin-1, as it is left
		runes := make([]rune, 0, len(name))
		for _, c := range []byte(name) {
			runes = append(runes, rune(c))
		}
		name = string(runes)
	}
	words := strings.FieldsFunc(folded.Replace(strings.ToLower(name)), func(r rune) bool {
		return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	var kept []string
	for i, w := range words {
		if !idle[w] && (i == 0 || unitWords[w] == "") {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, "")
}

// classify reads a column's name: "Tmin (°C)" is a minimum in °C.
func classify(name string) (column, Units) {
	unit := statedUnits(name)
	key := columnKey(name)
	if c, ok := columnNamed[key]; ok {
		if c == colTemperature && unit == "" && len(key) == 5 {
			unit = unitWords[strings.TrimPrefix(key, "temp")] // tempf, tempc
		}
		return c, unit
	}
	// tmin_c is done above; tminC and TmaxF have the unit as their last letter.
	if n := len(key) - 1; n > 2 {
		if c := columnNamed[key[:n]]; c == colTmin || c == colTmax {
			if u := unitWords[key[n:]]; u != "" {
				return c, u
			}
		}
	}
	return colOther, ""
}

// header says where the columns of a table are.
type header struct {
	at         [numColumns]int // -1 where there is none
	width      int             // columns in all
	last       int             // the last one needed
	units      Units           // of the temperatures, where stated
	tmin, tmax string          // the names taken
	layout     *layout         // nil where it is none of those listed
	flags      []flagAt
	snow       snowColumn
	unused     []string // names of the columns that were not taken
}

// readHeader finds the columns in a row of names. It is false where the row is no
// header of a weather table; an error says that it is one, but cannot be used.
func readHeader(names []string, opts Options) (h header, ok bool, err error) {
	for c := range h.at {
		h.at[c] = -1
	}
	h.width = len(names)
	var unit [numColumns]Units
	double := colOther
	for i, name := range names {
		c, u := classify(name)
		if c == colOther {
			h.unused = append(h.unused, strings.TrimSpace(name))
			continue
		}
		if h.at[c] >= 0 {
			if c == colTmin || c == colTmax || c == colTemperature && h.at[colTmin] < 0 && h.at[colTmax] < 0 && u == unit[c] {
				double = c
			}
			continue
		}
		h.at[c], unit[c] = i, u
	}
	h.clock()
	for c, want := range map[column]string{colTmin: opts.Tmin, colTmax: opts.Tmax, colTemperature: opts.Temperature} {
		if want == "" || !h.dated() {
			continue
		}
		if h.at[c] = indexFold(names, want); h.at[c] < 0 {
			return h, false, fmt.Errorf("has no column %q; its columns are %s", want, listed(names, 40))
		}
		_, unit[c] = classify(names[h.at[c]])
		if double == c {
			double = colOther
		}
	}
	if h.at[colDate] < 0 && h.at[colYear] < 0 && h.at[colDay] >= 0 {
		h.at[colDate] = h.at[colDay] // a column "day" with whole dates in it
	}
	if h.at[colTmin] >= 0 || h.at[colTmax] >= 0 {
		h.at[colTemperature] = -1 // the mean, or the temperature at the hour of observation
		if double == colTemperature {
			double = colOther
		}
	}
	if !h.dated() || h.at[colTmin] < 0 && h.at[colTmax] < 0 && h.at[colTemperature] < 0 {
		return h, false, nil
	}
	if double != colOther {
		return h, false, fmt.Errorf("has two columns that could be the %s; name the one to take (--read tmin=, tmax= or temperature= one of %s)",
			map[column]string{colTmin: "minimum", colTmax: "maximum", colTemperature: "temperature"}[double], listed(names, 40))
	}
	keys := make([]string, len(names))
	for i, n := range names {
		keys[i] = columnKey(n)
	}
	h.layout = layoutOf(keys)
	h.flags = h.layout.flagsOf(keys)
	h.snow = snowIn(keys, h.layout)
	for c, i := range h.at {
		if c != int(colOther) {
			h.last = max(h.last, i)
		}
	}
	for _, f := range h.flags {
		h.last = max(h.last, f.at)
	}
	h.units = unit[colTmin]
	if h.at[colTemperature] >= 0 {
		h.units = unit[colTemperature]
		h.tmin = strings.TrimSpace(names[h.at[colTemperature]])
		h.tmax = h.tmin
	}
	if h.units == "" {
		h.units = unit[colTmax]
	}
	if u := unit[colTmax]; u != "" && u != h.units {
		return h, false, fmt.Errorf("has the minimum in %s and the maximum in %s; wanted one unit for both", h.units, u)
	}
	for c, name := range map[column]*string{colTmin: &h.tmin, colTmax: &h.tmax} {
		if i := h.at[c]; i >= 0 {
			*name = strings.TrimSpace(names[i])
		}
	}
	return h, true, nil
}

// clock takes a column such as "time" for the date where there is no other, and for the time of day where there is.
func (h *header) clock() {
	whole := h.at[colYear] >= 0 && h.at[colMonth] >= 0 && h.at[colDay] >= 0
	if h.at[colDate] < 0 && !whole && h.at[colClock] >= 0 {
		h.at[colDate], h.at[colClock] = h.at[colClock], -1
	}
}

// dated says whether there are columns enough to make a date.
func (h header) dated() bool {
	y := h.at[colYear] >= 0
	return h.at[colDate] >= 0 || y && h.at[colMonth] >= 0 && h.at[colDay] >= 0 || y && h.at[colYearDay] >= 0 ||
		h.at[colDay] >= 0 && !y
}

func indexFold(names []string, want string) int {
	for i, n := range names {
		if strings.EqualFold(strings.TrimSpace(n), want) {
			return i
		}
	}
	return -1
}

// listed joins names for a message, at most n of them.
func listed(names []string, n int) string {
	var b strings.Builder
	for i, s := range names {
		if i == n {
			fmt.Fprintf(&b, " and %d more", len(names)-n)
			break
		}
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(quoted([]byte(strings.TrimSpace(s))))
	}
	return b.String()
}

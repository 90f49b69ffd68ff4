package daily

import (
	"fmt"
	"strings"
	"unicode"
)

// idle are words in a column's name that say nothing of which column it is.
var idle = map[string]bool{
	"in": true, "of": true, "the": true, "deg": true, "degrees": true, "degree": true, "daily": true, "grad": true,
	"graden": true, "0": true, "1": true, "unit": true, "units": true,
}

// classify reads a column's name: "Tmin (°C)" is a minimum in °C.
func classify(name string) (column, Units) {
	unit := statedUnits(name)
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	var kept []string
	for i, w := range words {
		if !idle[w] && (i == 0 || unitWords[w] == "") {
			kept = append(kept, w)
		}
	}
	key := strings.Join(kept, "")
	if c, ok := columnNamed[key]; ok {
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
			continue
		}
		if h.at[c] >= 0 {
			if c == colTmin || c == colTmax {
				double = c
			}
			continue
		}
		h.at[c], unit[c] = i, u
	}
	for c, want := range map[column]string{colTmin: opts.Tmin, colTmax: opts.Tmax} {
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
	if !h.dated() || h.at[colTmin] < 0 && h.at[colTmax] < 0 {
		return h, false, nil
	}
	if double != colOther {
		return h, false, fmt.Errorf("has two columns that could be the %s; name the one to take (columns %s)",
			map[column]string{colTmin: "minimum", colTmax: "maximum"}[double], listed(names, 40))
	}
	for c, i := range h.at {
		if c != int(colOther) {
			h.last = max(h.last, i)
		}
	}
	h.units = unit[colTmin]
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

// dated tells whether there are columns enough to make a date.
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

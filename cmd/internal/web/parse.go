package web

import (
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"frostward/climate"
	"frostward/cmd/internal/words"
)

// values reads a form, keeping the first mistake.
type values struct {
	url.Values
	units   words.Units // of the temperatures
	mistake *Mistake
}

// then goes on when there was no mistake.
func (v *values) then(act func() error) error {
	if v.mistake != nil {
		return v.mistake
	}
	return act()
}

// The limits of a temperature, in °C: the coldest and warmest that a garden meets, and some.
const lowest, highest = -60, 60

// temperature reads an optional one in the garden's unit, as °C; NaN when not given.
func (v *values) temperature(field string) float64 {
	t := v.number(field, v.units.Value(lowest), v.units.Value(highest), v.units.Unit())
	if v.units.Fahrenheit {
		t = math.Round(climate.Celsius(t)*100) / 100 // the log's own precision is coarser
	}
	return t
}

func (v *values) fail(field, format string, args ...any) {
	if v.mistake == nil {
		v.mistake = mistakef(field, format, args...)
	}
}

func (v *values) text(field string) string { return strings.TrimSpace(v.Get(field)) }

// day reads a date, no later than last.
func (v *values) day(field string, last climate.Day) climate.Day {
	d, err := climate.ParseDay(v.text(field))
	switch {
	case err != nil:
		v.fail(field, "%v", err)
	case d > last:
		v.fail(field, "%s is still to come; wanted %s or earlier", d, last)
	case d < climate.NewDay(1800, 1, 1):
		v.fail(field, "%s is too long ago", d)
	}
	return d
}

// number reads an optional number between limits; NaN when not given.
func (v *values) number(field string, low, high float64, unit string) float64 {
	t := v.text(field)
	if t == "" {
		return math.NaN()
	}
	t = strings.Replace(strings.Replace(t, ",", ".", 1), "−", "-", 1)
	x, err := strconv.ParseFloat(t, 64)
	if err != nil || strings.ContainsAny(t, "xXpPiInN_") {
		v.fail(field, "%q is not a number", v.text(field))
		return math.NaN()
	}
	if !(x >= low && x <= high) {
		v.fail(field, "%s %s is not between %g and %g %s", t, unit, low, high, unit)
		return math.NaN()
	}
	return x
}

// choice reads one of some words; "" when empty is allowed.
func (v *values) choice(field string, from []string, optional bool) string {
	t := v.Get(field)
	if t == "" && optional || slices.Contains(from, t) {
		return t
	}
	v.fail(field, "%q is not one of the choices", short(t))
	return ""
}

// note reads a free text of one line.
func (v *values) note(field string) string {
	t := v.text(field)
	switch {
	case !utf8.ValidString(t) || strings.ContainsFunc(t, unicode.IsControl):
		v.fail(field, "has characters that are not text; wanted one line")
	case utf8.RuneCountInString(t) > 200:
		v.fail(field, "is longer than 200 characters")
	}
	return t
}

func short(t string) string {
	if r := []rune(t); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return t
}

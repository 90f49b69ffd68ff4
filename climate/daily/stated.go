package daily

import (
	"regexp"
	"strconv"
	"strings"
)

// unitWords are the words for units in names and notes.
var unitWords = map[string]Units{
	"c": Celsius, "degc": Celsius, "celsius": Celsius, "centigrade": Celsius,
	"f": Fahrenheit, "degf": Fahrenheit, "fahrenheit": Fahrenheit,
	"k": Kelvin, "kelvin": Kelvin, "tenths": TenthsCelsius,
}

// unitIn finds a unit as a word of its own; the degree sign may be lost or garbled.
var (
	unitIn   = onDemand(`(?i)(?:^|[^a-z0-9])(deg\.?\s?[cfk]|celsius|centigrade|fahrenheit|kelvin|[cfk])(?:[^a-z0-9]|$)`)
	tenthsIn = onDemand(`(?i)(?:0[.,]1|tenths?|1/10)\b`)
)

// statedUnits reads the unit that a column's name states, or "" where it states none.
func statedUnits(name string) Units {
	return unitsIn(name, unitIn())
}

func unitsIn(s string, re *regexp.Regexp) Units {
	found := Units("")
	for _, m := range re.FindAllStringSubmatch(s, -1) {
		word := strings.ToLower(m[1])
		u := unitWords[word[:1]]
		if w, ok := unitWords[word]; ok {
			u = w
		} else if strings.HasPrefix(word, "deg") {
			u = unitWords[word[len(word)-1:]]
		}
		if found != "" && found != u {
			return ""
		}
		found = u
	}
	if tenthsIn().MatchString(s) && (found == Celsius || found == "") {
		if found == "" && !strings.Contains(strings.ToLower(s), "tenth") {
			return ""
		}
		return TenthsCelsius
	}
	return found
}

var (
	// unitInText is stricter than unitIn: a lone c, f or k in a sentence means nothing.
	unitInText = onDemand(`(?i)(?:^|[^a-z0-9])(deg\.?\s?[cfk]|celsius|centigrade|fahrenheit|kelvin|(?:°|º|&#176;|\x{FFFD})\s?[cf])(?:[^a-z0-9]|$)`)
	warmth     = onDemand(`(?i)temp|\bt(?:min|max|n|x)\b|max|min`)
)

// unitsInText reads the unit from a line of text beside a table, provided that the
// line is about temperature.
func unitsInText(line string) Units {
	if !warmth().MatchString(line) {
		return ""
	}
	line = strings.NewReplacer("°C", "degC", "°F", "degF", "ºC", "degC", "ºF", "degF", "&#176;C", "degC", "&#176;F", "degF",
		"\xb0C", "degC", "\xb0F", "degF").Replace(line)
	return unitsIn(line, unitInText())
}

var latitudeIn = onDemand(`(?i)\blat(?:itude)?\b\.?[\s:=,;(]*([+-]?[0-9]{1,2}(?:\.[0-9]+)?)\s*(?:deg(?:rees)?|°)?\s*([ns])?\b`)

// latitudeInText reads "Latitude: 51.2 N" and the like.
func latitudeInText(line string) (float64, bool) {
	m := latitudeIn().FindStringSubmatch(line)
	if m == nil {
		return 0, false
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil || v < -90 || v > 90 {
		return 0, false
	}
	if strings.EqualFold(m[2], "s") && v > 0 {
		v = -v
	}
	return v, true
}

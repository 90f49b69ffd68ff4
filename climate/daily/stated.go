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

var (
	latitudeIn  = onDemand(`(?i)\blat(?:itude)?\b\.?["\s:=,;(]*([+-]?[0-9]{1,2}(?:\.[0-9]+)?)\s*(?:deg(?:rees)?|°)?\s*([ns])?\b`)
	longitudeIn = onDemand(`(?i)\blong?(?:itude)?\b\.?["\s:=,;(]*([+-]?[0-9]{1,3}(?:\.[0-9]+)?)\s*(?:deg(?:rees)?|°)?\s*([ew])?\b`)
	locationIn  = onDemand(`^location,G,(-?[0-9.]+),(-?[0-9.]+)`) // BADC-CSV: latitude and longitude
)

// latitudeInText reads "Latitude: 51.2 N" and the like.
func latitudeInText(line string) (float64, bool) { return degreesIn(latitudeIn(), line, 90, "s") }

func degreesIn(re *regexp.Regexp, line string, most float64, negative string) (float64, bool) {
	m := re.FindStringSubmatch(line)
	if m == nil {
		return 0, false
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil || v < -most || v > most {
		return 0, false
	}
	if strings.EqualFold(m[2], negative) && v > 0 {
		v = -v
	}
	return v, true
}

// placeInText takes a station's place from the text around a table: sentences, or a line of names such as
// latitude,longitude,elevation with their values below it.
func placeInText(text []string, rep *Report) {
	for i, line := range text {
		if v, ok := latitudeInText(line); ok {
			rep.Latitude = v
		}
		if v, ok := degreesIn(longitudeIn(), line, 180, "w"); ok {
			rep.Longitude = v
		}
		if m := locationIn().FindStringSubmatch(line); m != nil {
			rep.Latitude, _ = strconv.ParseFloat(m[1], 64)
			rep.Longitude, _ = strconv.ParseFloat(m[2], 64)
		}
		if i+1 == len(text) || !strings.Contains(strings.ToLower(line), "latitud") {
			continue
		}
		sep := ","
		if strings.Contains(line, ";") {
			sep = ";"
		}
		names, values := strings.Split(line, sep), strings.Split(text[i+1], sep)
		for k := range min(len(names), len(values)) {
			v, ok := parseNumber(trim([]byte(values[k])))
			if c, _ := classify(names[k]); ok {
				switch {
				case c == colLatitude && v >= -90 && v <= 90:
					rep.Latitude = v
				case c == colLongitude && v >= -180 && v <= 180:
					rep.Longitude = v
				case c == colElevation:
					rep.Elevation = v
				}
			}
		}
	}
}

// namedElement finds the one element that some text names; NoElement where it names none or both.
func namedElement(text []string) (e Element) {
	for _, line := range text {
		line = strings.Map(func(r rune) rune {
			if r == '_' {
				return ' '
			}
			return r
		}, line)
		isMin, isMax := minWord().MatchString(line), maxWord().MatchString(line)
		if isMin == isMax {
			continue
		}
		found := Tmin
		if isMax {
			found = Tmax
		}
		if e != NoElement && e != found {
			return NoElement
		}
		e = found
	}
	return e
}

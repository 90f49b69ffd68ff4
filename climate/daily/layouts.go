package daily

import (
	"regexp"
	"strings"
)

// layout is what is known of an archive's tables beside the names of their columns. Names are as columnKey gives
// them. Most layouts need no row here: their columns' names and units say all.
type layout struct {
	name  Format
	marks string    // the columns by which it is known; all must be there
	units Units     // fixed for the layout, where its headers do not say them
	flags []badFlag // columns that say which values not to use
}

// badFlag is a column beside a value; a value is left out where the column has one of the bad texts.
type badFlag struct {
	of     Element // NoElement is both
	column string
	bad    string // texts, parted by blanks; ">1" is any number above 1
}

// Sources are the archives' own descriptions of their files; where one is marked so, it is from memory.
var layouts = []layout{
	{name: "NOAA Global Summary of the Day", marks: "dewpattributes maxattributes minattributes", units: Fahrenheit}, // readme: MAX, MIN in °F to tenths, 9999.9 missing
	{name: "Météo-France daily", marks: "numposte aaaammjj", units: Celsius, // descriptif des champs: quality 2 is doubtful
		flags: []badFlag{{Tmin, "qtn", "2"}, {Tmax, "qtx", "2"}}},
	{name: "MeteoSwiss daily", marks: "tre200dn tre200dx", units: Celsius},                                    // legend: "Air temperature 2 m above ground; daily minimum", °C
	{name: "ECA&D blended", marks: "souid qtn", units: TenthsCelsius, flags: []badFlag{{Tmin, "qtn", "1 9"}}}, // header: 0 valid, 1 suspect, 9 missing
	{name: "ECA&D blended", marks: "souid qtx", units: TenthsCelsius, flags: []badFlag{{Tmax, "qtx", "1 9"}}}, //
	{name: "Bureau of Meteorology daily", marks: "bureaumeteorologystationnumber daysaccumulationminimumtemperature", units: Celsius, // notes on the daily data:
		flags: []badFlag{{Tmin, "daysaccumulationminimumtemperature", ">1"}, {NoElement, "quality", "S W I X"}}}, // lowest of several days; suspect, wrong
	{name: "Bureau of Meteorology daily", marks: "bureaumeteorologystationnumber daysaccumulationmaximumtemperature", units: Celsius,
		flags: []badFlag{{Tmax, "daysaccumulationmaximumtemperature", ">1"}, {NoElement, "quality", "S W I X"}}},
	{name: "Environment Canada daily", marks: "datetime maxtempflag mintempflag", units: Celsius},
	{name: "DWD daily", marks: "messdatum tnk txk", units: Celsius},
	{name: "AEMET daily", marks: "fecha indicativo tmin tmax", units: Celsius},
	{name: "met.no daily", marks: "navn stasjon tidnorsknormaltid", units: Celsius},
	{name: "SMHI daily", marks: "representativtdygn lufttemperatur", units: Celsius},
	{name: "SMHI hourly", marks: "tidutc lufttemperatur", units: Celsius},
	{name: "Met Éireann daily", marks: "maxtp mintp gmin", units: Celsius},
	{name: "IMGW daily", marks: "imgwstation tminstatus", units: Celsius, // format: status 8 is "no measurement", the value then 0
		flags: []badFlag{{Tmin, "tminstatus", "8"}, {Tmax, "tmaxstatus", "8"}}},
	{name: "MIDAS Open (BADC-CSV)", marks: "obendtime obhourcount", units: Celsius, // user guide: version 1 is the checked one
		flags: []badFlag{{NoElement, "versionnum", "0"}}},
	{name: "Meteostat daily", marks: "tavg tmin tmax wpgt tsun", units: Celsius},
	{name: KNMI, marks: "stn yyyymmdd", units: TenthsCelsius},
}

// headless are layouts without a line of names: how a row begins, and the names it wants.
var headless = []struct {
	row   string // a regular expression
	names string
}{
	// IMGW k_d and s_d files: station, name, date, maximum, status, minimum, status, more.
	{`^"?\d{9}"?,"[^"]*","?\d{4}"?,"?\d\d"?,"?\d\d"?,"?-?\d*\.?\d*"?,"?[89]?"?,"?-?\d*\.?\d*"?,"?[89]?"?,`,
		"imgw_station,name,year,month,day,tmax,tmax_status,tmin,tmin_status"},
	// Meteostat bulk: date, mean, minimum, maximum, and seven more.
	{`^\d{4}-\d\d-\d\d,(?:-?\d*\.?\d*,){9}-?\d*\.?\d*$`, "date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun"},
}

var headlessRow = func() (all []func() *regexp.Regexp) {
	for _, h := range headless {
		all = append(all, onDemand(h.row))
	}
	return all
}()

// layoutOf finds the layout of a table by the keys of its columns.
func layoutOf(keys []string) *layout {
	has := map[string]bool{}
	for _, k := range keys {
		has[k] = true
	}
next:
	for i := range layouts {
		for _, m := range strings.Fields(layouts[i].marks) {
			if !has[m] {
				continue next
			}
		}
		return &layouts[i]
	}
	return nil
}

// flagAt is a flag whose column has been found.
type flagAt struct {
	badFlag
	at int
}

// flagsOf finds a layout's flags among the keys of a table's columns.
func (l *layout) flagsOf(keys []string) (all []flagAt) {
	if l == nil {
		return nil
	}
	for _, f := range l.flags {
		for i, k := range keys {
			if k == f.column {
				all = append(all, flagAt{f, i})
				break
			}
		}
	}
	return all
}

// isBad says whether a text of the flag's column says not to use the value.
func (f badFlag) isBad(text []byte) bool {
	if f.bad == ">1" {
		return atoi(text) > 1
	}
	for _, bad := range strings.Fields(f.bad) {
		if string(text) == bad {
			return true
		}
	}
	return false
}

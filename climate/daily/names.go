package daily

import "strings"

// column is what a column of a table holds.
type column int8

const (
	colOther column = iota
	colStation
	colName
	colLatitude
	colLongitude
	colElevation
	colDate
	colYear
	colMonth
	colDay
	colYearDay
	colTmin
	colTmax
	colTminFlags
	colTmaxFlags
	numColumns
)

// columnNames gives the spellings of each column, in lower case with everything but letters and digits
// taken out, and with words of unit and place taken out too. To read a name more, add it here.
var columnNames = []struct {
	column column
	names  string
}{
	{colStation, "station stationid stn staid stnid stationsid stationcode stationnumber usaf wmo site siteid"},
	{colName, "name stationname"},
	{colLatitude, "latitude lat"},
	{colLongitude, "longitude lon lng long"},
	{colElevation, "elevation elev altitude alt"},
	{colDate, "date dates datum fecha data datetime timestamp time yyyymmdd yyyymmdd00 obsdate observationdate " +
		"dateofobservation validdate messdatum localdate datelocal"},
	{colYear, "year yr yyyy jahr annee ano jaar"},
	{colMonth, "month mon mo mm mth monat mois mes maand"},
	{colDay, "day dy dd dom dayofmonth mday tag jour dia dag"},
	{colYearDay, "doy yday dayofyear julianday jday yearday"},
	{colTmin, "tmin tmn tn tnk mint min minimum low tempmin mintemp minimumtemp minimumtemperature mintemperature " +
		"temperaturemin temperatureminimum tempminimum templow lowtemp temperaturelow lowtemperature tasmin " +
		"tmindaily airtempmin airtemperaturemin minairtemp minairtemperature lufttemperaturmin " +
		"tiefsttemperatur temperature2mmin tminimum tempmn mintmp tmpmin nightmin"},
	{colTmax, "tmax tmx tx txk maxt max maximum high tempmax maxtemp maximumtemp maximumtemperature maxtemperature " +
		"temperaturemax temperaturemaximum tempmaximum temphigh hightemp temperaturehigh hightemperature " +
		"tasmax tmaxdaily airtempmax airtemperaturemax maxairtemp maxairtemperature lufttemperaturmax " +
		"hoechsttemperatur temperature2mmax tmaximum tempmx maxtmp tmpmax daymax"},
	{colTminFlags, "tminattributes"},
	{colTmaxFlags, "tmaxattributes"},
}

// columnNamed finds the column of a spelling.
var columnNamed = func() map[string]column {
	m := map[string]column{}
	for _, row := range columnNames {
		for _, n := range strings.Fields(row.names) {
			m[n] = row.column
		}
	}
	return m
}()

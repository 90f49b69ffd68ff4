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
	colTemperature // of no named element: readings within the day, or one element a file
	colClock       // the time of day
	colHours       // over which a value was taken
	numColumns
)

// columnNames gives the spellings of each column, in lower case with everything but letters and digits
// taken out, and with words of unit and place taken out too. To read a name more, add it here.
var columnNames = []struct {
	column column
	names  string
}{
	{colStation, "station stationid stn staid stnid stationsid stationcode stationnumber bureaumeteorologystationnumber numposte stationabbreviation stasjon indicativo imgwstation srcid " +
		"observationstation havaintoasema stationlocation entityid sensor device usaf wmo site siteid"},
	{colName, "name stationname nomusuel navn nombre"},
	{colLatitude, "latitude lat latituddecimalgrader"},
	{colLongitude, "longitude lon lng long longituddecimalgrader"},
	{colElevation, "elevation elev altitude altitud alti alt hoyde"},
	{colDate, "date dates datum fecha data datetime timestamp yyyymmdd yyyymmdd00 obsdate observationdate " +
		"dateofobservation validdate messdatum localdate datelocal aaaammjj " +
		"referencetimestamp tidnorsknormaltid representativtdygn obendtime dateutc datetimeutc lastchanged lastupdated " +
		"paivays dato day/date aaaammjjhh messdatumbeginn fechahora"},
	{colYear, "year yr yyyy jahr annee ano anio jaar rok vuosi ar"},
	{colMonth, "month mon mo mm mth monat mois mes maand m miesiac kuukausi maned"},
	{colDay, "day dy dd dom dayofmonth mday tag jour dia dag d dzien paeivae paiva"},
	{colYearDay, "doy yday dayofyear julianday jday yearday"},
	{colTmin, "tmin tmn tn tnk mint min minimum low tempmin mintemp minimumtemp minimumtemperature mintemperature " +
		"temperaturemin temperatureminimum tempminimum templow lowtemp temperaturelow lowtemperature tasmin " +
		"tmindaily airtempmin airtemperaturemin minairtemp minairtemperature lufttemperaturmin " +
		"tiefsttemperatur temperature2mmin tminimum tempmn mintmp tmpmin nightmin mintp " +
		"tre200dn minimumstemperatur minimumstemperaturdogn alinlaempoetila niedrigsttemperatur temperaturaminima " +
		"tempmini temperaturemini tmini minlufttemperatur tt10min lowest"},
	{colTmax, "tmax tmx tx txk maxt max maximum high tempmax maxtemp maximumtemp maximumtemperature maxtemperature " +
		"temperaturemax temperaturemaximum tempmaximum temphigh hightemp temperaturehigh hightemperature " +
		"tasmax tmaxdaily airtempmax airtemperaturemax maxairtemp maxairtemperature lufttemperaturmax " +
		"hoechsttemperatur temperature2mmax tmaximum tempmx maxtmp tmpmax daymax maxtp " +
		"tre200dx hochsttemperatur hchsttemperatur maksimumstemperatur maksimumstemperaturdogn ylinlaempoetila " +
		"temperaturamaxima tempmaxi temperaturemaxi tmaxi maxlufttemperatur highest"},
	{colTminFlags, "tminattributes"},
	{colTmaxFlags, "tmaxattributes"},
	{colTemperature, "temp temperature airtemp airtemperature tempf tempc temperature2m t2m outdoortemperature " +
		"outdoortemp outsidetemperature outsidetemp tempout outtemp outdoor temperatureoutdoor lufttemperatur tttu " +
		"tt10 tre200h0 tre200s0 drybulbtemperature drybulb value state wert tempinstantaneous airtemperaturemean"},
	{colClock, "time tid tidutc hour hours hh hhmm uhrzeit zeit heure hora aika timelocal timeutc localtime timelocaltime timelst"},
	{colHours, "obhourcount"},
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

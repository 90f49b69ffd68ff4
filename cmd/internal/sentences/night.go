package sentences

import (
	"fmt"

	"frostward/climate"
	"frostward/risk"
)

// Method names a way to a night's minimum.
func Method(k risk.MethodKind) string {
	return [...]string{risk.ByForecast: "forecast, corrected", risk.ByMcKenzie: "McKenzie 1944", risk.ByCraddock: "Craddock & Pritchard 1951",
		risk.ByFAO: "FAO regression, this spot", risk.ByCooling: "square-root cooling", risk.ByUsualDate: "usual for the date"}[k]
}

// NoSay says why a method has no say in a night's minimum; "" where it has.
func NoSay(m risk.Method) string {
	switch m.Lack {
	case risk.LacksForecast:
		return "no forecast minimum given"
	case risk.LacksAfternoon:
		return "wants the day's maximum, a dew point, cloud and wind"
	case risk.LacksNoon:
		return "wants temperature and dew point at noon, cloud and wind"
	case risk.LacksEvening:
		return "wants temperature and dew point two hours after sunset"
	case risk.LacksTwoReadings:
		return "wants a reading two hours after sunset and one at least an hour later"
	case risk.LacksClearStill:
		return "only for nights known to be clear and still"
	case risk.LacksNights:
		return "the log has " + m.Fault.Error()
	case risk.LacksLaterInTime:
		return "the later reading must be between three hours after sunset and sunrise"
	case risk.LacksSeasons:
		return fmt.Sprintf("the record has %d seasons for the date; wanted %d", m.Seasons, climate.MinSeasons)
	case risk.LacksNeed:
		return "only where nothing else is known; the other methods are drawn toward it as they have erred"
	}
	return ""
}

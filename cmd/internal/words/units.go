// Package words says single things: chances, days, numbers and temperatures, in a line and in a table's cell.
// Values come in °C; the unit that the reader asked for is a matter of the words alone. Whole sentences are in
// package sentences.
package words

import (
	"fmt"
	"math"

	"frostward/climate"
)

// Units says temperatures in °C, or in °F. The zero value is °C.
type Units struct{ Fahrenheit bool }

// Unit is the sign of the unit.
func (u Units) Unit() string {
	if u.Fahrenheit {
		return "°F"
	}
	return "°C"
}

// Value is a temperature of so many °C, in the unit.
func (u Units) Value(celsius float64) float64 {
	if u.Fahrenheit {
		return climate.Fahrenheit(celsius)
	}
	return celsius
}

// Difference is a difference of so many °C, in the unit; a sum of degree-days likewise.
func (u Units) Difference(celsius float64) float64 {
	if u.Fahrenheit {
		return celsius * 1.8
	}
	return celsius
}

// Degrees says a temperature: "3 °C", "-1.5 °C", "37 °F".
func (u Units) Degrees(celsius float64) string {
	if celsius == math.Trunc(celsius) {
		return u.degrees(celsius, 0)
	}
	return u.degrees(celsius, 1)
}

// Tenths says a temperature to a tenth of a degree Celsius: "3.0 °C", "37 °F".
func (u Units) Tenths(celsius float64) string { return u.degrees(celsius, 1) }

// Whole says a temperature to a whole degree.
func (u Units) Whole(celsius float64) string { return u.degrees(celsius, 0) }

// degrees says a temperature in °C with so many decimals; in °F always as a whole number, a
// step finer than 1 °C.
func (u Units) degrees(celsius float64, decimals int) string {
	if u.Fahrenheit {
		return fmt.Sprintf("%.0f °F", climate.Fahrenheit(celsius))
	}
	return fmt.Sprintf("%.*f °C", decimals, celsius)
}

// DegreeDays is the unit of warmth added up.
func (u Units) DegreeDays() string { return u.Unit() + "-days" }

// In is what there is to say things in: a calendar, which names the days of a season, and a unit.
type In struct {
	Units
	Calendar climate.Calendar
}

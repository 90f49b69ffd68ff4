package daily

import (
	"fmt"
	"strings"

	"frostward/climate"
)

// Units are those of the temperatures in a file. The zero value is not known.
type Units string

// The units.
const (
	Celsius       Units = "c"
	Fahrenheit    Units = "f"
	TenthsCelsius Units = "tenths"
	Kelvin        Units = "k"
)

// ParseUnits reads the name of a unit as given by a user: c, f, tenths or k.
func ParseUnits(s string) (Units, error) {
	switch strings.ToLower(strings.TrimPrefix(s, "°")) {
	case "":
		return "", nil
	case "c", "degc", "celsius":
		return Celsius, nil
	case "f", "degf", "fahrenheit":
		return Fahrenheit, nil
	case "tenths", "0.1c":
		return TenthsCelsius, nil
	case "k", "kelvin":
		return Kelvin, nil
	}
	return "", fmt.Errorf("%q is not a unit of temperature; wanted c, f, tenths (of °C) or k", s)
}

// String returns the unit as a reader writes it.
func (u Units) String() string {
	switch u {
	case Celsius:
		return "°C"
	case Fahrenheit:
		return "°F"
	case TenthsCelsius:
		return "0.1 °C"
	case Kelvin:
		return "K"
	}
	return "not known"
}

// from converts a temperature in °C into the unit.
func (u Units) from(c float64) float64 {
	switch u {
	case Fahrenheit:
		return c*1.8 + 32
	case TenthsCelsius:
		return c * 10
	case Kelvin:
		return c + 273.15
	}
	return c
}

// celsius converts a temperature. NaN stays NaN.
func (u Units) celsius(v float64) float64 {
	switch u {
	case Fahrenheit:
		return climate.Celsius(v)
	case TenthsCelsius:
		return v / 10
	case Kelvin:
		return v - 273.15
	}
	return v
}

package climate_test

import (
	"fmt"

	"frostward/climate"
)

// FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), example 4: an Assmann psychrometer reads 25.6 and
// 19.5 °C at 87.9 kPa; the vapour pressure is 1.91 kPa.
func ExampleVapourPressureWetBulb() {
	fmt.Printf("%.2f kPa\n", climate.VapourPressureWetBulb(25.6, 19.5, 0.000662*87.9))
	// Output: 1.91 kPa
}

// Stull 2011, J. Appl. Meteorol. Climatol. 50, 2267-2269: at 20 °C and 50 % the wet bulb reads 13.7 °C.
func ExampleWetBulb() {
	fmt.Printf("%.1f °C\n", climate.WetBulb(20, 50))
	// Output: 13.7 °C
}

package climate_test

import (
	"fmt"

	"frostward/climate"
)

// FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), example 8: on 3 September (day 246) at 20 degrees south
// the extraterrestrial radiation is 32.2 MJ/m2.
func ExampleExtraterrestrialRadiation() {
	fmt.Printf("%.1f MJ/m2\n", climate.ExtraterrestrialRadiation(-20, 246))
	// Output: 32.2 MJ/m2
}

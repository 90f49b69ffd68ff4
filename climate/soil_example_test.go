package climate_test

import (
	"fmt"

	"frostward/climate"
)

// Kätterer and Andrén 2009, Acta Agric. Scand. B 59, 77-86: one day's step from 5 °C under a surface of 10 °C, at the
// middle of a topsoil of 50 and of 100 mm. The figures are the published formula computed apart from this code.
func ExampleSoilStep() {
	fmt.Printf("%.4f %.4f\n", climate.SoilStep(5, 10, 2.5, 0), climate.SoilStep(5, 10, 5, 0))
	// Output: 6.1501 6.1022
}

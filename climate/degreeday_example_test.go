package climate_test

import (
	"fmt"
	"math"

	"frostward/climate"
)

// McMaster and Wilhelm 1997, Agric. For. Meteorol. 87, 291-300: the two methods differ only when the minimum
// alone is below the base, and then Method 1 gives fewer degree-days. The day (12 and 2 °C, base 10) is by hand.
func ExampleDegreeDays_Day_mcMasterAndWilhelm() {
	one := climate.DegreeDays{Base: 10, Method: climate.Average}
	two := climate.DegreeDays{Base: 10, Method: climate.AverageClipped}
	fmt.Println(one.Day(2, 12, math.NaN()), two.Day(2, 12, math.NaN()))
	// Output: 0 1
}

// Wisconsin extension column, Wausau Daily Herald (wausharaargus.com): three days of maize, in °F.
func ExampleDegreeDays_Day_maize() {
	maize := climate.DegreeDays{Base: 50, Upper: 86, Method: climate.AverageClipped, Limit: climate.Horizontal}
	var sum float64
	for _, day := range [][2]float64{{90, 65}, {72, 46}, {63, 42}} {
		d := maize.Day(day[1], day[0], math.NaN())
		sum += d
		fmt.Println(d)
	}
	fmt.Println(sum)
	// Output:
	// 25.5
	// 11
	// 6.5
	// 43
}

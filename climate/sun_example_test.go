package climate_test

import (
	"fmt"

	"frostward/climate"
)

// Reda and Andreas 2004, NREL/TP-560-34302: on 17 October 2003 at 39.742476 N, 105.1786 W the sun rises at
// 06:12:43 by a clock 7 hours behind UTC.
func ExampleSunAt() {
	d, _ := climate.ParseDay("2003-10-17")
	rise := climate.SunAt(d, 39.742476, -105.1786).Rise - 7
	fmt.Printf("%02d:%02d\n", int(rise), int(rise*60)%60)
	// Output: 06:12
}

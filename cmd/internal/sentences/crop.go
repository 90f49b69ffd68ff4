package sentences

import (
	"fmt"
	"math"
	"strings"

	"frostward/cmd/internal/words"
	"frostward/crops"
)

// Crop says what the crop is in a sentence or three.
func (u In) Crop(cat *crops.Catalogue, c crops.Crop) string {
	w := fmt.Sprintf("%s: a %s crop, %s.", words.Capital(c.Label()), c.Kind, c.Hardiness())
	for _, l := range cat.Facts(c) {
		if l.Key == "also" && l.Text != "" {
			w += " Also called " + strings.ReplaceAll(l.Text, ";", ",") + "."
		}
	}
	var others []string
	for _, k := range cat.Classes(c.Name) {
		if k != c.Class {
			others = append(others, k)
		}
	}
	if len(others) > 0 {
		w += " Other classes: " + words.List(others) + "."
	}
	var up []string
	for _, soil := range []float64{5, 10, 15, 20} {
		if d := c.DaysToEmergence(soil); d < 100 && soil >= c.GerminationMin.Value {
			up = append(up, fmt.Sprintf("%.0f days at %s", math.Round(d), u.Degrees(soil)))
		}
	}
	if len(up) > 0 {
		w += " Comes up, by soil temperature, in " + words.List(up) + "."
	}
	return w
}

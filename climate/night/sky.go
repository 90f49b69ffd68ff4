package night

import (
	"fmt"
	"strings"
)

// Cloud is how much of the sky is covered through the night, in plain classes. The
// zero value is not known.
type Cloud int8

// The classes of cloud.
const (
	CloudUnknown Cloud = iota
	Clear              // stars from edge to edge
	Little             // a few clouds
	Broken             // coming and going
	Overcast           // grey all over
)

var cloudWords = []string{"", "clear", "little", "broken", "overcast"}

func (c Cloud) String() string { return cloudWords[c] }

// Wind is the wind at night, in plain classes. The zero value is not known.
type Wind int8

// The classes of wind, with the speed at 10 m they stand for (Beaufort, from memory).
const (
	WindUnknown Wind = iota
	Calm             // smoke goes straight up; below 0.5 m/s
	Light            // felt on the face; to 3 m/s
	Moderate         // leaves and twigs move; to 8 m/s
	Brisk            // small trees sway; above
)

var windWords = []string{"", "calm", "light", "moderate", "brisk"}

func (w Wind) String() string { return windWords[w] }

// Clouds lists the words for the classes of cloud.
func Clouds() []string { return cloudWords[1:] }

// Winds lists the words for the classes of wind.
func Winds() []string { return windWords[1:] }

// ParseCloud reads a class of cloud; "" is not known.
func ParseCloud(s string) (Cloud, error) {
	i, err := word(s, cloudWords)
	return Cloud(i), err
}

// ParseWind reads a class of wind; "" is not known.
func ParseWind(s string) (Wind, error) {
	i, err := word(s, windWords)
	return Wind(i), err
}

func word(s string, words []string) (int, error) {
	t := strings.ToLower(strings.TrimSpace(s))
	for i, w := range words {
		if t == w {
			return i, nil
		}
	}
	return 0, fmt.Errorf("%q is not known; wanted %s", s, strings.Join(words[1:], ", "))
}

package crops

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ExampleCatalogue_Find() {
	c, err := Builtin().Find("corn", "early")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Label(), "is a", c.Kind, "crop, killed at", c.KillHardened.Value, "°C")
	_, err = Builtin().Find("corgette", "")
	fmt.Println(err)
	// Output:
	// sweet corn, early is a fruit crop, killed at -1.5 °C
	// no crop is called "corgette"; did you mean "courgette"?
}

func TestFind(t *testing.T) {
	for _, c := range []struct{ name, class, want string }{
		{"courgette", "", "courgette"},
		{"Courgettes", "", "courgette"},
		{"  ZUCCHINI ", "", "courgette"},
		{"zucchinis", "", "courgette"},
		{"marrow", "", "courgette"},
		{"corn", "late", "sweet corn, late"},
		{"sweet-corn", "", "sweet corn, main"},
		{"sweet corn, early", "", "sweet corn, early"},
		{"early sweet corn", "", "sweet corn, early"},
		{"Sweetcorn", "LATE", "sweet corn, late"},
		{"tomatoes", "", "tomato, main"},
		{"radishes", "", "radish"},
		{"leaves", "", ""},
		{"lambs lettuce", "", "lamb's lettuce"},
		{"lamb’s lettuce", "", "lamb's lettuce"},
		{"brussels sprouts", "late", "Brussels sprout, late"},
		{"eggplants", "", "aubergine"},
		{"beets", "", "beetroot"},
		{"swiss chard", "", "chard"},
		{"arugula", "", "rocket"},
		{"potatoes", "", "potato, maincrop"},
		{"second early potatoes", "", "potato, second early"},
		{"onion", "", "onion, seed"},
		{"strawberries", "", ""},
	} {
		got, err := Builtin().Find(c.name, c.class)
		if c.want == "" {
			assert.Error(t, err, c.name)
			continue
		}
		if assert.NoError(t, err, c.name) {
			assert.Equal(t, c.want, got.Label(), c.name)
		}
	}
}

func TestFindErrors(t *testing.T) {
	for _, c := range []struct{ name, class, want string }{
		{"", "", `no crop given; wanted a name such as "courgette"`},
		{"sweet corn", "erly", `crop "sweet corn" has no class "erly" (did you mean "early"?); wanted one of early, main, late`},
		{"kale", "late", `crop "kale" has no classes, so no "late"`},
		{"xyzzy plugh", "", `no crop is called "xyzzy plugh"; the crops command lists those known`},
		{"tomatoe", "", ""}, // a common slip is found by its plural's singular
	} {
		_, err := Builtin().Find(c.name, c.class)
		if c.want == "" {
			assert.ErrorContains(t, err, `did you mean "tomato"`)
			continue
		}
		assert.EqualError(t, err, c.want)
	}
	_, err := Builtin().Find("brocoli", "")
	assert.ErrorContains(t, err, `"broccoli"`)
}

func TestEveryNameFindsItsCrop(t *testing.T) {
	for _, e := range Builtin().crops {
		for _, n := range append(e.also(), e.name, e.crop("").Title) {
			c, err := Builtin().Find(n, "")
			require.NoError(t, err, n)
			assert.Equal(t, e.name, c.Name, n)
		}
	}
}

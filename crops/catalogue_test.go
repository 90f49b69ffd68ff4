package crops

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A slip in the catalogue is reported by its line, and nothing else is tried.
func TestMain(m *testing.M) {
	cat, err := Load()
	if err == nil {
		err = joinFaults(cat.lacks())
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// needed are the facts that planning needs of every crop.
var needed = []string{"plural", "kind", "setback_seedling_c", "kill_seedling_c", "setback_hardened_c", "kill_hardened_c", "setback_days",
	"grow_from_c", "grow_best_c", "grow_max_c", "grow_light", "base_c", "upper_c", "picking_days", "germ_min_c", "soil_opt_c", "germ_max_c", "emerge_base_c", "emerge_sum", "weeks_under_cover",
	"harden_days", "out_from", "out_to"}

// lacks says what planning would miss in a catalogue, each with a line of the crop.
func (c *Catalogue) lacks() (faults []error) {
	for _, e := range c.crops {
		for _, class := range e.variants() {
			at := ""
			for _, l := range e.lines {
				if (l.Class == class || at == "") && l.Place != "" {
					at = l.Place
				}
			}
			bad := func(format string, args ...any) {
				faults = append(faults, fmt.Errorf("%s: %s: "+format, append([]any{at, label(e.name, class)}, args...)...))
			}
			for _, key := range needed {
				if _, ok := e.line(class, key); !ok {
					bad("no line for %s, which planning needs of every crop", key)
				}
			}
			if _, ok := e.line(class, "kill_hardened_c"); ok {
				if f := e.crop(class).KillHardened; !(f.Low < f.High) {
					bad("kill_hardened_c wants low and high, which say how sure it is")
				}
			}
			any := false
			for _, how := range []string{"sown", "planted"} {
				_, growth := e.line(class, "growth_"+how)
				_, warmth := e.line(class, "warmth_"+how)
				if any = any || growth; growth != warmth {
					bad("growth_%s and warmth_%s go together, the need in effective and in plain day-degrees", how, how)
				}
			}
			if !any {
				bad("neither growth_sown nor growth_planted; wanted the need to first picking")
			}
		}
	}
	return faults
}

// What whoever edits the catalogue is shown.
func TestASlipIsASentence(t *testing.T) {
	broken := strings.Replace(string(builtin), "courgette,,kind,fruit,", "courgette,,kind,tuber,", 1)
	_, err := (&Catalogue{}).with(strings.NewReader(broken), "catalogue.csv", false)
	assert.ErrorContains(t, err, `value: kind "tuber"; wanted one of fruit, leaf, root, bulb, flower`)
	assert.Regexp(t, `^catalogue\.csv:\d+: `, err.Error())

	cat, err := (&Catalogue{}).with(strings.NewReader(head+"moonroot,,kind,root,,,,,\nmoonroot,,kill_hardened_c,-2,,,°C,,\n"), "catalogue.csv", false)
	require.NoError(t, err)
	lacks := errors.Join(cat.lacks()...).Error()
	assert.Regexp(t, `^catalogue\.csv:[23]: moonroot: no line for plural, which planning needs of every crop`, lacks)
	assert.Contains(t, lacks, "moonroot: kill_hardened_c wants low and high, which say how sure it is")
	assert.Contains(t, lacks, "moonroot: neither growth_sown nor growth_planted")
}

func TestBuiltinHasTheGardensCrops(t *testing.T) {
	names := map[string]bool{}
	for _, c := range Builtin().All() {
		names[c.Name] = true
	}
	assert.GreaterOrEqual(t, len(names), 45)
	for _, n := range []string{"courgette", "sweet corn", "French bean", "runner bean", "tomato", "cucumber", "winter squash",
		"lettuce", "potato", "leek", "kale", "Brussels sprout", "broad bean", "pea", "beetroot", "spinach", "garlic"} {
		assert.True(t, names[n], n)
	}
}

// What is needed of a crop beside single lines, which TestMain looks for.
func TestEveryCropIsComplete(t *testing.T) {
	for _, c := range Builtin().All() {
		what := c.Label()
		sown, planted := c.WarmthSown.Known(), c.WarmthPlanted.Known()
		assert.Equal(t, planted, c.WeeksUnderCover.Value > 0, "%s: raised under cover if planted out", what)
		assert.Equal(t, c.WeeksUnderCover.Value > 0, c.HardeningDays.Value > 0, "%s: hardened off if raised", what)
		if sown && planted {
			assert.Less(t, c.WarmthPlanted.Value, c.WarmthSown.Value, "%s: a raised plant has a start", what)
		}
		if c.Tender() && c.Name != "potato" {
			assert.True(t, c.Chill.Known(), "%s: tender, so a chilling limit", what)
		}
	}
}

// Seedlings are no hardier than hardened plants, but for those whose growing point is
// below ground for some weeks, and those whose flowers or heads are the tender part.
func TestSeedlingsAreNoHardier(t *testing.T) {
	exceptions := map[string]string{"sweet corn": "growing point", "potato": "tuber", "pea": "flower", "mangetout": "flower",
		"cauliflower": "curd", "calabrese": "curd"}
	for _, c := range Builtin().All() {
		if why, ok := exceptions[c.Name]; ok {
			if c.KillSeedling.Value < c.KillHardened.Value || c.SetBackSeedling.Value < c.SetBackHardened.Value {
				assert.Contains(t, c.KillSeedling.Note, why, c.Label())
			}
			continue
		}
		assert.GreaterOrEqual(t, c.KillSeedling.Value, c.KillHardened.Value, c.Label())
		assert.GreaterOrEqual(t, c.SetBackSeedling.Value, c.SetBackHardened.Value, c.Label())
	}
}

func TestTenderCropsAreTheTradesTenderCrops(t *testing.T) {
	// The crops that Purdue HO-203 lists as killed at 28-32 °F (MSU Extension 2014), less
	// okra and watermelon, which the catalogue has not, and others of their kin.
	want := map[string]bool{"courgette": true, "summer squash": true, "winter squash": true, "pumpkin": true, "cucumber": true,
		"tomato": true, "sweet pepper": true, "aubergine": true, "melon": true, "sweet corn": true, "French bean": true, "sweet potato": true,
		"chilli": true, "runner bean": true, "basil": true, "New Zealand spinach": true, "tomatillo": true,
		"potato": true} // its foliage: band 0 to -2 °C
	for _, c := range Builtin().All() {
		assert.Equal(t, want[c.Name], c.Tender(), c.Label())
	}
}

// The published bands of frost damage (PMC10202904, table 2) bound the set-back and
// killing temperatures of the crops that they list: no set-back is taken below its
// band, and no death above it.
func TestAgainstPublishedBands(t *testing.T) {
	for _, b := range []struct {
		crop, class  string
		mild, severe float64 // °C
	}{
		{"tomato", "main", 5, 0}, {"cucumber", "outdoor", 5, 0},
		{"potato", "maincrop", 0, -2}, {"French bean", "dwarf", 0, -2}, {"sweet corn", "main", 0, -2}, {"melon", "", 0, -2},
		{"pea", "early", -2, -4}, {"lettuce", "main", -2, -4}, {"cauliflower", "main", -2, -4}, {"calabrese", "", -2, -4},
		{"kale", "", -4, -7}, {"cabbage", "spring", -4, -7}, {"onion", "seed", -4, -7}, {"swede", "", -4, -7}, {"carrot", "main", -4, -7},
		{"lettuce", "winter", -4, -7}, {"parsnip", "", -4, -7},
		{"broad bean", "autumn", -7, -10}, {"cabbage", "winter", -7, -10}, {"spinach", "winter", -7, -10},
	} {
		c, err := Builtin().Find(b.crop, b.class)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, c.SetBackHardened.Value, b.severe, "%s: set back inside the band or above", c.Label())
		assert.LessOrEqual(t, c.KillHardened.Value, b.mild, "%s: killed inside the band or below", c.Label())
	}
}

func TestEveryLineHasItsSource(t *testing.T) {
	lines := 0
	for _, c := range Builtin().All() {
		for _, l := range Builtin().Facts(c) {
			lines++
			assert.NotEmpty(t, l.Source, "%s %s", l.Place, l.Key)
			if strings.Contains(l.Source, "memory") && !strings.Contains(l.Source, "from memory") && l.Key != "caution" {
				assert.NotEmpty(t, l.Note, "%s %s: memory needs a note", l.Place, l.Key)
			}
			if strings.Contains(l.Source, "COMPUTED") && strings.HasPrefix(l.Key, "warmth") {
				assert.NotEmpty(t, l.Note, "%s: a computed sum shows its arithmetic", l.Place)
				assert.False(t, l.Low != l.Low || l.High != l.High, "%s: a computed sum has a range", l.Place)
			}
		}
	}
	assert.Greater(t, lines, 1500)
}

// Where a mistake can hurt whoever eats it, the catalogue says so.
func TestCautions(t *testing.T) {
	for name, word := range map[string]string{"courgette": "bitter", "summer squash": "bitter", "winter squash": "bitter", "pumpkin": "bitter",
		"cucumber": "bitter", "potato": "green", "runner bean": "raw", "French bean": "raw", "broad bean": "favism"} {
		c, err := Builtin().Find(name, "")
		require.NoError(t, err)
		assert.Contains(t, c.Caution, word, name)
	}
}

func TestNoNameMeansTwoCrops(t *testing.T) {
	owner := map[string]string{}
	claim := func(name, crop string) {
		k := singular(name)
		if o, taken := owner[k]; taken {
			assert.Equal(t, crop, o, "the name %q", name)
		}
		owner[k] = crop
	}
	for _, e := range Builtin().crops {
		claim(e.name, e.name)
		claim(e.crop("").Title, e.name)
		for _, s := range e.also() {
			claim(s, e.name)
		}
	}
}

func TestOrderIsFixed(t *testing.T) {
	all := Builtin().All()
	for i := 1; i < len(all); i++ {
		assert.LessOrEqual(t, fold(all[i-1].Name), fold(all[i].Name))
	}
	assert.Equal(t, []string{"early", "main", "late"}, Builtin().Classes("sweet corn"))
	assert.Equal(t, fmt.Sprint(all), fmt.Sprint(Builtin().All())) // as text, for NaN
}

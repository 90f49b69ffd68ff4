package crops

import (
	"errors"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const head = "crop,class,key,value,low,high,unit,source,note\n"

func own(t *testing.T, text string) (*Catalogue, error) {
	t.Helper()
	return Builtin().With(strings.NewReader(text), "crops.csv")
}

func TestOwnFactsWin(t *testing.T) {
	cat, err := own(t, head+
		"courgettes,,kill_hardened_c,-1.5,,,°C,,lived through it in 2024\n"+
		"tomato,,upper_c,28,,,°C,my book,\n"+
		"corn,early,warmth_planted,700,,,°C-days,,\n"+
		"tomato,dwarf,warmth_planted,600,,,°C-days,,\n")
	require.NoError(t, err)

	c, err := cat.Find("courgette", "")
	require.NoError(t, err)
	assert.Equal(t, -1.5, c.KillHardened.Value)
	assert.Equal(t, "grower", c.KillHardened.Source)
	assert.True(t, math.IsNaN(c.KillHardened.Low), "the range goes with the fact")
	before, err := Builtin().Find("courgette", "")
	require.NoError(t, err)
	assert.Equal(t, fmt.Sprint(before.Base), fmt.Sprint(c.Base), "the rest stays")
	assert.Equal(t, -1.0, before.KillHardened.Value, "the catalogue it came from has not changed")

	for class, want := range map[string]float64{"early": 700, "main": 930} {
		c, err = cat.Find("sweet corn", class)
		require.NoError(t, err)
		assert.Equal(t, want, c.WarmthPlanted.Value, class)
	}
	c, err = cat.Find("sweet corn", "early")
	require.NoError(t, err)
	was, err := Builtin().Find("sweet corn", "early")
	require.NoError(t, err)
	assert.InDelta(t, was.GrowthPlanted.Value*700/770, c.GrowthPlanted.Value, 1e-9, "its effective day-degrees go with it")
	assert.Equal(t, was.GrowthSown.Value, c.GrowthSown.Value)

	c, err = cat.Find("tomato", "dwarf")
	require.NoError(t, err)
	assert.Equal(t, 600.0, c.WarmthPlanted.Value)
	assert.Equal(t, 28.0, c.Upper.Value)
	assert.Equal(t, 6.0, c.Base.Value, "a new class takes what holds for the whole crop")
	assert.Equal(t, []string{"early", "main", "late", "dwarf"}, cat.Classes("tomato"))

	for _, l := range cat.Facts(c) {
		if l.Key == "upper_c" {
			assert.Equal(t, "crops.csv:3", l.Place)
			assert.True(t, l.Own)
		}
	}
}

func TestAnOwnLineForTheCropOverridesBuiltInClasses(t *testing.T) {
	cat, err := own(t, head+"sweet corn,,warmth_planted,800,,,°C-days,,\n")
	require.NoError(t, err)
	for _, class := range cat.Classes("sweet corn") {
		c, err := cat.Find("sweet corn", class)
		require.NoError(t, err)
		assert.Equal(t, 800.0, c.WarmthPlanted.Value, class)
	}
	// but not the grower's own class lines, in whichever order they stand
	cat, err = own(t, head+"sweet corn,late,warmth_planted,990,,,°C-days,,\nsweet corn,,warmth_planted,800,,,°C-days,,\n")
	require.NoError(t, err)
	c, err := cat.Find("sweet corn", "late")
	require.NoError(t, err)
	assert.Equal(t, 990.0, c.WarmthPlanted.Value)
}

func TestANewCrop(t *testing.T) {
	cat, err := own(t, head+"moonroot,,kind,root,,,,,\nmoonroot,,also,Luna radix; lunar yam,,,,,\nmoonroot,,kill_hardened_c,-2,,,°C,,\n")
	require.NoError(t, err)
	c, err := cat.Find("moonroots", "")
	require.NoError(t, err)
	assert.Equal(t, "moonroots", c.Title)
	assert.Equal(t, "seed", c.StartsFrom)
	assert.False(t, c.Base.Known())
	_, err = cat.Find("lunar yams", "")
	require.NoError(t, err)
	assert.Len(t, cat.All(), len(Builtin().All())+1)

	_, err = own(t, head+"moonroot,,base_c,5,,,°C,,\n")
	assert.EqualError(t, err, `crops.csv:2: moonroot has no kind; wanted a line "moonroot,,kind,fruit" or leaf, root, bulb, flower`)
}

func TestColumnsAndSeparators(t *testing.T) {
	for name, text := range map[string]string{
		"few columns, other order": "key,value,unit,crop\nbase_c,5.5,°C,kale\n",
		"semicolon, decimal comma": "crop;class;key;value;low;high;unit;source;note\nkale;;base_c;5,5;;;°C;;\n",
		"tab":                      "crop\tkey\tvalue\tunit\nkale\tbase_c\t5.5\tC\n",
		"byte order mark, CRLF":    "\ufeffcrop,key,value,unit\r\nkale,base_c,5.5,degC\r\n",
		"comments, blank lines":    "# my crops, so far\n\ncrop,key,value,unit\n# more\n\nkale,base_c,5.5,°C\n,,,\n",
		"capitals, spaces":         "Crop, Key ,Value,Unit\n KALE , Base_C , 5.5 , °c \n",
	} {
		cat, err := own(t, text)
		if assert.NoError(t, err, name) {
			c, err := cat.Find("kale", "")
			require.NoError(t, err)
			assert.Equal(t, 5.5, c.Base.Value, name)
		}
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "crops.csv: empty; wanted a first row of column names: crop,class,key,value,low,high,unit,source,note"},
		{"unknown column", "crop,key,value,units\n", `crops.csv:1: no column "units" (did you mean "unit"?); wanted crop, class`},
		{"column twice", "crop,key,value,unit,crop\n", `crops.csv:1: column "crop" stands twice`},
		{"column lacking", "crop,key,value\n", `crops.csv:1: no column "unit" in the first row`},
		{"unknown key", head + "kale,,kill_harden_c,-5,,,°C,,\n", `crops.csv:2: no fact is called "kill_harden_c" (did you mean "kill_hardened_c"?)`},
		{"°F", head + "kale,,kill_hardened_c,20,,,°F,,\n", `crops.csv:2: unit: "°F" for kill_hardened_c; wanted "°C"`},
		{"unit lacking", head + "kale,,base_c,4,,,,,\n", `crops.csv:2: unit: "" for base_c; wanted "°C"`},
		{"not a number", head + "kale,,base_c,4O,,,°C,,\n", `crops.csv:2: value: "4O" is not a number; wanted base_c in °C`},
		{"not a number", head + "kale,,base_c,NaN,,,°C,,\n", `crops.csv:2: value: "NaN" is not a number`},
		{"hexadecimal", head + "kale,,base_c,0x4,,,°C,,\n", `"0x4" is not a number`},
		{"no value", head + "kale,,base_c,,,,°C,,\n", `crops.csv:2: value: empty; wanted a number for base_c`},
		{"out of bounds", head + "kale,,base_c,44,,,°C,,\n", `crops.csv:2: value: base_c of 44 °C; wanted -5 to 20`},
		{"outside its range", head + "kale,,base_c,4,5,6,°C,,\n", `crops.csv:2: base_c: value 4 lies outside its range, low 5 to high 6`},
		{"range turned round", head + "kale,,base_c,4,6,3,°C,,\n", `crops.csv:2: base_c: value 4 lies outside its range, low 6 to high 3`},
		{"kind", head + "kale,,kind,leafy,,,,,\n", `crops.csv:2: value: kind "leafy" (did you mean "leaf"?); wanted one of fruit, leaf, root, bulb, flower`},
		{"no crop", head + ",,base_c,4,,,°C,,\n", `crops.csv:2: crop: empty`},
		{"too many fields", head + "kale,,base_c,4,,,°C,,one, two\n", `crops.csv:2: 10 fields in a table of 9 columns`},
		{"twice", head + "kale,,base_c,4,,,°C,,\nKale,,base_c,5,,,°C,,\n", `crops.csv:3: base_c of Kale is given before, at crops.csv:2`},
		{"kill above set-back", head + "kale,,kill_hardened_c,-5,,,°C,,\n", `crops.csv:2: kale: kill_hardened_c -5 above setback_hardened_c -6; wanted it at or below`},
		{"base above upper", head + "kale,,upper_c,15,,,°C,,\nkale,,base_c,15,,,°C,,\n", `kale: base_c 15 above upper_c 15; wanted it below`},
		{"in a class", head + "sweet corn,late,warmth_planted,1300,,,°C-days,,\n", `crops.csv:2: sweet corn, late: warmth_planted 1300 above warmth_sown 1200`},
		{"open quote", head + "kale,,base_c,\"4,,,°C,,\n", "crops.csv:"},
		{"NUL", "crop,key,value,unit\nkale\x00,base_c,4,°C\n", "crops.csv: not UTF-8 text"},
		{"UTF-16", "c\x00r\x00o\x00p\x00", "crops.csv: not UTF-8 text"},
		{"long name", head + strings.Repeat("k", 61) + ",,base_c,4,,,°C,,\n", "is not a name for a crop"},
	} {
		_, err := own(t, c.text)
		assert.ErrorContains(t, err, c.want, c.name)
	}
}

func TestEveryFaultIsTold(t *testing.T) {
	_, err := own(t, head+"kale,,base,4,,,°C,,\nkale,,upper_c,hot,,,°C,,\n")
	assert.ErrorContains(t, err, "crops.csv:2: ")
	assert.ErrorContains(t, err, "\ncrops.csv:3: ")
	_, err = own(t, head+strings.Repeat("kale,,bose,4,,,°C,,\n", 30))
	assert.ErrorContains(t, err, "\nand 10 more")
	assert.Equal(t, maxFaults, strings.Count(err.Error(), "\n"))
}

func TestABigFileIsRefused(t *testing.T) {
	_, err := Builtin().With(&endless{}, "big.csv")
	assert.EqualError(t, err, "big.csv: over 8 MB; wanted a catalogue of crops")
}

// endless is one line without end.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}

func TestAReadErrorIsTold(t *testing.T) {
	_, err := Builtin().With(broken{}, "crops.csv")
	assert.ErrorContains(t, err, "crops.csv: disk on fire")
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("disk on fire") }

func TestLimitsOfNumbersAreInclusive(t *testing.T) {
	for v, ok := range map[string]bool{"-5": true, "-5.01": false, "20": true, "20.01": false} {
		_, err := own(t, head+"moonroot,,kind,root,,,,,\nmoonroot,,base_c,"+v+",,,°C,,\n")
		assert.Equal(t, ok, err == nil, v)
	}
}

// FuzzRead wants no panic, and nothing accepted that breaks the catalogue's own rules:
// each number within its key's limits, and a file written from the lines reads the same.
func FuzzRead(f *testing.F) {
	b, err := os.ReadFile("catalogue.csv")
	if err != nil {
		f.Fatal(err)
	}
	rows := strings.SplitAfter(string(b), "\n")
	f.Add(strings.Join(rows[:60], ""))
	f.Add(head + "kale,,base_c,4,3,5,°C,x,y\n")
	f.Add("crop;key;value;unit\nkale;base_c;4,5;°C\n")
	f.Add("\ufeffcrop\tkey\tvalue\tunit\nkale\tkind\tleaf\t\n")
	f.Add(head + "moonroot,\"a\nb\",kind,root,,,,,\n#\n,,\n")
	f.Fuzz(func(t *testing.T, text string) {
		lines, err := read(strings.NewReader(text), "f")
		if err != nil {
			return
		}
		var again strings.Builder
		again.WriteString(strings.ReplaceAll(head, ",", "\t"))
		for _, l := range lines {
			k := keys[keyIndex[l.Key]]
			value := l.Text
			if !k.Text {
				if !(l.Value >= k.Min && l.Value <= k.Max) || l.Low > l.Value || l.High < l.Value {
					t.Fatalf("accepted %v", l)
				}
				value = fmt.Sprint(l.Value)
			}
			cell := func(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
			number := func(v float64) string {
				if math.IsNaN(v) {
					return ""
				}
				return fmt.Sprint(v)
			}
			fmt.Fprintln(&again, strings.Join([]string{cell(l.Crop), cell(l.Class), l.Key, cell(value), number(l.Low), number(l.High), l.Unit, cell(l.Source), cell(l.Note)}, "\t"))
		}
		lines2, err := read(strings.NewReader(again.String()), "f")
		if err != nil {
			t.Fatalf("written back: %v\n%s", err, again.String())
		}
		if len(lines2) != len(lines) {
			t.Fatalf("%d lines became %d", len(lines), len(lines2))
		}
		for i := range lines {
			a, b := lines[i], lines2[i]
			a.Place, b.Place = "", ""
			if fmt.Sprint(a) != fmt.Sprint(b) {
				t.Fatalf("%v became %v", a, b)
			}
		}
		_, _ = Builtin().With(strings.NewReader(text), "f") // no panic
	})
}

func TestTidy(t *testing.T) {
	for got, want := range map[string]string{"": "", " ": "", "a": "a", " a": "a", "a ": "a", "a  b": "a b", "a b": "a b", "a\tb": "a b",
		"a\u00a0 b": "a b", "\u2003a": "a", "a\u3000": "a", "5 °C": "5 °C", "lamb’s": "lamb’s", "a\u0085b": "a b"} {
		assert.Equal(t, want, tidy(got), "%q", got)
	}
}

func TestUnits(t *testing.T) {
	for _, c := range []struct {
		got, want string
		same      bool
	}{{"C", "°C", true}, {"degC", "°C", true}, {"ºC", "°C", true}, {"°c", "°C", true}, {"°C days", "°C-days", true}, {"C-day", "°C-days", true},
		{"day", "days", true}, {"week", "weeks", true}, {"h", "hours", true}, {"F", "°C", false}, {"°F", "°C", false}, {"K", "°C", false},
		{"°F-days", "°C-days", false}, {"days", "°C-days", false}, {"°C", "°C-days", false}, {"", "°C", false}, {"weeks", "days", false}} {
		assert.Equal(t, c.same, sameUnit(c.got, c.want), "%q for %q", c.got, c.want)
	}
}

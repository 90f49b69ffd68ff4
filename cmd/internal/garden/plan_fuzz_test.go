package garden

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/cmd/internal/demo"
)

// FuzzPlan reads any bytes as a plan.csv: no panic, no invented date, and what is accepted is
// the same when written and read again.
func FuzzPlan(f *testing.F) {
	own, err := demo.Files().Open("plan.csv")
	require.NoError(f, err)
	var text bytes.Buffer
	_, err = text.ReadFrom(own)
	require.NoError(f, err)
	f.Add(text.Bytes(), false)
	for _, s := range []string{
		"crop,sow\npea,03-20\n",
		"\ufeffcrop;plant_out\r\nleek;2026-05-20\r\n",
		"crop,sow,plant_out,reserve\ncourgette,,05-20,6 plants until 10 June\nbean,06-02,,again 21 days later\n",
		"crop\tsow\tfollows\toverlap_weeks\nleek\t06-20\tpea\t2,5\n",
		"crop,sow\npea,02-29\npea,2025-02-29\npea,00-10\n",
		"name,crop,sow\n\"a\nb\",pea,03-20\n",
		"crop,sow\npea,\"03-20\n",
		"crop,crop\n", "crop\n", "", "\x00", "crop,sow\npea\x00,03-20\n",
		"crop,sow\npea,03-20,more,and more\n",
	} {
		f.Add([]byte(s), true)
	}
	f.Fuzz(func(t *testing.T, b []byte, south bool) {
		c := climate.Calendar{South: south}
		rows, err := ReadPlan(bytes.NewReader(b), "plan.csv", c)
		if err != nil {
			for _, line := range strings.Split(err.Error(), "\n") {
				if line == "" {
					t.Errorf("an empty line in %q", err)
				}
			}
			if !strings.HasPrefix(err.Error(), "plan.csv:") {
				t.Errorf("the error does not begin with its place: %v", err)
			}
		}
		var out bytes.Buffer
		w := csv.NewWriter(&out)
		// To memory, a number first: a line that begins with # is a comment.
		_ = w.Write(append([]string{"metres"}, slices.DeleteFunc(slices.Clone(planColumns), func(c string) bool { return c == "metres" })...))
		for _, r := range rows {
			for _, d := range []Date{r.Sow, r.PlantOut, r.Out, r.Picked} {
				if d.Given() && (d.Day < 0 || d.Day >= climate.YearDays) {
					t.Fatalf("%q became day %d of the season", d.Text, d.Day)
				}
			}
			_ = w.Write([]string{fmt.Sprint(r.Metres), r.Name, r.Crop, r.Class, r.Variety, r.Spot, r.Bed, r.Sow.Text, r.PlantOut.Text, r.Cover, r.Follows,
				fmt.Sprint(r.OverlapWeeks), fmt.Sprint(r.Plants), r.Reserve.Text, r.Out.Text, r.Picked.Text})
		}
		w.Flush()
		again, err := ReadPlan(&out, "again.csv", c)
		if err != nil {
			t.Fatalf("accepted, and not when written again: %v", err)
		}
		if len(again) != len(rows) {
			t.Fatalf("%d rows became %d", len(rows), len(again))
		}
		for i := range rows {
			a, b := rows[i], again[i]
			a.File, a.Line, a.Own, b.File, b.Line = "", 0, "", "", 0 // its own columns are not written again
			if a != b {
				t.Fatalf("not the same when written and read again:\n%+v\n%+v", a, b)
			}
		}
	})
}

// Hostile plans are refused soon, with a message that a person can read.
func TestHostilePlans(t *testing.T) {
	for name, text := range map[string]string{
		"many bad rows": "crop,sow\n" + strings.Repeat("x\n", 300_000),
		"many columns":  "crop,sow\npea,03-20" + strings.Repeat(",", 900_000) + "\n",
		"wide heading":  strings.Repeat("crop,", 200_000),
		"long heading":  strings.Repeat("x", 900_000),
		"long cell":     "crop,sow\npea," + strings.Repeat("1", 900_000) + "\n",
		"open quote":    "crop,sow\n\"" + strings.Repeat("x\n", 400_000),
		"bad quotes":    "crop,sow\n" + strings.Repeat("a\"b\n", 200_000),
		"too long":      strings.Repeat("\n", maxFile+1),
		"only blanks":   strings.Repeat(" ", maxFile),
	} {
		t.Run(name, func(t *testing.T) {
			_, err := ReadPlan(strings.NewReader(text), "plan.csv", climate.Calendar{})
			require.Error(t, err)
			require.Less(t, len(err.Error()), 6000)
		})
	}
}

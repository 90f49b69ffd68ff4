package opened

import (
	"frostward/climate"
	"frostward/crops"
	"frostward/risk"
)

// Together is what becomes of a whole plan in the same seasons, with the reserves that it names.
type Together struct {
	risk.Together
	Labels []string
	AnyOf  []AnyOf     // of families with several plantings
	Night  climate.Day // the morning of the night of the record that killed most of them
	Took   []string    // those; none where none was killed
}

// AnyOf is at least one of several plantings of a family of crops, such as the squashes, or of one crop.
type AnyOf struct {
	Family   string
	Labels   []string
	Succeeds climate.Chance
}

// Together counts over an assessed plan and its remembered seasons.
func (g *Garden) Together(assessed []risk.Assessment, past *Remembered) (t Together, err error) {
	f, err := g.Fields()
	if err != nil {
		return t, err
	}
	outcomes := make([][]risk.Outcome, len(assessed))
	family := map[string][]int{}
	for i, x := range assessed {
		p := x.Result.Planting
		if outcomes[i] = x.Result.Outcomes; !x.Reserved.None() {
			outcomes[i] = x.Reserved.Pair.Outcomes
		}
		t.Labels = append(t.Labels, p.Label())
		of := familyOf(p.Crop)
		family[of] = append(family[of], i)
	}
	t.Together = risk.TogetherOf(f.Base, outcomes)
	for i, x := range assessed {
		name := familyOf(x.Result.Planting.Crop)
		if same := family[name]; len(same) > 1 && same[0] == i {
			var rows [][]risk.Outcome
			var of []string
			for _, k := range same {
				rows, of = append(rows, outcomes[k]), append(of, t.Labels[k])
			}
			t.AnyOf = append(t.AnyOf, AnyOf{name, of, risk.EitherSucceeds(f.Base, rows...)})
		}
	}
	night, took := past.worstNight(g.Calendar)
	t.Night = night
	for _, i := range took {
		t.Took = append(t.Took, t.Labels[i])
	}
	return t, nil
}

// familyOf is what a household takes a crop for: its family, or itself.
func familyOf(c crops.Crop) string {
	if c.Family != "" {
		return c.Family
	}
	return c.Title
}

// worstNight is the morning of the night of the record that killed the most plantings before their first picking, the
// latest where several did, and which; none where none was killed.
func (r *Remembered) worstNight(c climate.Calendar) (morning climate.Day, took []int) {
	killed := map[climate.Day][]int{}
	for i, outcomes := range r.Outcomes {
		for k, o := range outcomes {
			if o.Known && o.Lost {
				day := c.Day(r.Seasons[k], o.KilledOn)
				killed[day] = append(killed[day], i)
			}
		}
	}
	for day, of := range killed {
		if len(of) > len(took) || len(of) == len(took) && day > morning {
			morning, took = day, of
		}
	}
	return morning, took
}

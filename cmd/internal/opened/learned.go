package opened

import (
	"slices"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/crops"
	"frostward/risk"
)

// OwnCrop is what the diary's first pickings say of a crop in this garden.
type OwnCrop struct {
	risk.Learned
	Dates []climate.Day // the first pickings, those of Odd among them
	Usual float64       // what the catalogue's crop needs, °C-days
}

// lookEvery is how many days lie between a gardener's looks at a crop about to be ready
// (common practice, no source; a week would change a learned date by 0.1 day).
const lookEvery = 3

// Learned is what the garden has shown of its own crops, by their labels.
func (g *Garden) Learned() (map[string]OwnCrop, error) { return g.learned() }

func (g *Garden) workOutLearned() (map[string]OwnCrop, error) {
	lives, err := g.pickedLives()
	if err != nil || len(lives) == 0 {
		return nil, err
	}
	first, _ := g.Calendar.Locate(lives[0].start)
	last := first
	for _, l := range lives {
		season, _ := g.Calendar.Locate(l.start)
		first, last = min(first, season), max(last, season)
	}
	fields, err := g.catalogueFields(climate.Recorded(g.Masked, g.Settings.Latitude, first, last))
	if err != nil {
		return nil, err
	}
	out, seen := map[string]OwnCrop{}, map[string][]risk.Seen{}
	for _, l := range lives {
		season, start := g.Calendar.Locate(l.start)
		f := fields.Field(l.spot, l.crop, l.raised)
		s, ok := f.SeenOn(season-first, risk.Planting{Crop: l.crop, Start: start, Raised: l.raised}, g.SeasonDay(season, l.picked), lookEvery)
		if !ok {
			continue // the record does not have its days
		}
		label := l.crop.Label()
		own := out[label]
		own.Dates, own.Usual = append(own.Dates, l.picked), s.Usual
		seen[label] = append(seen[label], s)
		own.Learned = risk.Learn(seen[label])
		out[label] = own
	}
	return out, nil
}

// life is a planting of the diary from going into the ground to its first picking.
type life struct {
	crop          crops.Crop
	spot          garden.Spot
	raised        bool
	start, picked climate.Day
}

// pickedLives are the plantings of the diary whose start and first picking it has. A name is that
// of a row of the plan, else a crop's own: last year's plan is not there any more.
func (g *Garden) pickedLives() ([]life, error) {
	diary, err := g.Diary()
	if err != nil || !diary.Picked() {
		return nil, err
	}
	rows, err := g.Plan()
	if err != nil {
		return nil, err
	}
	plantings, err := g.Resolve(rows)
	if err != nil {
		return nil, err
	}
	known := map[string]life{}
	for i, name := range Names(rows) {
		p := plantings[i]
		known[strings.ToLower(name)] = life{crop: p.Crop, spot: p.Where, raised: p.Raised}
	}
	cat, err := g.Catalogue()
	if err != nil {
		return nil, err
	}
	deeds := slices.Clone(diary.Deeds)
	slices.SortStableFunc(deeds, func(a, b journal.Deed) int { return int(a.Day - b.Day) })
	var out []life
	for _, d := range deeds {
		if d.Day > g.Today() {
			break
		}
		name := strings.ToLower(d.Planting)
		l, ok := known[name]
		if !ok {
			label, class, _ := strings.Cut(d.Planting, ",")
			crop, err := cat.Find(label, strings.TrimSpace(class))
			spot, err2 := g.Settings.Spot("")
			if err != nil || err2 != nil {
				continue
			}
			l = life{crop: crop, spot: spot, raised: WeeksUnderCover(crop) > 0}
		}
		switch {
		case d.What == journal.PlantedOut:
			l.start, l.raised = d.Day, true
		case d.What == journal.Sown && !l.raised:
			l.start = d.Day
		case d.What == journal.FirstPicked && l.start != 0:
			if l.picked = d.Day; d.Day > l.start && d.Day-l.start <= maxStanding {
				out = append(out, l)
			}
			l.start = 0
		case d.Ends():
			l.start = 0
		}
		known[name] = l
	}
	return out, nil
}

package opened

import (
	"math"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/crops"
	"frostward/risk"
)

// OwnCrop is what the diary says of a crop in this garden: its first pickings, and what frost took and left.
type OwnCrop struct {
	risk.Learned
	Cold   risk.LearnedCold
	Nights []climate.Day // of Cold's nights: when the planting ended
	Dates  []climate.Day // the first pickings, those of Odd among them
	Usual  float64       // what the catalogue's crop needs, °C-days
}

// Of returns the crop as the garden has shown it.
func (o OwnCrop) Of(c crops.Crop) crops.Crop { return o.Cold.Of(o.Learned.Of(c)) }

// Taught says whether anything has been learned of the crop, or a date is too far off to learn from.
func (o OwnCrop) Taught() bool { return len(o.Dates)+o.Cold.Killed+o.Cold.Lived+len(o.Cold.Odd) > 0 }

// lookEvery is how many days lie between a gardener's looks at a crop about to be ready
// (common practice, no source; a week would change a learned date by 0.1 day).
const lookEvery = 3

// Learned is what the garden has shown of its own crops, by their labels.
func (g *Garden) Learned() (map[string]OwnCrop, error) { return g.learned() }

func (g *Garden) workOutLearned() (map[string]OwnCrop, error) {
	lives, err := g.lives()
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
	out := map[string]OwnCrop{}
	seen, met := map[string][]risk.Seen{}, map[string][]risk.Faced{}
	for _, l := range lives {
		season, start := g.Calendar.Locate(l.start)
		f := fields.Field(l.spot, l.crop, l.raised).Certain()
		label := l.crop.Label()
		own, ok := out[label]
		if !ok {
			own.Learned = risk.Learn(nil)
		}
		if l.picked > l.start && l.picked-l.start <= maxStanding {
			s, ok := f.SeenOn(season-first, risk.Planting{Crop: l.crop, Start: start, Raised: l.raised}, g.SeasonDay(season, l.picked), lookEvery)
			if ok { // the record has its days
				own.Dates, own.Usual = append(own.Dates, l.picked), s.Usual
				seen[label] = append(seen[label], s)
				own.Learned = risk.Learn(seen[label])
			}
		}
		if !l.crop.BelowCm.Known() { // the soil's killing temperature is not the night's
			for _, n := range g.faced(fields.Spots, f, l, season, season-first) {
				met[label] = append(met[label], n)
				own.Nights = append(own.Nights, l.end.Day)
			}
			own.Cold = risk.LearnCold(l.crop, met[label])
		}
		out[label] = own
	}
	return out, nil
}

// life is a planting of the diary from going into the ground to its end, as far as that is known.
type life struct {
	crop          crops.Crop
	spot          garden.Spot
	cover         risk.Cover // in the plan
	raised        bool
	start, picked climate.Day  // picked: 0 where it does not say
	end           journal.Deed // what it ended with; the zero deed where it does not say
}

// lives are the plantings of the diary whose start it has, in its order. A name is that of a row of the plan, else a
// crop's own: last year's plan is not there any more.
func (g *Garden) lives() ([]life, error) {
	diary, err := g.Diary()
	if err != nil || !diary.Teaches() {
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
		known[strings.ToLower(name)] = life{crop: p.Crop, spot: p.Where, raised: p.Raised, cover: p.Cover}
	}
	cat, err := g.Catalogue()
	if err != nil {
		return nil, err
	}
	deeds := slices.Clone(diary.Deeds)
	slices.SortStableFunc(deeds, func(a, b journal.Deed) int { return int(a.Day - b.Day) })
	var out []life
	under := map[string]int{} // where the planting of a name stands in out, while it lives
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
		at, alive := under[name]
		switch {
		case d.What == journal.PlantedOut || d.What == journal.Sown && !l.raised:
			l.start, l.raised = d.Day, l.raised || d.What == journal.PlantedOut
			if alive && out[at].picked == 0 { // written once more: it begins here
				out[at] = l
			} else {
				under[name], out = len(out), append(out, l)
			}
			l.start = 0
		case d.What == journal.FirstPicked && alive && out[at].picked == 0:
			out[at].picked = d.Day
		case d.Ends() && alive:
			out[at].end = d
			delete(under, name)
		}
		known[name] = l
	}
	return out, nil
}

// reading is what a thermometer of known quality errs by at the plants, °C, one standard deviation (our assumption).
const reading = 0.5

// faced are the nights of a life that say what its crop stands: the coldest that it is known to have lived through, and the
// one that killed it. The log's own readings go before what is usual at the spot.
func (g *Garden) faced(s *Spots, f *risk.Field, l life, season, index int) (out []risk.Faced) {
	_, start := g.Calendar.Locate(l.start)
	p := risk.Planting{Crop: l.crop, Start: start, Raised: l.raised}
	model := s.Model(l.spot)
	read := map[climate.Day]float64{}
	for _, e := range s.log.Nights() {
		if e.Spot == l.spot.Name && e.Tmin == e.Tmin {
			read[e.Day] = e.Tmin
		}
	}
	maybe := l.cover.Gain
	if covers := g.RiskCovers(); maybe == 0 && len(covers) > 0 {
		maybe = covers[0].Gain
	}
	worst := func(from, to climate.Day, killed bool) {
		best := risk.Faced{Margin: math.Inf(1), Killed: killed}
		for d := from; d <= to; d++ {
			n := risk.Faced{Spread: reading, Killed: killed}
			low, ok := read[d]
			if !ok {
				night := site.NightOf(g.Masked, g.Calendar, d)
				low, n.Spread, n.Cover = model.Mean(night), math.Hypot(reading, model.SD(night)), maybe
				if c, err := g.Cover(l.end.Covered); killed && l.end.Covered != "" && (err == nil || l.end.Covered == "no") {
					low, n.Cover = low+c.Gain, 0
					n.Spread = math.Hypot(n.Spread, math.Hypot(c.Spread, c.Between))
				}
			}
			if !killed && !(low < 8) { // it harms nothing
				continue
			}
			if x, up := f.Exposed(index, p, g.SeasonDay(season, d), l.picked != 0 && d > l.picked); up {
				if n.Margin = low - x.Kill; n.Margin < best.Margin {
					best = n
				}
			}
		}
		if !math.IsInf(best.Margin, 0) {
			out = append(out, best)
		}
	}
	lived := l.picked
	switch l.end.What {
	case journal.LostToFrost:
		lived = l.end.Day - lookEvery
		worst(lived+1, l.end.Day, true)
	case journal.Cleared:
		lived = l.end.Day
	}
	worst(l.start+1, min(lived, l.start+maxStanding), false)
	return out
}

package risk

import (
	"math"

	"frostward/climate"
	"frostward/crops"
)

// Supply is a steady supply of one crop: its sowings, and the last one of the year.
type Supply struct {
	Sowings []Result
	Last    *Last   // for autumn and winter; nil where there is none
	LastOut *Result // of a crop that frost ends: the last start that does as well as aimed for
	Best    *Start  // where no start does as well as aimed for: the best day; nil where none succeeds
}

// winterDays are the days on which the winter's standing is asked about: the shortest day, and
// the ends of the two months after its own.
var winterDays = []climate.SeasonDay{354, climate.YearDays + 30, climate.YearDays + 58}

// SupplyOf finds the sowings of a crop for a steady supply in its window, where one is picked for so many days: the
// first is on the window's earliest day. A crop of which no day meets the aim has its best day alone, and so has a
// bulb grown from cloves or sets, which is lifted all at once and kept.
func SupplyOf(f *Field, p Planting, lasts int, aim float64) Supply {
	w := WindowOf(f, p, nil, aim)
	out := Supply{Sowings: w.succession(lasts)}
	if p.Crop.Kind == crops.Bulb && p.Crop.StartsFrom != "seed" && len(out.Sowings) > 0 {
		out.Sowings = []Result{w.Result(w.Best)}
	}
	if w.Earliest < 0 && w.Best >= 0 && w.Starts[w.Best].Succeeds.Share > 0 {
		out.Best = &w.Starts[w.Best]
	}
	if p.Crop.Tender() || p.Crop.Kind == crops.Fruit {
		if w.Last >= 0 {
			last := w.Result(w.Last)
			out.LastOut = &last
		}
		return out
	}
	_, usual := Customary(p.Crop)
	if l, ok := lastStart(f, p, climate.Window{From: usual.From, To: usual.From + climate.YearDays - 1}, aim, winterDays); ok {
		out.Last = &l
	}
	return out
}

// succession picks starting days for a steady supply from those tried, in their order: the
// first is the earliest that meets the aim at the lower end of its interval, and each next one the
// earliest whose picking is likely to begin when that of the one before ends, lasts days after
// it began. In spring one warm week brings several sowings on together, so the days lie further
// apart than in summer.
func (w Window) succession(lasts int) []Result {
	var out []Result
	next := math.Inf(-1) // the day from which the next picking is wanted
	for i, s := range w.Starts {
		if !meets(s.Succeeds, w.Aim) {
			continue
		}
		r := w.Result(i)
		if pick := r.Harvest[1]; !pick.Known || math.IsInf(pick.Value, 0) || pick.Value < next {
			continue
		}
		out = append(out, r)
		next = r.Harvest[1].Value + float64(lasts)
	}
	return out
}

// Standing is one starting day asked about a later date: whether the crop is there to be picked.
type Standing struct {
	Planting Planting
	Ready    climate.Chance // it is ready by the date, having lived so far
	Good     climate.Chance // and on the date it is neither killed nor past its best
}

// maxStand is the days a crop stays good once ready: as long as it is picked or stands.
func maxStand(p Planting) float64 {
	return max(orElse(p.Crop.PickingDays.Value, WorthPicking), orElse(p.Crop.StandDays.Value, 0))
}

// standingOn plays a planting from every starting day in a window, step days apart, and asks
// about a date.
func standingOn(f *Field, p Planting, w climate.Window, step int, date climate.SeasonDay) []Standing {
	var out []Standing
	n := len(f.Ensemble.Seasons)
	for sd := w.From; sd <= w.To; sd += climate.SeasonDay(step) {
		q := p.At(sd)
		ready, good := make([]climate.Answer, n), make([]climate.Answer, n)
		for i := range ready {
			outcome := f.Play(i, q)
			by := outcome.picked() <= float64(date)
			ready[i] = known(outcome, by)
			good[i] = ready[i]
			if by {
				stands := f.stands(i, q, outcome, date)
				if stands == climate.Yes && f.aged(i, outcome.ReadyOn, date) > maxStand(q) {
					stands = climate.No
				}
				good[i] = stands
			}
		}
		out = append(out, Standing{q, f.Ensemble.Chance(ready), f.Ensemble.Chance(good)})
	}
	return out
}

// ForDay are the sowings that have a crop ready and still good on a day.
type ForDay struct {
	Day   climate.SeasonDay
	All   []Standing
	First int // the first and last of All that do as well as aimed for; -1: none
	Last  int
	Best  int // the surest, and of days as sure the middle one; -1: none succeeds
}

// longestWait is how long before a day a sowing for it is looked for, in days.
const longestWait = 340

// SowFor finds when to sow to have a crop on a day. A day that lies before the customary time, or hardly after it,
// is that of the next year.
func SowFor(f *Field, p Planting, day climate.SeasonDay, aim float64) ForDay {
	if float64(day) < orElse(p.Crop.OutFrom.Value, 0)+21 {
		day += climate.YearDays
	}
	from := max(day-longestWait, climate.SpanFrom+30)
	out := ForDay{Day: day, First: -1, Last: -1, Best: -1, All: standingOn(f, p, climate.Window{From: from, To: day - 7}, 1, day)}
	for i, x := range out.All {
		if !x.Good.Known || x.Good.Share == 0 {
			continue
		}
		if out.Best < 0 || x.Good.Share > out.All[out.Best].Good.Share {
			out.Best = i
		}
		if x.Good.Share >= aim {
			if out.First < 0 {
				out.First = i
			}
			out.Last = i
		}
	}
	if out.Best >= 0 {
		end := out.Best
		for end+1 < len(out.All) && out.All[end+1].Good.Share == out.All[out.Best].Good.Share {
			end++
		}
		out.Best = (out.Best + end) / 2
	}
	return out
}

// ages is the growth, in effective day-degrees, below which a day leaves a hardy crop in its bed
// as it is: in the cold and dark of winter leeks, sprouts and roots stand still (common practice;
// the figure is ours).
const ages = 1.0

// aged is how many days have aged a crop between its being ready and a date: all of them, but
// for a hardy crop those on which it grows.
func (f *Field) aged(i int, ready, date climate.SeasonDay) float64 {
	from, to := int(ready-climate.SpanFrom)+1, min(int(date-climate.SpanFrom)+1, climate.SpanLen)
	if f.Crop.Tender() || f.growth.key.days || from >= to {
		return float64(date - ready)
	}
	n := 0
	for _, worth := range f.growth.row(i, from, to)[from:to] {
		if !(worth < ages) { // a day not known ages it
			n++
		}
	}
	return float64(n)
}

// stands says whether a crop that is ready is still alive in its bed on a date.
func (f *Field) stands(i int, p Planting, outcome Outcome, date climate.SeasonDay) climate.Answer {
	if date >= f.bolts && f.bolts < climate.SpanTo {
		return climate.No // run to seed
	}
	nights, kill := f.met(i, outcome.upOn(p)), f.newLife(i, &p).killReady
	missing := 0
	for sd := outcome.ReadyOn + 1; sd <= date && sd < climate.SpanTo; sd++ {
		low := nights.at(int(sd - climate.SpanFrom))
		if math.IsNaN(low) {
			if missing++; missing >= gapInAll {
				return climate.NotKnown
			}
			continue
		}
		if p.Cover.Name != "" {
			low += f.coverGain(i, sd, p.Cover)
		}
		if low <= kill {
			return climate.No
		}
	}
	return climate.Yes
}

// Last is the last start for picking before growth all but stops, and how long what is ready
// then stands at its spot.
type Last struct {
	Planting Planting
	Line     climate.SeasonDay // the light line
	Size     climate.Chance    // full size is reached by the line
	Winter   []WinterStand
}

// WinterStand is the chance that a planting which reached its size by the line is alive on a day.
type WinterStand struct {
	On    climate.SeasonDay
	Alive climate.Chance
}

// lastStart finds the last starting day from which a planting reaches its size by the light
// line in at least a share of the seasons, and asks how often it is alive on later days. There
// is none where no day in the window does, or the latitude has no such line.
func lastStart(f *Field, p Planting, w climate.Window, aim float64, later []climate.SeasonDay) (Last, bool) {
	line, none := lightLine(f.Ensemble, p.At(w.From))
	if none {
		return Last{}, false
	}
	n := len(f.Ensemble.Seasons)
	for sd := min(w.To, line); sd >= w.From; sd-- {
		q := p.At(sd)
		outcomes, size := make([]Outcome, n), make([]climate.Answer, n)
		for i := range outcomes {
			outcomes[i] = f.Play(i, q)
			size[i] = known(outcomes[i], outcomes[i].picked() <= float64(line))
		}
		l := Last{Planting: q, Line: line, Size: f.Ensemble.Chance(size)}
		if !l.Size.Known || l.Size.Share < aim {
			continue
		}
		for _, on := range later {
			alive := make([]climate.Answer, n)
			for i := range alive {
				if alive[i] = size[i]; size[i] == climate.Yes {
					alive[i] = f.stands(i, q, outcomes[i], on)
				}
			}
			l.Winter = append(l.Winter, WinterStand{on, f.Ensemble.Chance(alive)})
		}
		return l, true
	}
	return Last{}, false
}

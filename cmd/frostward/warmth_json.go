package main

import (
	"math"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
)

type warmthJSON struct {
	Garden     string         `json:"garden"`
	By         string         `json:"by"`
	Seasons    seasonsJSON    `json:"seasons"`
	DegreeDays degreeDaysJSON `json:"degree_days"`
	HeatUnits  amountsJSON    `json:"crop_heat_units"`
	Growing    growingJSON    `json:"growing_season"`
	Years      []yearJSON     `json:"years"`
	DayLength  dayLengthJSON  `json:"day_length"`
}

type degreeDaysJSON struct {
	Crop   string   `json:"crop,omitempty"`
	BaseC  float64  `json:"base_c"`
	UpperC *float64 `json:"upper_c"`
	Method string   `json:"method"`
	Limit  string   `json:"limit"`
	From   string   `json:"from"`
	To     string   `json:"to"`
	amountsJSON
	Trend *amountTrendJSON `json:"trend"`
	SoFar *soFarJSON       `json:"so_far"`
}

// amountsJSON is what seasons bring at least, at chances.
type amountsJSON struct {
	Seasons int           `json:"seasons"`
	LeftOut int           `json:"left_out"`
	Chances []frostChance `json:"chances"`
}

type growingJSON struct {
	amountsJSON
	Starts []frostChance `json:"starts"`
	Ends   []frostChance `json:"ends"`
}

type amountTrendJSON struct {
	PerDecade *float64 `json:"per_decade"`
	Low       *float64 `json:"low"`
	High      *float64 `json:"high"`
	P         *float64 `json:"p_mann_kendall"`
	Seasons   int      `json:"seasons"`
}

type soFarJSON struct {
	Season     int      `json:"season"`
	Through    string   `json:"through"`
	DegreeDays *float64 `json:"degree_days"`
	PastMedian *float64 `json:"past_median"`
	PastBelow  int      `json:"past_seasons_below"`
	Past       int      `json:"past_seasons"`
}

type yearJSON struct {
	Season       int      `json:"season"`
	DegreeDays   *float64 `json:"degree_days"`
	Filled       int      `json:"filled_days"`
	Missing      int      `json:"missing_days"`
	HeatUnits    *float64 `json:"crop_heat_units"`
	HeatUnitsEnd *string  `json:"crop_heat_units_end"`
	Start        *string  `json:"growing_season_start"`
	End          *string  `json:"growing_season_end"`
	Days         *float64 `json:"growing_season_days"`
	Why          string   `json:"growing_season_note,omitempty"`
}

type dayLengthJSON struct {
	Latitude float64         `json:"latitude"`
	Longest  lightDayJSON    `json:"longest"`
	Shortest lightDayJSON    `json:"shortest"`
	AtLeast  []lightSpanJSON `json:"at_least"`
}

type lightDayJSON struct {
	Date  string   `json:"date"`
	Hours *float64 `json:"hours"`
}

type lightSpanJSON struct {
	Hours float64 `json:"hours"`
	First *string `json:"first"`
	Last  *string `json:"last"`
	Days  int     `json:"days"`
}

func (s *session) warmthJSON(w *opened.Warmth) warmthJSON {
	out := warmthJSON{Garden: s.Settings.Name, By: w.Seasons.By.String(),
		Seasons:    seasonsJSON{First: s.First, Last: s.Last, LeftOut: []leftOutJSON{}},
		HeatUnits:  amounts(w.HeatUnits),
		Growing:    growingJSON{amountsJSON: amounts(w.Growing)},
		DegreeDays: degreeDaysJSON{Crop: w.Of, BaseC: w.Sum.Base, UpperC: number(w.Sum.Upper, 2), Method: w.Sum.Method.String(), Limit: w.Sum.Limit.String(), From: s.Calendar.Format(w.Days.From), To: s.Calendar.Format(w.Days.To), amountsJSON: amounts(w.DegreeDays)},
	}
	if w.Sum.Limit == climate.NoLimit {
		out.DegreeDays.UpperC = nil
	}
	for i, c := range opened.FrostChances {
		out.Growing.Starts = append(out.Growing.Starts, s.growingChance(c, w.Starts[i], "does not start in that many seasons"))
		out.Growing.Ends = append(out.Growing.Ends, s.growingChance(c, w.Ends[i], "does not end within the year in that many seasons"))
	}
	if t := w.Trend; t.OK && t.N >= 10 {
		out.DegreeDays.Trend = &amountTrendJSON{number(10*t.Slope, 1), number(10*t.Low, 1), number(10*t.High, 1), number(t.P, 4), t.N}
	}
	if f := w.SoFar; f != nil {
		out.DegreeDays.SoFar = &soFarJSON{f.Season, s.Calendar.Day(f.Season, f.Last).String(), number(f.Sum.Sum, 1), nil, f.Below, f.Of}
		if f.Past.Known {
			out.DegreeDays.SoFar.PastMedian = number(f.Past.Value, 1)
		}
	}
	for _, y := range w.Years {
		j := yearJSON{Season: y.Season, DegreeDays: number(y.DegreeDays.Sum, 1), Filled: y.DegreeDays.Filled, Missing: y.DegreeDays.Missing,
			HeatUnits: number(y.HeatUnits.Sum, 0), Days: number(y.Growing.Days, 0), Why: sentences.Growing(y.Growing)}
		if y.HeatUnits.Known() {
			j.HeatUnitsEnd = isoDay(s.Calendar, float64(y.HeatEnd))
		}
		_, start, end := opened.GrowingNumbers([]climate.GrowingSeason{y.Growing})
		j.Start, j.End = isoDay(s.Calendar, start[0]), isoDay(s.Calendar, end[0])
		out.Years = append(out.Years, j)
		if y.DegreeDays.Known() {
			out.Seasons.Used++
		} else {
			out.Seasons.LeftOut = append(out.Seasons.LeftOut, leftOutJSON{Season: y.Season, Why: sentences.LackOfWarmth(y.DegreeDays)})
		}
	}
	out.DayLength = dayLengthJSON{Latitude: s.Settings.Latitude,
		Longest:  lightDayJSON{s.Calendar.Format(w.Longest.Day), number(w.Longest.Hours, 2)},
		Shortest: lightDayJSON{s.Calendar.Format(w.Shortest.Day), number(w.Shortest.Hours, 2)}}
	for _, l := range w.Light {
		j := lightSpanJSON{Hours: l.Hours, Days: l.Days()}
		if !l.None {
			j.First, j.Last = isoDay(s.Calendar, float64(l.First)), isoDay(s.Calendar, float64(l.Last))
		}
		out.DayLength.AtLeast = append(out.DayLength.AtLeast, j)
	}
	return out
}

// amounts are quantiles by opened.FrostChances of what a season brings at least.
func amounts(q []climate.Quantile) amountsJSON {
	var out amountsJSON
	for i, c := range opened.FrostChances {
		f := frostChance{Chance: c, AtLeast: nullJSON{}, Low: nullJSON{}, High: nullJSON{}}
		if q[i].Known {
			f.AtLeast, f.Low, f.High = whole(q[i].Value), whole(q[i].Low), whole(q[i].High)
		} else {
			f.Reason = "too few seasons"
		}
		out.Seasons, out.LeftOut = q[i].Seasons, q[i].LeftOut
		out.Chances = append(out.Chances, f)
	}
	return out
}

func whole(v float64) any {
	if n := number(v, 0); n != nil {
		return *n
	}
	return nullJSON{}
}

// growingChance is a date of the growing season at a chance.
func (s *session) growingChance(c float64, q climate.Quantile, never string) frostChance {
	date := func(v float64) any {
		if d := isoDay(s.Calendar, v); d != nil && q.Known {
			return *d
		}
		return nullJSON{}
	}
	f := frostChance{Chance: c, OnOrBefore: date(q.Value), Low: date(q.Low), High: date(q.High)}
	switch {
	case !q.Known:
		f.Reason = "too few seasons"
	case math.IsInf(q.Value, 1):
		f.Reason = never
	}
	return f
}

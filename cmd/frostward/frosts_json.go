package main

import (
	"math"

	"frostward/climate"
	"frostward/cmd/internal/opened"
)

type frostsJSON struct {
	Garden  string        `json:"garden"`
	Spot    string        `json:"spot"`
	By      string        `json:"by"`
	Seasons seasonsJSON   `json:"seasons"`
	Frosts  []frostAtJSON `json:"frosts"`
	Beside  []besideJSON  `json:"beside,omitempty"` // another place of the garden
}

type besideJSON struct {
	Spot   string        `json:"spot"`
	Frosts []frostAtJSON `json:"frosts"`
}

type seasonsJSON struct {
	First   int           `json:"first"`
	Last    int           `json:"last"`
	Used    int           `json:"used"`
	LeftOut []leftOutJSON `json:"left_out"`
}

type leftOutJSON struct {
	Season int    `json:"season"`
	Half   string `json:"half,omitempty"`
	Why    string `json:"why"`
}

type frostAtJSON struct {
	ThresholdC float64       `json:"threshold_c"`
	Spring     frostHalfJSON `json:"spring"`
	Autumn     frostHalfJSON `json:"autumn"`
	Free       freeJSON      `json:"frost_free_days"`
}

type frostHalfJSON struct {
	Seasons   int           `json:"seasons"`
	WithFrost int           `json:"with_frost"`
	Earliest  *seasonDate   `json:"earliest"`
	Latest    *seasonDate   `json:"latest"`
	Mean      *string       `json:"mean"`
	Median    *string       `json:"median"`
	SDDays    *float64      `json:"sd_days"`
	Chances   []frostChance `json:"chances"`
	Trend     *trendJSON    `json:"trend"`
}

type seasonDate struct {
	Season int    `json:"season"`
	Date   string `json:"date"`
}

type frostChance struct {
	Chance     float64 `json:"chance"`
	OnOrAfter  any     `json:"on_or_after,omitempty"`
	OnOrBefore any     `json:"on_or_before,omitempty"`
	AtLeast    any     `json:"at_least,omitempty"`
	Low        any     `json:"low"`
	High       any     `json:"high"`
	Reason     string  `json:"reason,omitempty"`
}

type freeJSON struct {
	Seasons int           `json:"seasons"`
	Chances []frostChance `json:"chances"`
	Trend   *trendJSON    `json:"trend"`
}

type trendJSON struct {
	DaysPerDecade *float64 `json:"days_per_decade"`
	Low           *float64 `json:"low"`
	High          *float64 `json:"high"`
	P             *float64 `json:"p_mann_kendall"`
	Seasons       int      `json:"seasons"`
}

func (s *session) frostsJSON(places []frostPlace) frostsJSON {
	first := places[0]
	out := frostsJSON{Garden: s.Settings.Name, Spot: first.name, By: first.seasons.By.String(),
		Seasons: seasonsJSON{First: s.First, Last: s.Last, LeftOut: []leftOutJSON{}}, Frosts: s.frostsAtJSON(first)}
	for _, p := range places[1:] {
		out.Beside = append(out.Beside, besideJSON{p.name, s.frostsAtJSON(p)})
	}
	whole := map[int]bool{}
	for y := s.First; y <= s.Last; y++ {
		whole[y] = true
	}
	seen := map[leftOutJSON]bool{}
	for _, t := range first.found {
		for _, l := range t.Dates.LeftOut {
			whole[l.Season] = false
			if j := (leftOutJSON{l.Season, l.Half, l.Why}); !seen[j] {
				seen[j] = true
				out.Seasons.LeftOut = append(out.Seasons.LeftOut, j)
			}
		}
	}
	for _, ok := range whole {
		if ok {
			out.Seasons.Used++
		}
	}
	return out
}

// frostsAtJSON are the frosts of a place, by threshold.
func (s *session) frostsAtJSON(p frostPlace) (out []frostAtJSON) {
	for _, t := range p.found {
		at := frostAtJSON{ThresholdC: float64(t.Dates.Threshold),
			Spring: s.halfJSON(t.Dates.Spring, t.Trends[0]), Autumn: s.halfJSON(t.Dates.Autumn, t.Trends[1]),
			Free: freeJSON{Trend: trendOf(t.Trends[2])}}
		at.Free.Seasons, _ = opened.Counted(t.Dates.Free)
		for i, c := range opened.FrostChances {
			at.Spring.Chances = append(at.Spring.Chances, s.frostChance(c, t.Spring[i], 's'))
			at.Autumn.Chances = append(at.Autumn.Chances, s.frostChance(c, t.Autumn[i], 'a'))
			at.Free.Chances = append(at.Free.Chances, s.frostChance(c, t.Free[i], 'f'))
		}
		out = append(out, at)
	}
	return out
}

func (s *session) halfJSON(dates []float64, t opened.Trend) frostHalfJSON {
	h := frostHalfJSON{Trend: trendOf(t)}
	h.Seasons, h.WithFrost = opened.Counted(dates)
	mean, sd := opened.Spread(dates)
	h.Mean, h.SDDays = isoDay(s.Calendar, mean), number(sd, 2)
	h.Median = isoDay(s.Calendar, opened.Median(dates))
	if i := opened.Extreme(dates, 1); i >= 0 {
		j := opened.Extreme(dates, -1)
		h.Earliest = &seasonDate{s.First + i, s.Calendar.Day(s.First+i, climate.SeasonDay(dates[i])).String()}
		h.Latest = &seasonDate{s.First + j, s.Calendar.Day(s.First+j, climate.SeasonDay(dates[j])).String()}
	}
	return h
}

// frostChance is one chance for programs: of a spring date, an autumn date or a number of
// frost-free days. What does not exist is null, with a reason.
func (s *session) frostChance(c float64, q climate.Quantile, kind byte) frostChance {
	value := func(v float64) any {
		if kind == 'f' {
			if n := number(v, 0); n != nil {
				return *n
			}
			return nullJSON{}
		}
		if d := isoDay(s.Calendar, v); d != nil {
			return *d
		}
		return nullJSON{}
	}
	f := frostChance{Chance: c, Low: value(q.Low), High: value(q.High)}
	if !q.Known {
		q.Value, f.Low, f.High = math.NaN(), nullJSON{}, nullJSON{}
	}
	switch kind {
	case 's':
		f.OnOrAfter = value(q.Value)
	case 'a':
		f.OnOrBefore = value(q.Value)
	default:
		f.AtLeast = value(q.Value)
	}
	switch {
	case !q.Known:
		f.Reason = "too few seasons"
	case math.IsInf(q.Value, 0) && kind == 'f':
		f.Reason = "without end: frost does not come in that many seasons"
	case math.IsInf(q.Value, 0):
		f.Reason = "no frost in that many seasons"
	}
	return f
}

// nullJSON is a null that "omitempty" does not leave out.
type nullJSON struct{}

// MarshalJSON writes null.
func (nullJSON) MarshalJSON() ([]byte, error) { return []byte("null"), nil }

func trendOf(t opened.Trend) *trendJSON {
	if !t.OK || t.N < 10 {
		return nil
	}
	return &trendJSON{number(10*t.Slope, 2), number(10*t.Low, 2), number(10*t.High, 2), number(t.P, 4), t.N}
}

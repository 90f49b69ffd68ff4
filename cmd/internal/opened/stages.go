package opened

import (
	"math"

	"frostward/climate"
	"frostward/risk"
)

// Stages is a planting's way through a season, in season days; NaN where a stage is not
// gone through or its day is not known.
type Stages struct {
	Sow, Harden    float64 // raised plants: sown under cover, first day out of doors
	Out            float64 // planted out, or sown in place
	Pick           float64 // first picking: the median
	Early, Late    float64 // first picking: in 1 and in 9 seasons of 10 by then
	Free           float64 // picked, and the bed free: the median
	EndsWithoutOne float64 // where half the seasons or more have no picking: when it leaves the bed
}

// StagesOf are the stages of a planting that has been assessed.
func StagesOf(p Planned, x risk.Assessment) Stages {
	nan := math.NaN()
	st := Stages{Sow: nan, Harden: nan, Out: float64(p.Start), Pick: nan, Early: nan, Late: nan, Free: nan, EndsWithoutOne: nan}
	if p.Raised {
		st.Sow = float64(p.Sow)
		if len(x.Hardening.Nights) > 0 {
			st.Harden = float64(x.Hardening.From)
		}
	}
	dates := x.Result.Harvest
	st.Early, st.Pick, st.Late = Finite(dates[0]), Finite(dates[1]), Finite(dates[2])
	st.Free = Finite(x.Cleared())
	if free := x.FreeOn(); math.IsNaN(st.Pick) && len(free) > 1 {
		st.EndsWithoutOne = Finite(free[1])
	}
	return st
}

// Moved are the stages of a planting that started so many days later.
func (st Stages) Moved(days float64) Stages {
	for _, d := range []*float64{&st.Sow, &st.Harden, &st.Out, &st.Pick, &st.Early, &st.Late, &st.Free, &st.EndsWithoutOne} {
		*d += days
	}
	return st
}

// Finite is a date, NaN where there is none.
func Finite(q climate.Quantile) float64 {
	if !q.Known || math.IsInf(q.Value, 0) {
		return math.NaN()
	}
	return math.Round(q.Value)
}

// FirstKnown is the first of some days that is known.
func FirstKnown(days ...float64) float64 {
	for _, d := range days {
		if !math.IsNaN(d) {
			return d
		}
	}
	return math.NaN()
}

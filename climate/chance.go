package climate

import (
	"math"

	"frostward/climate/stat"
)

// Answer is what one season says to a yes-or-no question. The zero value is
// NotKnown: days were missing, and the season is left out and counted.
type Answer int8

const (
	NotKnown Answer = iota
	No
	Yes
)

// AnswerOf turns a bool into Yes or No.
func AnswerOf(b bool) Answer {
	if b {
		return Yes
	}
	return No
}

// Level is the confidence of every interval the program states.
const Level = 0.90

// MinSeasons is the fewest seasons of record from which a chance is stated. Below it
// the answer is "not known": at 5 of 5 the 90 % Wilson interval still reaches down to
// 0.65, and with fewer no plan could be graded. Common practice asks for more (10
// seasons for a provisional normal); between 5 and 10 the interval speaks for itself.
const MinSeasons = 5

// Chance is a share of seasons with its 90 % interval and sample size. The zero value
// means not known.
type Chance struct {
	Known   bool
	Share   float64 // 0 to 1
	Low     float64 // 90 % interval
	High    float64
	Seasons int // seasons of record that it rests on
	LeftOut int // seasons that could not answer
}

// Chance counts answers, one a season of the ensemble in its order.
//
// Over recorded seasons the interval is Wilson's. Over generated seasons the share is
// the mean over all, and the interval comes from the spread between worlds, each made
// from its own resample of the record; see stat.Worlds.
func (e Ensemble) Chance(answers []Answer) Chance {
	if len(answers) != len(e.Seasons) {
		panic("climate: Chance wants one answer a season")
	}
	var k, n int
	for _, o := range answers {
		switch o {
		case Yes:
			k++
			n++
		case No:
			n++
		}
	}
	if e.By != ByWeather {
		return e.ChanceOf(k, n)
	}
	c := Chance{Seasons: e.Rests, LeftOut: len(answers) - n}
	if n == 0 || c.Seasons < MinSeasons {
		return c
	}
	c.Known, c.Share = true, float64(k)/float64(n)
	c.Low, c.High = e.worlds(answers).Interval(Level)
	return c
}

// ChanceOf is Chance of recorded seasons of which yes say so, of those that can be known.
func (e Ensemble) ChanceOf(yes, known int) Chance {
	c := Chance{Seasons: known, LeftOut: len(e.Seasons) - known}
	if known < MinSeasons {
		return c
	}
	c.Known, c.Share = true, float64(yes)/float64(known)
	c.Low, c.High = stat.Wilson(yes, known, Level)
	return c
}

// worlds counts, world by world, what each season of the ensemble says. A plan asks for it
// some thousands of times, so it is counted without a branch on the answer.
func (e Ensemble) worlds(answers []Answer) stat.Worlds {
	w := stat.Worlds{Record: e.Rests, Yes: make([]int, 0, 32), Of: make([]int, 0, 32)}
	for i, o := range answers {
		k := e.Seasons[i].World
		for k >= len(w.Of) {
			w.Yes, w.Of = append(w.Yes, 0), append(w.Of, 0)
		}
		w.Of[k] += int(o+1) >> 1 // No and Yes
		w.Yes[k] += int(o) >> 1
	}
	return w
}

// Never stands for a date that does not come: no frost, no ripening. It sorts after
// every date.
var Never = math.Inf(1)

package risk

import (
	"math"

	"frostward/climate"
)

// Together is what becomes of several plantings in the same seasons: chances are counted jointly,
// as one frost may take them all, and never multiplied.
type Together struct {
	Every     climate.Chance   // every planting succeeds
	NineInTen climate.Chance   // at least nine plantings in ten do
	Fail      climate.Quantile // plantings that fail, in 9 seasons of 10 at most
	Pair      [2]int           // the two that fail together most often
	PairFails climate.Chance   // in so many seasons; not known where there are no two
}

// TogetherOf counts over plantings whose outcomes are of the same ensemble, season by season. A
// season in which any is not known is left out.
func TogetherOf(e climate.Ensemble, outcomes [][]Outcome) Together {
	n := len(e.Seasons)
	every, nine, fail := make([]climate.Answer, n), make([]climate.Answer, n), make([]float64, n)
	for i := range n {
		good, all := 0, true
		for _, o := range outcomes {
			all = all && o[i].Known
			if o[i].Known && o[i].Succeeds() {
				good++
			}
		}
		if fail[i] = math.NaN(); !all {
			continue
		}
		fail[i] = float64(len(outcomes) - good)
		every[i] = climate.AnswerOf(good == len(outcomes))
		nine[i] = climate.AnswerOf(10*good >= 9*len(outcomes))
	}
	t := Together{Every: e.Chance(every), NineInTen: e.Chance(nine), Fail: e.Quantile(fail, 0.9)}
	for a := range outcomes {
		for b := a + 1; b < len(outcomes); b++ {
			both := e.Chance(jointly(outcomes[a], outcomes[b], func(x, y bool) bool { return !x && !y }))
			if both.Known && (!t.PairFails.Known || both.Share > t.PairFails.Share) {
				t.Pair, t.PairFails = [2]int{a, b}, both
			}
		}
	}
	return t
}

// EitherSucceeds is the chance that at least one of several plantings succeeds, from the same
// seasons: a second sowing beside a first, or several plantings of one family. A season in which any is not known is
// left out: counted where another succeeds and not where it fails, such seasons would make the chance too high.
func EitherSucceeds(e climate.Ensemble, outcomes ...[]Outcome) climate.Chance {
	any := make([]climate.Answer, len(e.Seasons))
	for i := range any {
		good, all := false, true
		for _, o := range outcomes {
			all = all && o[i].Known
			good = good || o[i].Succeeds()
		}
		if all {
			any[i] = climate.AnswerOf(good)
		}
	}
	return e.Chance(any)
}

// jointly answers a question of two plantings in each season.
func jointly(a, b []Outcome, question func(a, b bool) bool) []climate.Answer {
	out := make([]climate.Answer, len(a))
	for i := range out {
		if a[i].Known && b[i].Known {
			out[i] = climate.AnswerOf(question(a[i].Succeeds(), b[i].Succeeds()))
		}
	}
	return out
}

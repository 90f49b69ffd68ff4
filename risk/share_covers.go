package risk

import (
	"math"
)

// Stock is how much of one kind of cover is owned. The zero value is none.
type Stock struct {
	Pieces float64 // each covers one planting; 0 where it goes by the metre
	Metres float64
}

// Need is how much of each kind of cover a planting takes.
type Need struct{ Metres float64 } // 0: not known, which counts as 1 m

// takes is what a planting takes of a stock, and what there is of it, in tenths of a metre or in pieces.
func (s Stock) takes(n Need) (takes, of int) {
	if s.Metres > 0 {
		m := n.Metres
		if m <= 0 {
			m = 1
		}
		return int(math.Ceil(10*m - 1e-9)), int(10*s.Metres + 1e-9)
	}
	return 1, int(s.Pieces)
}

// ShareCovers chooses for each planting what is done about it, so that all together cost the
// fewest hours, work and expected losses, with the covers that are owned; a cover that stock does
// not name is enough for all. It sets the Best of each advice. Where several choices cost the
// same, less is done, and for the later plantings.
//
// Every way of sharing what is left among the plantings after each is looked at once, so the
// choice is the best one and not only a good one.
func ShareCovers(advice []Advice, need []Need, stock map[string]Stock) {
	s := sharing{advice: advice, need: need, best: map[left]bestLeft{}}
	var all left
	for name, have := range stock {
		if len(s.names) == len(all.amount) {
			break // more kinds of cover than anyone counts; what is not counted is enough
		}
		_, all.amount[len(s.names)] = have.takes(Need{})
		s.names, s.stock = append(s.names, name), append(s.stock, have)
	}
	for i := range advice {
		b := s.from(all)
		advice[i].Best = b.choice
		all, _ = s.after(all, b.choice)
	}
}

// left is what is left of the covers for the plantings from one on.
type left struct {
	planting int
	amount   [6]int // of the kinds counted
}

type bestLeft struct {
	hours  float64
	choice int
}

type sharing struct {
	advice []Advice
	need   []Need
	names  []string
	stock  []Stock
	best   map[left]bestLeft
}

// from is the best that can be done about a planting and those after it.
func (s *sharing) from(l left) bestLeft {
	if l.planting == len(s.advice) {
		return bestLeft{}
	}
	if b, ok := s.best[l]; ok {
		return b
	}
	b := bestLeft{hours: math.Inf(1)}
	for k, c := range s.advice[l.planting].Choices {
		rest, ok := s.after(l, k)
		if !ok {
			continue
		}
		const hair = 1e-12 // hours, by which sums in another order differ
		if hours := c.hours() + s.from(rest).hours; hours < b.hours-hair {
			b = bestLeft{hours, k}
		}
	}
	s.best[l] = b
	return b
}

// after is what a choice for a planting leaves for the next; false where there is not enough.
func (s *sharing) after(l left, choice int) (left, bool) {
	c := s.advice[l.planting].Choices[choice]
	if c.Action == LayCover {
		for k, name := range s.names {
			if name == c.Cover.Name {
				takes, _ := s.stock[k].takes(s.need[l.planting])
				if l.amount[k] -= takes; l.amount[k] < 0 {
					return l, false
				}
			}
		}
	}
	l.planting++
	return l, true
}

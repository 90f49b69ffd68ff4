package risk

import (
	"math"
)

// Exposed is a planting that stands out tonight, or would.
type Exposed struct {
	Label   string
	SetBack float64 // damaged where the air's minimum at its spot is at or below, °C
	Kill    float64 // killed likewise, °C
	Spread  float64 // standard deviation of both among gardens and varieties, °C
	Movable bool    // in pots that can be carried in
}

// under is a cover as the planting's own chances meet it: how far its limits may be off counts
// like a cover's gain that may be off.
func (x Exposed) under(c Cover) Cover {
	c.Between = math.Hypot(c.Between, x.Spread)
	return c
}

// NightCosts are what a night's work and its losses are worth, in hours of work.
type NightCosts struct {
	Cover   float64 // to lay a cover over one planting and lift it again
	BringIn float64 // to carry a planting's pots in and out again
	SetBack float64 // a planting set back
	Lost    float64 // a planting killed
}

// Action is what may be done about a planting for a night. The zero value is to leave it.
type Action int

// The actions.
const (
	Leave Action = iota
	LayCover
	BringIn
)

func (a Action) String() string { return [...]string{"leave", "cover", "bring in"}[a] }

// NightChoice is one action with what it leads to.
type NightChoice struct {
	Action  Action
	Cover   Cover    // of LayCover
	Damaged ChanceOf // set back or killed
	Killed  ChanceOf
	Work    float64 // hours
	Loss    float64 // expected, hours
}

// hours is what the choice costs on average: its work and the loss it leaves.
func (c NightChoice) hours() float64 { return c.Work + c.Loss }

// Advice weighs the choices for one planting.
type Advice struct {
	Exposed Exposed
	Choices []NightChoice // to leave it first
	Best    int           // the one with the fewest hours; to leave it where equal
	// BreakEven is the chance of damage from which the cheapest protection pays, with
	// the cover's own uncertainty and the two kinds of damage in it: for a perfect cover
	// and one kind it is cost/loss. It is 1 where no protection ever pays.
	BreakEven float64
}

// Do returns the best choice.
func (a Advice) Do() NightChoice { return a.Choices[a.Best] }

// Advise weighs leaving a planting, each cover owned, and carrying it in, by expected
// cost: work, and losses by their chances (the cost-loss model: Murphy 1977, Mon. Wea.
// Rev. 105, 803-816; Katz & Murphy 1997). In the model's simplest form it comes to
// protecting when the chance of damage exceeds cost/loss; here a cover only lowers the
// chance, and by how much is itself uncertain.
func (t Tonight) Advise(x Exposed, covers []Cover, costs NightCosts) Advice {
	a := Advice{Exposed: x, Choices: t.choices(x, covers, costs)}
	for i, c := range a.Choices {
		if c.hours() < a.Choices[a.Best].hours() {
			a.Best = i
		}
	}
	a.BreakEven = t.breakEven(x, covers, costs)
	return a
}

func (t Tonight) choices(x Exposed, covers []Cover, costs NightCosts) []NightChoice {
	out := []NightChoice{t.choice(x, NightChoice{}, costs)}
	for _, c := range covers {
		out = append(out, t.choice(x, NightChoice{Action: LayCover, Cover: c, Work: costs.Cover}, costs))
	}
	if x.Movable {
		out = append(out, NightChoice{Action: BringIn, Work: costs.BringIn})
	}
	return out
}

func (t Tonight) choice(x Exposed, c NightChoice, costs NightCosts) NightChoice {
	c.Damaged, c.Killed = t.AtOrBelow(x.SetBack, x.under(c.Cover)), t.AtOrBelow(x.Kill, x.under(c.Cover))
	c.Loss = costs.Lost*c.Killed.Share + costs.SetBack*max(0, c.Damaged.Share-c.Killed.Share)
	return c
}

// breakEven lowers the night from one on which nothing is at stake until protecting
// first pays, and returns the chance of damage then.
func (t Tonight) breakEven(x Exposed, covers []Cover, costs NightCosts) float64 {
	pays := func(low float64) bool {
		u := t
		u.Tmin = low
		cs := u.choices(x, covers, costs)
		for _, c := range cs[1:] {
			if c.hours() < cs[0].hours() {
				return true
			}
		}
		return false
	}
	const step = 0.25 // °C
	warm := x.SetBack + 6*math.Hypot(t.SD, 1)
	for low := warm; low > x.Kill-15; low -= step {
		if !pays(low) {
			continue
		}
		hi, lo := low+step, low
		for range 20 {
			if mid := (hi + lo) / 2; pays(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		u := t
		u.Tmin = lo
		return u.AtOrBelow(x.SetBack, x.under(Cover{})).Share
	}
	return 1
}

package risk

import (
	"math"

	"frostward/climate"
)

// ReasonKind is what a reason is about.
type ReasonKind int

const (
	TooFewSeasons          ReasonKind = iota // Seasons can be played through, which is not enough to know
	WaitsForBed                              // the planting follows another: the assessment's Handover
	KilledByFrost                            // in a Share of the seasons, before picking
	SetBackByCold                            // in a Share of the seasons
	NotReady                                 // in time, in a Share of the seasons
	NotReadyPartlyForLight                   // the same, and ForLight of the seasons are warm enough
	NotReadyForLight                         // the same, and in most of that Share it is light alone that lacks
	ChilledAtFirst                           // on Nights[0] nights of its first fortnight, at or below Limit
	ColdSoil                                 // it comes up on Day, Days after sowing
	CoverSaves                               // the Cover it has is wanted on Nights; without it, it succeeds in a Share
	CoverWouldSave                           // under a Cover that it does not have, wanted on Nights, it would succeed in a Share
	BetterDay                                // started on Day, Days later (negative: earlier), it succeeds in a Share
	NoBetterDay                              // no day tried does clearly better
	BedTaken                                 // the bed is hardly ever free on the planned day, and usually on Day
)

// Reason is one of the things that decide how a planting scores. What a kind does not speak of
// is zero.
type Reason struct {
	Kind     ReasonKind
	Share    float64 // of the seasons, 0 to 1
	ForLight float64 // of the seasons, 0 to 1
	Seasons  int
	Nights   [2]float64 // a season: the median, and in 9 seasons of 10
	Limit    float64    // °C
	Day      climate.SeasonDay
	Days     float64
	Cover    string
	Sound    bool // BetterDay: it meets the aim even at the lower end of its interval
}

// Shares of seasons below which a thing is no reason.
const (
	fewSetBack = 0.1
	fewUnripe  = 0.05
)

// Reasons are why a planting scores as it does, the weightiest first; none where nothing goes
// wrong in any season.
func (a *Assessment) Reasons() []Reason {
	r := a.Result
	if !r.Succeeds.Known {
		return []Reason{{Kind: TooFewSeasons, Seasons: r.Succeeds.Seasons}}
	}
	var out []Reason
	if a.Handover != nil {
		out = append(out, Reason{Kind: WaitsForBed})
	}
	if lost := 1 - r.Survives.Share; lost > 0 {
		out = append(out, Reason{Kind: KilledByFrost, Share: lost})
	}
	if r.SetBack.Share > fewSetBack {
		out = append(out, Reason{Kind: SetBackByCold, Share: r.SetBack.Share})
	}
	if unripe := 1 - r.Ripens.Share; unripe >= fewUnripe {
		out = append(out, Reason{Kind: r.notReady(unripe), Share: unripe, ForLight: r.Light.Share})
	}
	if r.Chilled >= 3 {
		out = append(out, Reason{Kind: ChilledAtFirst, Nights: [2]float64{r.Chilled}, Limit: r.Planting.Crop.Chill.Value})
	}
	if days := r.UpOn - float64(r.Planting.Start); a.Handover == nil && !r.Planting.Raised && days > 25 && !math.IsInf(days, 1) {
		out = append(out, Reason{Kind: ColdSoil, Day: climate.SeasonDay(r.UpOn), Days: days})
	}
	if c, ok := a.coverReason(); ok {
		out = append(out, c)
	}
	if b, ok := a.Better(); ok {
		out = append(out, Reason{Kind: BetterDay, Day: b.Day, Days: float64(b.Day - r.Planting.Start),
			Share: b.Succeeds.Share, Sound: meets(b.Succeeds, a.Aim)})
	} else if a.bedTaken() && a.Handover.Free[1].Known && !math.IsInf(a.Handover.Free[1].Value, 0) {
		out = append(out, Reason{Kind: BedTaken, Day: climate.SeasonDay(math.Ceil(a.Handover.Free[1].Value))})
	} else if a.Verdict.Fails() {
		out = append(out, Reason{Kind: NoBetterDay})
	}
	return out
}

// notReady is what keeps it from ripening in a share of the seasons.
func (r Result) notReady(unripe float64) ReasonKind {
	switch {
	case r.Light.Share > unripe/2:
		return NotReadyForLight
	case r.Light.Share >= fewUnripe:
		return NotReadyPartlyForLight
	}
	return NotReady
}

// coverReason is what the cover does, or would do.
func (a *Assessment) coverReason() (Reason, bool) {
	r, o := a.Result, a.Other()
	nights := r.ColdNights[1]
	if !nights.Known || nights.Value < 1 || !o.Succeeds.Known {
		return Reason{}, false
	}
	out := Reason{Kind: CoverSaves, Cover: r.Planting.Cover.Name, Nights: [2]float64{r.ColdNights[0].Value, nights.Value}, Share: o.Succeeds.Share}
	if out.Cover == "" {
		out.Kind, out.Cover = CoverWouldSave, o.Planting.Cover.Name
		return out, o.Succeeds.Share > r.Succeeds.Share
	}
	return out, true
}

package opened

import (
	"slices"

	"frostward/climate"
	"frostward/risk"
)

// AssessPlan reads the plan and scores its plantings.
func (g *Garden) AssessPlan() ([]Planned, []risk.Assessment, error) {
	rows, err := g.Plan()
	if err != nil {
		return nil, nil, err
	}
	plantings, err := g.Resolve(rows)
	if err != nil {
		return nil, nil, err
	}
	out, err := g.Assess(plantings)
	return plantings, out, err
}

// Assess scores plantings, each after the one it follows in its bed.
func (g *Garden) Assess(plantings []Planned) ([]risk.Assessment, error) {
	follows, order, err := InOrder(plantings)
	if err != nil {
		return nil, err
	}
	f, err := g.Fields()
	if err != nil {
		return nil, err
	}
	hardening := f.Hardening()
	out := make([]risk.Assessment, len(plantings))
	field := make([]*risk.Field, len(plantings))
	var outside climate.Ensemble // where they are hardened off
	for i, p := range plantings {
		field[i] = f.Field(p.Where, p.Crop, p.Raised)
		if p.Raised {
			outside = f.At(hardening)
		}
	}
	// Several plantings at once: each for itself has too little to do between two waits for all cores.
	for len(order) > 0 {
		n := 1
		for n < len(order) && !slices.Contains(order[:n], follows[order[n]]) {
			n++
		}
		climate.InParallel(n, func(next func() int) {
			for k := next(); k < n; k = next() {
				i := order[k]
				p := plantings[i]
				var h *risk.Handover
				if j := follows[i]; j >= 0 {
					h = handOver(f.Base, out[j].Result, p)
				}
				out[i] = risk.AssessAfter(field[i], p.Planting, g.OtherCover(), g.Settings.Aim, h)
				if !p.Reserve.None() {
					out[i].Reserved = out[i].WithReserve(p.Reserve)
				}
				if p.Raised {
					out[i].Hardening = risk.Harden(outside, p.Planting)
				}
			}
		})
		order = order[n:]
	}
	return out, nil
}

// OtherCover is the cover that a bare planting is compared with: the first one owned.
func (g *Garden) OtherCover() risk.Cover {
	if c := g.Covers(); len(c) > 0 {
		return c[0].Risk()
	}
	return risk.Fleece
}

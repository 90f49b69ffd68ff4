package opened

import "frostward/risk"

// WantCovers counts what the plantings of a plan want of each cover at once.
func (g *Garden) WantCovers(plantings []Planned, assessed []risk.Assessment) []risk.CoverWant {
	need, pots := make([]risk.Need, len(plantings)), make([]bool, len(plantings))
	for i, p := range plantings {
		need[i], pots[i] = risk.Need{Metres: p.Row.Metres}, p.Where.Pots
	}
	return risk.WantCovers(assessed, need, pots, g.RiskCovers(), g.Settings.Stock(), g.Settings.Costs.Night())
}

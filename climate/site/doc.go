// Package site takes a station's nights to a spot in the garden.
//
// A thermometer at plant height in the open reads less than a station's screen at
// 1.5 m, and by how much depends on the sky and the wind: on clear, still nights
// the ground loses heat to the sky and the coldest air lies on it, on overcast or
// windy ones the air is mixed and the two agree (Snyder & de Melo-Abreu 2005, FAO
// Frost Protection vol. 1 ch. 3, from memory). The range of the day's temperature
// separates the two kinds of night, and every record has it.
//
// The model is a straight line in the range, with small terms for the time of year
// and the minimum itself, and three spreads: of the line (which few readings leave
// uncertain), from season to season, and from night to night. It starts from a
// Prior for the kind of spot and moves from it as far as the garden log says. All
// three spreads go into every night of an ensemble, so that chances carry them.
package site

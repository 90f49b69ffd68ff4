package quality

// Each of these tells for a rule that it would find nothing; see Rule. What look sees holds on
// when values have been taken away since, but for the rules that join or compare what is left.

func noNaught(r *record) bool      { return !r.look().naught }
func noneOutside(r *record) bool   { return !r.look().wild }
func noSwapped(r *record) bool     { return !r.look().swapped }
func noInternal(r *record) bool    { return !r.look().crossed }
func noSpikes(r *record) bool      { return !r.look().jump }
func noLagged(r *record) bool      { return !r.look().apart }
func noEqualMonths(r *record) bool { s := r.look(); return !s.equal && !s.wild }
func noRepeatedMonths(r *record) bool {
	s := r.look()
	return !s.wild && !r.prints().months && r.taken == s.taken
}
func noRepeatedStretch(r *record) bool { return !r.look().wild && !r.prints().stretch }

// Runs of one value, the missing days within them left out, are as long as any run of the rules.
func noStreaks(r *record) bool {
	p := r.prints()
	return p.run[Tmin] < streakDays && p.run[Tmax] < streakDays && r.taken == r.look().taken
}
func noSameValue(r *record) bool {
	p := r.prints()
	return p.run[Tmin] < sameLeast && p.run[Tmax] < sameLeast
}
func noSameDay(r *record) bool {
	p := r.prints()
	return p.run[Tmin] < sameDays || p.run[Tmax] < sameDays
}

func noOtherUnits(r *record) bool { return !r.anyUnitStretch() }
func noOutliers(r *record) bool   { r.standardised(); return !r.far }

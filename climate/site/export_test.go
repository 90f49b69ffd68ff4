package site

// Tables are the tables of the same place and of another.
func Tables() (same, other Table) { return samePlace, elsewhere }

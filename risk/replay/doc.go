// Package replay asks past seasons and nights what the program would have said of them, from
// what was known before and nothing else, and scores it against what came: hindcasts of frost
// dates, warmth and ripening; what a garden log is worth at a spot; outlooks of picking; and
// the nights of tonight.
package replay

// Package risk plays plantings through seasons, day by day, and counts what becomes of
// them: how often a planting survives the frosts, ripens in time, and both.
//
// Frost, warmth and light act together in each season, so chances are counted from the
// same seasons and never multiplied as if they were independent.
package risk

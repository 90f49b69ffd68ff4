// Package generator makes seasons that might have been, from a daily record of minimum
// and maximum temperature.
//
// The model, in the order in which it is fitted:
//
//   - the normal course of the year: the mean and the spread of Tmin and of Tmax as
//     harmonics of the year, from the whole record;
//   - the level: how far the present stands from that course, from the recent seasons most;
//   - residuals: what is left, in units of the spread, Tmin and Tmax of a day kept together;
//   - persistence: how a warm or cold spell runs on, from regressions on the state before.
//
// A season is then put together from runs of about a month of residuals, each from the
// same time of year of some recorded season give or take two weeks (the months of the freeze
// statistics in the United States' 1991-2020 normals are resampled in a like way, from
// memory), joined so that each run begins in the state the last one left off in, and put
// on the course of the year at the present level.
//
// Each world of an ensemble is made from its own resample of the seasons of record, so that
// the spread between worlds shows how much the answer rests on which seasons happened to be
// recorded.
package generator

// Package stat has the statistics that the program states its chances with:
// quantiles, proportions, curves, trends and scores. It works on plain numbers and
// knows nothing of weather.
//
// Expected values of the tests come from published tables or from R; testdata/check.R prints
// the latter.
//
// Nothing here changes a slice it is given unless its first sentence says so.
package stat

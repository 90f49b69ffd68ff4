// Package quality finds doubtful values in a daily record. It flags and never edits: Mask
// makes a copy without the flagged values.
//
// The rules are those of Durre et al. 2010 (J. Appl. Meteor. Climatol. 49, 1615-1633) that
// need one station only, with its thresholds; Rules lists them with their sources.
package quality

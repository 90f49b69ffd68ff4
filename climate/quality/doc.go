// Package quality finds doubtful values in a daily record. It flags and never edits: Mask
// makes a copy without the flagged values.
//
// The rules are those of Durre et al. 2010 (J. Appl. Meteor. Climatol. 49, 1615-1633) that
// need one station only, with its thresholds, and some of our own for what these let pass;
// Rules lists them all with their sources. What the values raise and cannot settle is a
// Question, from Ask. Homogeneity says whether a thermometer seems to have been moved.
//
// How much is found, and how little is doubted wrongly, is measured by planting known faults in
// clean records: "go test -v -run Seeded", and with "-tags long -run Everywhere" on more.
package quality

// Package finish is the page that tells how a fight ends from a setup on: the
// fewest rounds against a rival that does one reply every time. It leaves the
// search to package value and its sentences to package report.
package finish

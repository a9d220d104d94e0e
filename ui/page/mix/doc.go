// Package mix is the page that weighs several setups of one ender against all
// that the rival may do: what a round is worth, how often to play each setup,
// and what a known habit of the rival gains. It leaves the weighing to package
// value and its sentences to package report.
package mix

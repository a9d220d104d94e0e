// Package value tells what exchanges are worth: the damage and gauge of routes,
// which of them punish, what follows a hit or a guarded attack, and the points
// of each exchange. It leaves judging to package timeline and sentences to
// package words.
package value

// Package compare lays setups side by side: how one fares under two states of
// the move data and which change made the difference, how many fare against
// the same replies, and the fewest that cover them all. The judging of each is
// package timeline's.
package compare

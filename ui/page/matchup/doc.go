// Package matchup is the page of all setups of one fighter against every reply
// of another. What becomes of each is judged by timeline/compare; the page lays
// it out and says it in full.
package matchup

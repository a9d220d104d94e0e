// Package ingame is the page on which results of in-game tests are typed in
// quickly: each setup that was not tried since the last revision is a row, one
// key records what came of it and moves on. What to test is for
// timeline/handout to say, and the project file keeps the results.
package ingame

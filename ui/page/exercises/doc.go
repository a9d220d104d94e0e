// Package exercises is the page on which a student answers questions about the
// setups that are listed: in order, or those that were got wrong first. The
// results are kept in the project, by the student's name; nothing else of it is
// changed.
package exercises

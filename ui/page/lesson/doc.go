// Package lesson is the page that teaches the chosen setup: it and its
// neighbours on one sheet, and an exercise in which a student looks for the
// delay. What is taught comes from timeline/words.
package lesson

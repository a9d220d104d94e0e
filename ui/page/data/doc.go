// Package data is the page of the move data: the tables of moves, jumps,
// rises, fighters and the ruleset, edited like a spreadsheet, and which setups
// an edit changes. How cells are gone through and painted is package grid's.
package data

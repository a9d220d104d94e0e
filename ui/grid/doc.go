// Package grid is a table of cells that is gone through and edited like a
// spreadsheet, and the text in which blocks of its cells are copied and
// pasted. What the cells hold, and what becomes of an edit, is its user's.
package grid

// Package table reads and writes tables of moves, and of routes: a row of headings,
// then one move, or one route, per row. What a move's numbers mean and which go
// together is left to package timeline; files, folders and projects are left
// to its callers, and what separates cells to package book.
//
// It writes CSV by RFC 4180, in UTF-8, and reads tables as people keep them: the
// headings are looked for among the first rows (layout.go), in other words
// (heading.go), over several columns, below one another (turned.go), or as values
// of a long table (long.go). A cell that a field doesn't read itself goes through
// the table of writings (writings.go). Whatever is taken for something else than its
// letters say is a Note, and whatever isn't understood a RowError: nothing is
// guessed in silence.
//
// The columns, in any order; of them only name must stand in the header. An empty
// cell, like a missing column, is the default of interfaces.md. A table without a
// kind has strikes, and throws by their level; one without a level has mids.
//
//	fighter             whose move it is; else the caller says
//	name                kept to the letter, spaces and all
//	kind                strike, throw, parry, evade, dash
//	air, misses_air     yes or no; also true or false, 1 or 0
//	level               mid, low, overhead, throw, air throw
//	active              2(5)1: active 2, gap 5, active 1
//	immune              1-8 strike throw, either word alone, or 1-8 for both
//	armour              1-8 2 hits, or 1-8 for one hit
//	parry               1-10
//	reach_near, reach_far                  both or neither
//	landing_recovery, landing_guard_after  both or neither
//	knockdown_midscreen, knockdown_wall, distance_midscreen, distance_wall
//
// and a whole number each: startup, recovery, total, on_hit, on_guard,
// hitstun, guardstun, airborne_from, deep, drop, top, damage, gauge_cost,
// gauge_gain, travel. Several windows in one cell are separated with ";"; a
// window of one frame may be written 3 for 3-3.
//
// A table of routes has the columns fighter, name, steps (jab, jab > sweep: a
// comma before a link, > before a cancel), damage, gauge_cost, gauge_gain and
// confirmed; a header with steps and without kind is one.
//
// Spreadsheets take a cell that begins with "=" for a formula and one like
// 1-8 for a date. In a move table names and windows are written as they are
// all the same, so that it reads back equal; open it there with every column as
// text. Tables of answers (Replies, WriteGrid) are never read back: there a name
// that looks like a formula gets an apostrophe before it.
package table

// Package drill is the page on which a hand practises the timing of the chosen
// setup: a count, a line that moves over the setup's sheet, and how late each
// press came. What a press is worth is package odds' to tell, and the document
// keeps the record.
package drill

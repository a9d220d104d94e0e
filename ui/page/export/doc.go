// Package export is the page on which a person chooses what to make of setups,
// and sees it before it is written. What is made is ui/output's to make.
package export

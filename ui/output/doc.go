// Package output makes the files that are exported: it draws a
// setup as it is ordered, in the format that is asked for, one as a file or
// many into a folder. What a sheet looks like is package sheet's, words are
// package handout's; there is no Fyne here.
package output

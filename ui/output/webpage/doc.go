// Package webpage makes a lesson as one file for a browser: every delay of a
// sweep with its picture and its sentences, a slider through them, and an
// exercise. All that the page shows is worked out here; the page itself only
// picks what to show, so it can't differ from the program. The file needs
// nothing from outside, and its policy lets nothing in.
package webpage

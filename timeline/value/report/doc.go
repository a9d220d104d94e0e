// Package report tells what package value finds, for the command line and the
// window alike: a mix and a finish as sentences, and as JSON. It weighs nothing
// itself.
package report

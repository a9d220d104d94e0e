// Package storage reads and writes the files that Wakeline keeps: today the
// project text. It leaves their meaning to package timeline.
package storage

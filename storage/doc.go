// Package storage keeps projects on disk: the project file, in SQLite, saved as
// it is edited, with its whole history; and the project text.
// It leaves their meaning to package timeline.
package storage

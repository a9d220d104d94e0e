package model

import (
	"os"
	"time"
)

// Stamp tells one state of a file on disk from another.
type Stamp struct {
	size    int64
	Written time.Time
}

func StampOf(path string) (Stamp, bool) {
	info, err := os.Stat(path)
	if err != nil {
		return Stamp{}, false
	}
	return Stamp{info.Size(), info.ModTime()}, true
}

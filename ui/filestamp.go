package ui

import (
	"os"
	"time"
)

// stamp tells one state of a file on disk from another.
type stamp struct {
	size    int64
	written time.Time
}

func stampOf(path string) (stamp, bool) {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}, false
	}
	return stamp{info.Size(), info.ModTime()}, true
}

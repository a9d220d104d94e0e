package words

import (
	"fmt"

	"wakeline/timeline"
)

var anchorNames = [...]string{
	"frame 0", "wake-up", "first frame on which it can be thrown", "reply's first active frame",
	"earliest start of the window", "latest start of the window", "start", "touchdown", "guard", "first free frame",
	"attack's first active frame", "attack's last active frame", "landing move's first active frame",
	"landing move's last active frame", "last air frame",
}

// Snap says what meets what, and on which frame.
func Snap(s *timeline.Snap) string {
	return fmt.Sprintf("%s on the %s, %d", anchorNames[s.Moving.Kind], anchorNames[s.Fixed.Kind], s.Fixed.Frame)
}

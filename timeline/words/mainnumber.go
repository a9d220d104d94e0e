package words

import (
	"fmt"

	"wakeline/timeline"
)

// MainNumber is the number that matters most of an exchange, with its word.
func MainNumber(got *timeline.ReplyVerdict) string {
	switch {
	case got.Spare.Given && got.Spare.N < 0:
		return fmt.Sprintf("%d too late", -got.Spare.N)
	case got.Spare.Given:
		return fmt.Sprintf("%d to spare", got.Spare.N)
	case got.AfterWake.Given && got.AfterWake.N != 0:
		return fmt.Sprintf("%d after wake-up", got.AfterWake.N)
	case got.Advantage.Given:
		return fmt.Sprintf("advantage %+d", got.Advantage.N)
	case got.ToPunish.Given:
		return fmt.Sprintf("%+d to punish", got.ToPunish.N)
	}
	return ""
}

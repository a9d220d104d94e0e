package sheet

import "wakeline/timeline"

// MarkOf is j's mark as a stroke in a square of side 1, for those who set a
// judgement beside a text of their own. It must not be changed.
func MarkOf(j timeline.Judgement) []Point { return judgements[j].mark }

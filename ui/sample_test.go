package ui

import (
	"wakeline/timeline"
	"wakeline/ui/page/pagetest"
)

// sample is the project of the tests of pages.
func sample() *timeline.Project { return pagetest.Sample() }

// many is the sample with n setups.
func many(n int) *timeline.Project { return pagetest.Many(n) }

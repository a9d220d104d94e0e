// Package odds says how likely a person's hand is to time a counted wait, and
// measures that hand from the presses of a drill.
//
// A press aimed at a moment lands round it with a Gaussian error, and acts on
// the frame it falls in. Frames run as everywhere in timeline: frame f lasts
// from moment f to moment f+1, so its middle is f + 1/2. Which frames are good
// is the core's to say; what is shown of the odds is left to others.
package odds

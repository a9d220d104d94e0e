// Package timeline is the core of Wakeline: it turns a setup into sets of
// frames, meets the two sides, and judges how the setup fares.
//
// One way through: a Project holds fighters and setups; Compile turns one
// setup into a Plan, with a Track for each side and reply; Plan.Meetings meets
// the tracks at one delay; Plan.Verdict weighs the meetings; Plan.Scene lays the
// same frames out for a drawing. Everything is a pure function of its arguments:
// no I/O, no clock, no globals. Sentences are left to package words; files,
// pixels and windows to others.
//
// Frame 0 is the first frame on which the attacker may act after the ender.
// Spans are half-open, [from, to), unless a comment says inclusive.
package timeline

// Package timeline is the core of Wakeline: it turns a setup into sets of
// frames, meets the two sides, and says how the setup fares and why.
//
// One way through: a Project holds fighters and setups; Compile turns one
// setup into a Plan, a Track a side and a reply; Plan.Fill meets the tracks
// at one delay; Plan.Verdict weighs the meetings; Plan.Scene lays the same
// frames out for a drawing. Everything is a pure function of its arguments:
// no I/O, no clock, no globals. Files, pixels and windows are left to others.
//
// Frame 0 is the first frame on which the attacker may act after the ender.
// Spans are half-open, [from, to), unless a comment says inclusive.
package timeline

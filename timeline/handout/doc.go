// Package handout writes a setup out in words to take along: as Markdown, and
// as WebVTT cues for a recorded lesson. It returns text; files are left to
// others.
package handout

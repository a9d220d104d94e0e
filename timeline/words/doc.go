// Package words says in sentences what package timeline has judged: verdicts,
// exchanges, lessons, what a student is asked, one frame of a setup, moves in
// numbers, and the words in use. It judges nothing itself and draws nothing.
package words

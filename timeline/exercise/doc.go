// Package exercise asks a student about setups: where one is safe, which reply
// breaks it, what one frame more does, what stands on a strip, which setup
// answers a reply. It makes the questions, weighs the answers, and draws what
// was got wrong more often. Every right answer comes from the judging itself.
// It knows no screen, no file and no clock.
package exercise

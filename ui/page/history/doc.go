// Package history is the page that lists every step that was done, and leads
// back to the state after each. What a step was is known to ui/model.
package history

// Package present is the page that shows one setup at a time to a room: full
// screen, in large type, with a few keys. Nothing on it is edited.
package present

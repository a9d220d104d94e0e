// Package find is the page that searches for setups: a form of what limits
// them, the answers, and which enders give a safe jump. What answers there are
// and which is better is for timeline/find to say.
package find

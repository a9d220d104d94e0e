// Package merge is the page on which another project is merged into the open
// one: what is new, equal or different, side by side, with a choice for each. It
// decides nothing by itself: package wakeline/timeline/merge does.
package merge

// Package page is what a page knows of the window: a Host, which shows pages,
// says things and runs work, and the dialogs. A page is a package of its own
// under this folder, and knows no other.
package page

// Package lists is the menu of the saved lists: it chooses, saves, renames and
// deletes them. What a list finds is shown by the list of setups, not here.
package lists

// Package panel holds what stands around the live sheet: the list of setups,
// the table of replies, the numbers of the setup and of what is selected on the
// sheet, the shelf of blocks, the sentences, and the bars that tell of the
// file's state. Each shows the model and edits it; none knows the window.
package panel

package drill

import (
	"time"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// record keeps the presses of a drill: by the name of a hand, in the document
// that the setup is in.
type record struct {
	host  page.Host
	clock *clock

	doc   *model.Document
	setup string
	hand  string // whose presses they are
	saved bool   // the presses of the clock are in the document
	kept  string // where they are, in words
}

// of begins the record of a setup.
func (r *record) of(doc *model.Document, setup string) { r.doc, r.setup, r.kept = doc, setup, "" }

// begin begins the record of a drill.
func (r *record) begin() { r.kept, r.saved = "", false }

// drop leaves the presses that are shown, wherever they are kept.
func (r *record) drop() {
	r.clock.forget()
	r.kept = ""
}

// keep keeps the presses of a drill that is over.
func (r *record) keep() {
	c := r.clock
	if len(c.presses) == 0 || r.doc != r.host.Model().Document() {
		return
	}
	drill := storage.Drill{Date: c.first.UTC().Format(time.RFC3339), Setup: r.setup, Hand: r.hand, Picture: c.picture()}
	for i := range c.presses {
		p := &c.presses[i]
		drill.Presses = append(drill.Presses, storage.Press{What: p.what, Late: p.Late, Frames: p.Off})
	}
	err := r.doc.KeepDrill(drill)
	switch r.saved = err == nil; {
	case err != nil:
		r.kept = "The record was not saved: " + err.Error() + "."
	case r.doc.DrillsLast():
		r.kept = "The record is saved in the project file."
	default:
		r.kept = "JSON has no place for the record: it stays until the project is closed, unless you choose “Save as project file”."
	}
	r.host.Timing().Again()
}

// count is how many presses of the hand there are.
func (r *record) count() int {
	n := len(r.host.Timing().Drilled())
	if !r.saved {
		n += len(r.clock.presses)
	}
	return n
}

// discards reports whether there is a press to discard.
func (r *record) discards() bool {
	return len(r.clock.presses) > 0 || !r.clock.running() && len(r.host.Timing().Drilled()) > 0
}

// clears reports whether there is a record to clear.
func (r *record) clears() bool { return !r.clock.running() && r.discards() }

// discard removes the last press of the hand: of the drill that runs, or off
// the document. It reports whether it did.
func (r *record) discard() bool {
	if !r.discards() {
		return false
	}
	n := len(r.clock.presses)
	recorded := !r.clock.running() && (r.saved || n == 0)
	if recorded && !r.forget("The press could not be discarded", (*model.Document).DiscardPress) {
		return false
	}
	if n > 0 {
		r.clock.presses = r.clock.presses[:n-1]
	}
	if recorded {
		r.host.Timing().Again()
	}
	return true
}

// clear removes every press of the hand. It reports whether it did.
func (r *record) clear() bool {
	if !r.clears() || !r.forget("The record could not be cleared", (*model.Document).ClearDrills) {
		return false
	}
	r.drop()
	r.host.Timing().Again()
	return true
}

// forget changes what the document keeps of the hand, and reports whether it
// could.
func (r *record) forget(trouble string, how func(d *model.Document, hand string) error) bool {
	return r.host.Done(trouble, how(r.doc, r.hand))
}

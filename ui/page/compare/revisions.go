package compare

import (
	"context"
	"errors"

	"wakeline/ui/model"
	"wakeline/ui/page"
)

// Revisions compares all setups of d under two revisions, behind the window.
// Mixes are left to the page.
func Revisions(host page.Host, d *model.Document, from, to string, then func(p *model.Patch)) {
	var p *model.Patch
	host.Task("Comparing "+from+" and "+to, page.Counting("setup"), func(at page.Work) (err error) {
		of := d.Len()
		p, err = model.NewPatch(at.Context, d.File(), from, to, func(done int) { at.Tell(done, of) })
		return err
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
			host.Note("Comparison cancelled")
		case err != nil:
			host.Dialogs().Fail("The revisions could not be compared", err)
		default:
			then(p)
		}
	})
}

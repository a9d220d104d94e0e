package compare

import (
	"context"
	"errors"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// Revisions compares all setups of d under two revisions, behind the window.
func Revisions(host page.Host, d *model.Document, from, to string, then func(before, after *timeline.Project, changes []model.Changed)) {
	var before, after *timeline.Project
	var changes []model.Changed
	host.Task("Comparing "+from+" and "+to, page.Counting("setup"), func(at page.Work) (err error) {
		if before, err = d.File().DataOf(from); err != nil {
			return err
		}
		if after, err = d.File().DataOf(to); err != nil {
			return err
		}
		of := d.Len()
		changes, err = model.CompareAll(at.Context, d.File().EachSetup, before, after, func(done int) { at.Tell(done, of) })
		return err
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
			host.Note("Comparison cancelled")
		case err != nil:
			host.Dialogs().Fail("The revisions could not be compared", err)
		default:
			then(before, after, changes)
		}
	})
}

package merge

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync/atomic"

	"fyne.io/fyne/v2"

	"wakeline/timeline/merge"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// mostTurned is how many setups that turn are listed.
const mostTurned = 200

// ask tells what the merge does, and does it when told to.
func (p *Page) ask() {
	if page.Busy(p.host) || p.merge.Disabled() {
		return
	}
	if why := p.host.Model().ReadOnly(); why != "" {
		p.host.Dialogs().Lines("Nothing can be merged", []string{model.Sentence(why)})
		return
	}
	lines := model.MergeWords(p.table.of, p.table.choices)
	for i := range lines {
		lines[i] += "."
	}
	lines = append(lines, "")
	if !p.judged {
		lines = append(lines, "Whether verdicts turn was not judged.")
	} else if len(p.turned) == 0 {
		lines = append(lines, "No setup's verdict turns.")
	} else {
		lines = append(lines, fmt.Sprintf("%s:", turnCount(len(p.turned))))
		for i := range p.turned {
			if i == mostTurned {
				lines = append(lines, fmt.Sprintf("and %d more.", len(p.turned)-i))
				break
			}
			lines = append(lines, turnedWord(&p.turned[i]))
		}
	}
	lines = append(lines, "", "It is one step: Ctrl+Z takes all of it back.")
	a := p.host.Dialogs().Told("Merge "+filepath.Base(p.path), strings.Join(lines, "\n"))
	a.Button("Cancel", a.Hide)
	a.Main("Merge", func() {
		a.Hide()
		p.store()
	})
	a.Show(fyne.NewSize(600, min(200+24*float32(len(lines)), 460)), nil)
}

// store merges behind the window, as one step or not at all.
func (p *Page) store() {
	c, choices := p.table.of, p.table.choices
	doc := p.host.Model().Document()
	p.work.Stop()
	p.storing = true
	var storing atomic.Bool
	p.host.Task("Merging "+filepath.Base(p.path), func(done, of int) string {
		switch {
		case !storing.Load():
			return fmt.Sprintf("Checking: %d of %s", done, model.CountOf(of, "setup"))
		case done == of:
			return "Checking what was saved"
		}
		return fmt.Sprintf("Saving: %d of %s", done, model.CountOf(of, "edit"))
	}, func(at page.Work) error {
		r, err := c.Merge(at.Context, choices, at.Tell)
		if err != nil {
			return err
		}
		storing.Store(true)
		return doc.StoreMerge(at.Context, "merge "+filepath.Base(p.path), r, at.Tell)
	}, func(err error) {
		defer func() { p.storing = false }()
		p.stored(doc, choices, err)
	})
}

// stored shows the project as it is after the merge, or says why there was none.
func (p *Page) stored(doc *model.Document, choices []merge.Choice, err error) {
	m := p.host.Model()
	switch {
	case errors.Is(err, context.Canceled):
		doc.AskReadOnly()
		m.Tell(model.StateChanged)
		p.host.Note("Nothing was merged")
	case err != nil:
		doc.AskReadOnly()
		m.Tell(model.StateChanged)
		p.host.Dialogs().Fail("Nothing was merged", errors.New(model.ProblemWords(err)))
	default:
		done := strings.Join(model.MergeWords(p.table.of, choices), "; ")
		if err := doc.Reload(); err != nil {
			p.host.Dialogs().Fail("Merged, but the file can't be read now", err)
			return
		}
		m.Reread()
		p.host.Close()
		p.host.Note("Merged: " + done + ". Ctrl+Z takes it back")
	}
}

package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// proofPart lists the setup's in-game tests, and takes more.
type proofPart struct {
	n    *Inspector
	text *widget.Label
	add  *paint.WordButton
	box  *fyne.Container
}

func newProofPart(n *Inspector) *proofPart {
	p := &proofPart{n: n, text: widget.NewLabel("")}
	p.text.Wrapping = fyne.TextWrapWord
	p.add = n.wordButton("Add in-game test…", func() { n.OnProof() })
	p.box = container.NewVBox(p.text, container.NewHBox(p.add))
	return p
}

// update lists them anew.
func (p *proofPart) update() {
	m := p.n.model
	text := ""
	switch d, ok := m.Document().OnDisk(); {
	case m.Chosen() < 0:
	case !ok:
		text = model.ProofsKeptIn
	default:
		all, err := d.Proofs(m.Chosen())
		if err != nil {
			text = "The in-game tests can't be read."
		} else if len(all) == 0 {
			text = "None yet."
		}
		for i, proof := range all {
			if i > 0 {
				text += "\n"
			}
			text += proof.Date + ", " + proof.Revision + ": " + proof.Result
			if proof.Note != "" {
				text += ". " + proof.Note
			}
		}
	}
	p.add.Hidden = text == model.ProofsKeptIn
	text = paint.Shortened(text, "\n", paint.ShownMost)
	if text != p.text.Text {
		p.text.SetText(text)
		p.n.relay()
	}
}

package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Tappable      = (*RepliesSource)(nil)
	_ fyne.Focusable     = (*RepliesSource)(nil)
	_ desktop.Cursorable = (*RepliesSource)(nil)
)

// RepliesSource says whose replies the table shows, the rival's standing ones
// or the setup's own, and changes that with a click.
type RepliesSource struct {
	paint.Keyed
	paint.Pointed
	OnStanding func() // the rival's standing replies are to be edited
	OnKey      func(ev *fyne.KeyEvent)

	r         *Replies
	link, end float32 // where the word that does something stands
}

// NewSource returns the line of words for that table.
func (r *Replies) NewSource() *RepliesSource {
	s := &RepliesSource{r: r}
	s.Extend(s, s.paint, func() fyne.Size { return fyne.NewSize(0, paint.TabHeight) })
	s.OnPointer("The replies", func(fyne.Position) { s.r.say(s.hint()) }, func() { s.r.say("") })
	r.source = s
	return s
}

// words say whose replies are shown, and what a click does, empty for nothing.
func (s *RepliesSource) words() (whose, act string) {
	m := s.r.model
	rival := m.Data().Fighter(m.Setup().Rival)
	switch {
	case m.Plan() == nil || rival == nil:
		return "", ""
	case !m.OwnReplies() && len(rival.Replies) == 0:
		return rival.Name + " has no standing replies", "add some"
	case !m.OwnReplies():
		return rival.Name + "'s standing replies", "make own"
	case len(rival.Replies) == 0 && len(m.Setup().Replies) == 0:
		return "this setup's own replies", ""
	case len(rival.Replies) == 0:
		return "this setup's own replies", "make standing"
	}
	return "this setup's own replies", "use " + rival.Name + "'s"
}

func (s *RepliesSource) paint(p *paint.Pen, size fyne.Size) {
	whose, act := s.words()
	w := &s.r.Wrapper
	s.link, s.end = 0, 0
	room := size.Width - 2*ReplyPad
	if whose == "" || room < 60 {
		return
	}
	wide := float32(0)
	if act != "" {
		act = w.Fit(act, room)
		wide = w.WidthOf(act)
	}
	gap := float32(ReplyPad)
	x := size.Width - ReplyPad - wide
	if left := room - wide - gap; left > 60 {
		whose = w.Fit(whose, left)
		at := x - gap - w.WidthOf(whose)
		if act == "" {
			at += gap
		}
		t := paint.ColumnText(whose, at, 17, sheet.Soft)
		p.Text(&t)
	}
	if act == "" {
		return
	}
	s.link, s.end = x, x+wide
	t := paint.ColumnText(act, x, 17, sheet.Ink)
	p.Text(&t)
	p.Rect(p.Px(float64(x)), p.Px(19), p.Px(float64(x+wide)), p.Px(19)+p.Thick(1), paint.Colours().Ink[sheet.Soft], nil, 0)
	if s.Focused {
		p.Rect(p.Px(float64(x-4)), p.Px(2), p.Px(float64(x+wide+4)), p.Px(paint.TabHeight-3), nil, paint.Colours().Ink[sheet.Ink], p.Thick(1.5))
	}
}

// Do does what the word says.
func (s *RepliesSource) Do() { s.r.turnSource() }

// turnSource makes the rival's replies the setup's own, or gives those up for
// the rival's; where there are none it asks for some.
func (r *Replies) turnSource() {
	m := r.model
	rival := m.Data().Fighter(m.Setup().Rival)
	if m.Plan() == nil || rival == nil {
		return
	}
	var err error
	said := ""
	switch {
	case !m.OwnReplies() && len(rival.Replies) == 0:
		r.editStanding()
		return
	case !m.OwnReplies():
		err, said = m.TakeReplies(), "These are the setup's own replies now: a change of "+rival.Name+"'s leaves them as they are."
	case len(rival.Replies) == 0 && len(m.Setup().Replies) == 0:
		r.say(rival.Name + " has no standing replies. They are added in Move data, under Replies.")
		return
	case len(rival.Replies) == 0:
		err, said = m.ShareReplies(), "These are "+rival.Name+"'s standing replies now: every setup against it that has none of its own is asked them."
	default:
		err, said = m.GiveReplies(), "The setup is asked "+rival.Name+"'s standing replies now; undo brings its own back."
	}
	r.told(err, said)
}

// editStanding shows the rival's standing replies where they are edited.
func (r *Replies) editStanding() {
	if r.source != nil && r.source.OnStanding != nil {
		r.source.OnStanding()
	}
}

// Tapped does what the word under the pointer says.
func (s *RepliesSource) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The replies")
	if s.end > 0 && ev.Position.X >= s.link-ReplyPad && ev.Position.X < s.end+ReplyPad {
		s.Do()
	}
}

// TypedKey does what the word says.
func (s *RepliesSource) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The replies")
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		s.Do()
	default:
		if s.OnKey != nil {
			s.OnKey(ev)
		}
	}
}

// hint says what the click does in full.
func (s *RepliesSource) hint() string {
	m := s.r.model
	rival := m.Setup().Rival
	switch _, act := s.words(); {
	case act == "":
		return ""
	case act == "make standing":
		return "Ask these of every setup against " + rival + " that has no replies of its own (O)"
	case m.OwnReplies():
		return "Drop this setup's own replies, and ask what every setup against " + rival + " is asked (O)"
	case act == "add some":
		return "Edit what every setup against " + rival + " is asked, in Move data"
	}
	return "Keep these for this setup alone, apart from what every setup against " + rival + " is asked (O)"
}

// Cursor implements desktop.Cursorable.
func (s *RepliesSource) Cursor() desktop.Cursor { return desktop.PointerCursor }

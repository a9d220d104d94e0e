package panel

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

func (r *Replies) say(hint string) {
	if r.OnHint != nil {
		r.OnHint(hint)
	}
}

// put puts other replies in place of the setup's, and shows the one at that
// place of them. Where they can't be, the words under the window say why.
func (r *Replies) put(list []timeline.Reply, at int) bool {
	s := r.model.Setup()
	s.Replies = list
	said := ""
	if f := r.model.Data().Fighter(s.Rival); !r.model.OwnReplies() && f != nil && len(f.Replies) > 0 {
		said = "These are the setup's own replies now; " + s.Rival + "'s stay as they are."
	}
	if !r.told(r.model.Change(s), said) {
		return false
	}
	r.Body.ShowLine(r.model.BuiltIn() + at)
	return true
}

// told says what an edit did, or why it could not be done.
func (r *Replies) told(err error, said string) bool {
	switch {
	case errors.Is(err, model.ErrHeld):
		said = ""
	case err != nil:
		said = model.WhyNot(err)
	}
	if said != "" {
		r.say(said)
	}
	return err == nil
}

// own is the place of the shown reply among the setup's, and a copy of them.
// It says so where the reply is one that is always judged.
func (r *Replies) own() (at int, list []timeline.Reply, ok bool) {
	if at = r.model.Reply(); r.Body.Adding || at < 0 {
		if at < 0 && r.model.Plan() != nil {
			_, line := r.model.Shown()
			r.say(model.Capital(r.model.Verdict().Rises[0].Replies[line].Reply) + " is always judged; nothing can be demanded of it.")
		}
		return 0, nil, false
	}
	return at, slices.Clone(r.model.Setup().Replies), true
}

// demand asks something else of the setup against the shown reply.
func (r *Replies) demand(d timeline.Demand) {
	if at, list, ok := r.own(); ok {
		list[at].Demand = d
		r.put(list, at)
	}
}

// later has the shown reply done n frames later than it is.
func (r *Replies) later(n int) {
	if at, list, ok := r.own(); ok {
		list[at].Late = max(list[at].Late+n, 0)
		r.put(list, at)
	}
}

// late has the shown reply done so many frames late.
func (r *Replies) late(n int) {
	if at, list, ok := r.own(); ok {
		list[at].Late = n
		r.put(list, at)
	}
}

// MoveReply puts the shown reply n places further on.
func (r *Replies) MoveReply(n int) {
	if at, list, ok := r.own(); ok {
		if to := at + n; to >= 0 && to < len(list) {
			list[at], list[to] = list[to], list[at]
			r.put(list, to)
		}
	}
}

// remove takes the shown reply out.
func (r *Replies) remove() {
	if at, list, ok := r.own(); ok {
		name := list[at].Title()
		if list = slices.Delete(list, at, at+1); r.put(list, min(at, len(list)-1)) {
			r.say(model.Capital(name) + " was removed; undo brings it back.")
		}
	}
}

// add asks for a reply to add.
func (r *Replies) add() {
	if r.OnAdd != nil {
		r.OnAdd()
	}
}

// AddNamed adds a reply last, and shows it.
func (r *Replies) AddNamed(name string) {
	list := r.model.Setup().Replies
	r.put(append(slices.Clone(list), r.model.NextReply(name)), len(list))
}

// AddAll adds all that the rival has and the setup does not, as one step. What
// comes next is the timing: the keys go back to the sheet.
func (r *Replies) AddAll() {
	list := slices.Clone(r.model.Setup().Replies)
	at := len(list)
	for _, name := range r.model.MissingReplies() {
		list = append(list, timeline.Reply{Move: name, Demand: timeline.Survive})
	}
	if at < len(list) {
		r.put(list, at)
	}
	if r.OnAll != nil {
		r.OnAll()
	}
}

// OpenMenu opens what can be done with the shown reply.
func (b *repliesBody) OpenMenu(at fyne.Position) {
	r := b.r
	c := fyne.CurrentApp().Driver().CanvasForObject(b)
	if c == nil || r.model.Plan() == nil {
		return
	}
	item := fyne.NewMenuItem
	var items []*fyne.MenuItem
	if i := r.model.Reply(); i >= 0 && !b.Adding {
		list := r.model.Setup().Replies
		for _, d := range []struct {
			demand timeline.Demand
			words  string
		}{{timeline.Survive, "Survive it (S)"}, {timeline.Beat, "Beat it (B)"}, {timeline.DemandNone, "None, only show it (N)"}} {
			it := item(d.words, func() { r.demand(d.demand) })
			it.Checked = list[i].Demand == d.demand
			items = append(items, it)
		}
		later, earlier := item("One frame later (+)", func() { r.later(1) }), item("One frame earlier (-)", func() { r.later(-1) })
		earlier.Disabled = list[i].Late == 0
		up, down := item("Move up (Shift+Up)", func() { r.MoveReply(-1) }), item("Move down (Shift+Down)", func() { r.MoveReply(1) })
		up.Disabled, down.Disabled = i == 0, i == len(list)-1
		items = append(items, fyne.NewMenuItemSeparator(), later, earlier, fyne.NewMenuItemSeparator(), up, down,
			item("Remove (Delete)", r.remove), fyne.NewMenuItemSeparator())
	}
	all := item(b.addAllWords(), r.AddAll)
	all.Disabled = len(r.model.MissingReplies()) == 0
	rival := model.CutText(r.model.Setup().Rival, 40)
	switch {
	case !r.model.OwnReplies():
		items = append(items, item("Make these the setup's own (O)", r.turnSource))
	default:
		does := "Use " + rival + "'s standing replies (O)"
		if f := r.model.Data().Fighter(r.model.Setup().Rival); f != nil && len(f.Replies) == 0 {
			does = "Make these " + rival + "'s standing replies (O)"
		}
		items = append(items, item(does, r.turnSource))
	}
	items = append(items, item("Edit "+rival+"'s standing replies", r.editStanding), fyne.NewMenuItemSeparator(), item(AddReply, r.add), all)
	menu := widget.NewPopUpMenu(fyne.NewMenu("", items...), c)
	menu.OnDismiss = func() {
		menu.Hide()
		b.takeKeys()
	}
	menu.ShowAtPosition(at)
}

// MenuPlace is where the keys open the menu: under the shown reply's name.
func (b *repliesBody) MenuPlace() fyne.Position {
	_, line := b.r.model.Shown()
	if b.Adding {
		line = b.r.model.Plan().Lines()
	}
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(b).AddXY(ReplyPad, float32((line+1)*ReplyRow))
}

// TypedKey goes through the table and changes its replies.
func (b *repliesBody) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The table of replies")
	r := b.r
	plan := r.model.Plan()
	if plan == nil {
		return
	}
	page := max(int(r.Rows.Size().Height)/ReplyRow-1, 1)
	shift := r.Keys()&fyne.KeyModifierShift != 0
	switch ev.Name {
	case fyne.KeyUp, fyne.KeyDown:
		n := 1
		if ev.Name == fyne.KeyUp {
			n = -1
		}
		if shift {
			r.MoveReply(n)
		} else {
			b.walk(n)
		}
	case fyne.KeyPageUp:
		b.walk(-page)
	case fyne.KeyPageDown:
		b.walk(page)
	case fyne.KeyHome:
		b.walk(-plan.Lines())
	case fyne.KeyEnd:
		b.walk(plan.Lines())
	case fyne.KeyLeft:
		r.model.Step(-1, 0)
	case fyne.KeyRight:
		r.model.Step(1, 0)
	case fyne.KeyDelete:
		r.remove()
	case fyne.KeyInsert:
		r.add()
	case fyne.KeyReturn, fyne.KeyEnter:
		if b.Adding {
			r.add()
		} else {
			b.OpenMenu(b.MenuPlace())
		}
	default:
		if r.OnKey != nil {
			r.OnKey(ev)
		}
	}
}

// walk moves the keys n rows further on, past the replies to the row that
// adds.
func (b *repliesBody) walk(n int) {
	_, at := b.r.model.Shown()
	lines := b.r.model.Plan().Lines()
	if b.Adding {
		at = lines
	}
	at = min(max(at+n, 0), lines)
	if at == lines {
		b.Adding = true
		b.Refresh()
	} else {
		b.ShowLine(at)
	}
	b.r.Reveal()
}

// TypedRune changes the shown reply, or adds one.
func (b *repliesBody) TypedRune(c rune) {
	defer paint.Survive("The table of replies")
	r := b.r
	switch c {
	case 's', 'S':
		r.demand(timeline.Survive)
	case 'b', 'B':
		r.demand(timeline.Beat)
	case 'n', 'N':
		r.demand(timeline.DemandNone)
	case '+', '=':
		r.later(1)
	case '-', '_':
		r.later(-1)
	case '0', '1', '2', '3', '4', '5', '6', '7', '8', '9':
		r.late(int(c - '0'))
	case 'a', 'A':
		r.add()
	case 'o', 'O':
		r.turnSource()
	default:
		if r.OnRune != nil {
			r.OnRune(c)
		}
	}
}

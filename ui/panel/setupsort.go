package panel

import (
	"cmp"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/paint"
)

// SetupOrder is an order of the list.
type SetupOrder uint8

// The orders.
const (
	ByAge SetupOrder = iota // as they stand in the document, the oldest first
	ByName
	ByVerdict // what is in trouble first
	ByRival
	BySpare // the least first
	setupOrders
)

// OrderWords are the orders as the list names them.
var OrderWords = [setupOrders]string{"oldest first", "by name", "unsafe first", "by rival", "least to spare first"}

// judges reports whether the order needs every setup's verdict.
func (o SetupOrder) judges() bool { return o == ByVerdict || o == BySpare }

// wordRank lays verdicts in order, what is in trouble first.
var wordRank = map[timeline.Word]int{timeline.Unsafe: 1, timeline.Limited: 2, timeline.Safe: 3, timeline.Blank: 4}

// sorted returns the places of all setups in that order, nil where it is the
// document's own.
func (s *Setups) sorted(o SetupOrder) []int {
	type key struct {
		text string
		rank int
		at   int
	}
	if o == ByAge {
		return nil
	}
	keys := make([]key, s.model.Len())
	for i := range keys {
		h := s.model.Document().Head(i)
		k := key{at: i}
		switch o {
		case ByName:
			k.text = strings.ToLower(h.Name)
		case ByRival:
			k.text = strings.ToLower(h.Rival)
		case ByVerdict:
			j, _ := s.Verdicts.Of(i)
			k.rank = wordRank[j.Word]
		case BySpare:
			j, _ := s.Verdicts.Of(i)
			k.rank = j.Spare.Or(timeline.Width)
		}
		keys[i] = k
	}
	slices.SortFunc(keys, func(a, b key) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.text, b.text), a.at-b.at)
	})
	out := make([]int, len(keys))
	for i := range keys {
		out[i] = keys[i].at
	}
	return out
}

// SetOrder lists the setups in another order.
func (s *Setups) SetOrder(o SetupOrder) {
	s.order, s.places = o, nil
	s.sort.Say(OrderWords[o])
	s.Filter()
}

// AskOrder shows the orders under the word that names the present one.
func (s *Setups) AskOrder() {
	var items []*fyne.MenuItem
	for o := range setupOrders {
		i := paint.MenuItem(strings.ToUpper(OrderWords[o][:1])+OrderWords[o][1:], func() { s.SetOrder(o) })
		i.Checked = o == s.order
		items = append(items, i)
	}
	d := fyne.CurrentApp().Driver()
	c := d.CanvasForObject(s.sort)
	if c == nil {
		return
	}
	at := d.AbsolutePositionForObject(s.sort)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, at.AddXY(0, paint.WordHeight))
}

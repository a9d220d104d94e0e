package model

import (
	"errors"
	"fmt"
	"strings"

	"wakeline/timeline"
)

// nameFor says why a setup can't be called name, nil where it can; the setup
// called but may keep its name.
func (m *Model) nameFor(name, but string) error {
	if strings.TrimSpace(name) == "" {
		return errors.New("a setup needs a name")
	}
	if name != but && m.Find(name) >= 0 {
		return errors.New("another setup has that name already")
	}
	return nil
}

// FreeName is name, or with the first number after it that no setup has. A
// name that is too long is cut.
func (m *Model) FreeName(name string) string {
	name = timeline.CutName(name, len(" 999"))
	free := name
	for n := 2; m.nameFor(free, "") != nil && n < 1000; n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// AddSetup puts s last and chooses it.
func (m *Model) AddSetup(what string, s timeline.Setup) error {
	if err := m.nameFor(s.Name, ""); err != nil {
		return err
	}
	return m.Apply(what, timeline.SetupEdit{Setup: &s})
}

// Rename gives the chosen setup another name.
func (m *Model) Rename(name string) error {
	m.Commit()
	before, s := m.setup, m.setup
	s.Name = strings.TrimSpace(name)
	if m.chosen < 0 || s.Name == before.Name {
		return nil
	}
	if err := m.nameFor(s.Name, before.Name); err != nil {
		return err
	}
	return m.Apply(editName(&before, &s), timeline.SetupEdit{Before: before.Name, Setup: &s})
}

package table

import (
	"fmt"

	"wakeline/timeline"
)

// The trade's writing of active frames and windows, for others that keep
// moves as rows.

// ParseActive reads what timeline.ActiveWords writes.
func ParseActive(cell string) ([]int, error) {
	if cell == "" {
		return nil, nil
	}
	active, ok := parseActive(cell)
	if !ok {
		return nil, fmt.Errorf("expected active frames such as 2(5)1, got %q", cell)
	}
	return active, nil
}

// FormatImmune writes windows as "1-8 strike; 9-12", empty where there are none.
func FormatImmune(of []timeline.Immunity) string { return formatWindows(of, formatImmunity) }

// ParseImmune reads what FormatImmune writes.
func ParseImmune(cell string) ([]timeline.Immunity, error) { return parseCell(cell, parseImmunity) }

// FormatArmour writes windows with their hits, empty where there are none.
func FormatArmour(of []timeline.Armour) string { return formatWindows(of, formatArmour) }

// ParseArmour reads what FormatArmour writes.
func ParseArmour(cell string) ([]timeline.Armour, error) { return parseCell(cell, parseArmour) }

// FormatParry writes windows as "1-10; 14-20", empty where there are none.
func FormatParry(of []timeline.Window) string { return formatWindows(of, formatParry) }

// ParseParry reads what FormatParry writes.
func ParseParry(cell string) ([]timeline.Window, error) { return parseCell(cell, parseParry) }

func parseCell[W any](cell string, rest func(at timeline.Window, words []string) (W, bool)) ([]W, error) {
	if cell == "" {
		return nil, nil
	}
	out, ok := parseWindows(cell, rest)
	if !ok {
		return nil, fmt.Errorf("expected windows such as 1-8, got %q", cell)
	}
	return out, nil
}

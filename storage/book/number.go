package book

import (
	"math/big"
	"strings"
	"time"
)

// plain writes a number of a spreadsheet as a person does: without an exponent,
// and without the last digits that a fraction of two adds to a decimal one. What
// is no number stays as it is.
func plain(value string, percent bool) string {
	const most = 40
	if len(value) > most {
		return value
	}
	if at := strings.IndexAny(value, "eE"); at >= 0 && len(value)-at > 4 {
		return value
	}
	r, ok := new(big.Rat).SetString(value)
	if !ok || strings.Contains(value, "/") {
		return value
	}
	after := ""
	if percent {
		r.Mul(r, big.NewRat(100, 1))
		after = "%"
	}
	text := r.FloatString(9)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".") + after
}

// day writes the number of a date as that date: a spreadsheet has made it of what
// was typed, and only a person can say what that was.
func day(value string) string {
	r, ok := new(big.Rat).SetString(plain(value, false))
	if !ok {
		return value
	}
	days := new(big.Int).Quo(r.Num(), r.Denom())
	if !days.IsInt64() || days.Int64() < 0 || days.Int64() > 100_000_000 {
		return value
	}
	return time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).AddDate(0, 0, int(days.Int64())).Format("2006-01-02")
}

package timeline

import "strconv"

// Maybe is a whole number that may be absent; the zero value is absent. In
// JSON it is the number or null.
type Maybe struct {
	N     int
	Given bool
}

// Some is the number n, given.
func Some(n int) Maybe { return Maybe{n, true} }

// Or returns the number, or n where it is absent.
func (m Maybe) Or(n int) int {
	if m.Given {
		return m.N
	}
	return n
}

// String writes the number, "none" where it is absent.
func (m Maybe) String() string {
	if !m.Given {
		return "none"
	}
	return strconv.Itoa(m.N)
}

// MarshalJSON writes the number, or null where it is absent.
func (m Maybe) MarshalJSON() ([]byte, error) {
	if !m.Given {
		return []byte("null"), nil
	}
	return strconv.AppendInt(nil, int64(m.N), 10), nil
}

package timeline

// Bearing is where the rival is on the meeting, by the attacker's facing. The
// zero value says nothing.
type Bearing uint8

// The bearings.
const (
	InFront Bearing = iota + 1
	Behind
	Over // both are on one spot
)

var bearingNames = [...]string{"", "front", "behind", "over"}

// String is the bearing's name, empty where it says nothing.
func (s Bearing) String() string { return bearingNames[s] }

// MarshalJSON writes the bearing's name, null where it says nothing.
func (s Bearing) MarshalJSON() ([]byte, error) {
	if s == 0 {
		return []byte("null"), nil
	}
	return []byte(`"` + s.String() + `"`), nil
}

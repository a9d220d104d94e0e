package timeline

// By says how a step of a route or a string comes after the one before.
type By string

// The two ways.
const (
	Link   By = "link"   // once its owner is free
	Cancel By = "cancel" // out of the move before
)

// RouteStep is one move of a route.
type RouteStep struct {
	Move string // of its fighter, done on the ground
	By   By     // of the first step it counts after a hit only
}

// Route is moves in a row that its fighter does once it may: a punish, or what
// follows a hit. Numbers that were measured in the game stand in place of
// those of its steps.
type Route struct {
	Name                 string
	Damage               Maybe // points, 0 or more
	GaugeCost, GaugeGain Maybe // segments, 0 or more
	Confirmed            bool  // done in the game: it works whatever its links say
	Steps                []RouteStep
}

// FollowStep is one move of the string after a guarded attack.
type FollowStep struct {
	Move string // of the attacker, done on the ground
	Wait int    // frames after the attacker is free, 0 or more
	By   By
}

// Route returns the fighter's route of that name, nil where there is none.
func (f *Fighter) Route(name string) *Route {
	for i := range f.Routes {
		if f.Routes[i].Name == name {
			return &f.Routes[i]
		}
	}
	return nil
}

// Asked are the replies that s asks of the rival: its own, or else those that
// every setup against that rival is asked.
func (s *Setup) Asked(rival *Fighter) []Reply {
	if s.Replies == nil {
		return rival.Replies
	}
	return s.Replies
}

// Against is s with the same plan against another rival: on all its rises,
// asked what every setup against it is. Against its own rival s stays as it is.
func (s Setup) Against(rival string) Setup {
	if rival != s.Rival {
		s.Rival, s.Rises, s.Replies = rival, nil, nil
	}
	return s
}

// uses reports whether a route of f, or a reply that every setup against f is
// asked, names that move or jump.
func (f *Fighter) uses(name string) bool {
	for _, r := range f.Replies {
		if r.Move == name {
			return true
		}
	}
	for i := range f.Routes {
		for _, s := range f.Routes[i].Steps {
			if s.Move == name {
				return true
			}
		}
	}
	return false
}

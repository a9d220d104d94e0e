package words

import "wakeline/timeline"

// outcomeTerms are how an exchange may end, as the attacker sees it.
var outcomeTerms = []shownTerm{
	{"attack hits", "", "The attack touches the rival first, and nothing stops it.", nil, 2, BothSides, meeting},
	{"attack blocked", "attack guarded", "The rival's guard stops the attack.", nil, 0, BothSides, meeting},
	{"reply blocked", "reply guarded", "The rival's reply touches the attacker, who is guarding. Then the attacker may be able to punish it.", nil, 3, BothSides, meeting},
	{"reply parried", "", "The rival's reply touches the attacker, who is parrying.", parried, 3, BothSides, meeting},
	{"no contact", "", "Neither side touches the other.", asked("back slide"), 3, BothSides, attacking},
	{"trade", "", "Both sides are hit on the same frame.", both(asked("quick elbow"), laterBy(4)), 3, BothSides, meeting},
	{"attack whiffs", "", "The attack touches nothing, although the rival only guards or stands still: it is too early or too late.", laterBy(-2), 0, BothSides, attacking},
	{"reply hits", "", "The rival's reply touches the attacker first, and no guard stops it.", laterBy(4), 3, BothSides, meeting},
	{"attack parried", "", "The rival's parry takes the attack.", asked("open hand"), 3, BothSides, meeting},
	{"attack absorbed", "", "The rival's armour takes the attack, and the rival's move goes on.", asked("braced shove"), 3, BothSides, meeting},
	{"reply throws", "", "The rival throws the attacker. No guard stops a throw.", both(asked("hip toss"), empty), 3, BothSides, meeting},
}

// verdictTerms are the answers, and the numbers of an exchange.
var verdictTerms = []shownTerm{
	{"outcome", "", "How one exchange ends, as the attacker sees it.", nil, 3, BothSides, meeting},
	{"verdict", "", "The answer about a setup at its delay: safe, limited or unsafe.", nil, 3, BothSides, meeting},
	{"safe", "", "The attack meets the wake-up, and each reply is met as demanded, on each claimed rise. Of one exchange: the attacker is not hurt.", nil, 3, BothSides, meeting},
	{"limited", "", "Safe, except against replies that no delay covers, such as one that parries whatever touches it.", also("open hand"), 3, BothSides, meeting},
	{"unsafe", "", "A reply wins that another delay would cover, or the attack misses the wake-up. Here the guard comes three frames too late.", laterBy(4), 3, BothSides, meeting},
	{"even", "", "Of one exchange: neither side touches the other.", asked("back slide"), 3, BothSides, attacking},
	{"covers, covered", "", "A setup covers a reply where the attack meets the wake-up and the attacker is not hurt, on each claimed rise.", nil, 3, BothSides, meeting},
	{"uncovered", "", "A reply for which no delay does what is demanded, such as a parry that works from its first frame.", also("open hand"), 4, BothSides, meeting},
	{"meeting, meets", "", "The frame on which the two sides touch. It decides the exchange.", nil, 3, BothSides, meeting},
	{"to spare, too late", "", "By how many frames the attacker is in time: so many could still be lost before the reply wins. Below 0, it is too late by so many.", nil, 3, BothSides, dimensionOf(timeline.DimSpare)},
	{"after wake-up", "", "How many frames after the wake-up the attack touches. Before it touches, the rival is free. 0 is meaty.", laterBy(6), 2, BothSides, dimensionOf(timeline.DimAfterWake)},
	{"advantage", "plus frames, minus frames", "After a touch: how many frames the attacker is free before the rival. Below 0, the rival is free first.", nil, 0, BothSides, func(s *Scene) timeline.Span {
		return span(s.ActsFrom, min(s.ActsFrom+s.Cell.Advantage.N, s.Span.To))
	}},
	{"to punish", "punish", "After a blocked reply: how many frames the attacker is free before the rival. A move that is quicker than that hits.", nil, 3, BothSides, func(s *Scene) timeline.Span {
		return span(s.ActsFrom, phaseOf(timeline.Recovery)(s).To)
	}},
	{word: "place, apart, side: front, behind, over", means: "How many units lie between the two when they meet, below 0 once the attacker has passed the rival; and whether the rival is then in front of the attacker, behind, or on the same spot."},
	{word: "out of reach", means: "Of a reply: what is demanded is met only because the attacker stands where the reply doesn't reach."},
	{"meaty", "meaty attack", "An attack that touches the rival on the wake-up frame itself.", nil, 2, BothSides, wakingUp},
	{"safe jump", "", "A jump attack so low that the attacker lands and guards before the rival's reply is active.", nil, 3, BothSides, func(s *Scene) timeline.Span { return span(s.Wake, s.Cell.Meeting.Or(s.Wake)+1) }},
}

// planTerms are what the attacker's plan is made of.
var planTerms = []shownTerm{
	{"frame", "", "One tick of the game's clock, usually a sixtieth of a second. Frame 0 is the first on which the attacker may act after the ender.", nil, 3, BothSides, func(*Scene) timeline.Span { return span(0, 1) }},
	{"setup", "okizeme, oki", "One ender, its fillers, delay, jump, attack and landing action, against one rival.", nil, 3, AttackerSide, entire},
	{"attacker, rival", "", "The fighter who has knocked the other down, and the one who gets up.", nil, 3, BothSides, entire},
	{"ender", "knockdown move", "The last hit of the combo, which knocks the rival down.", nil, 3, AttackerSide, partOf(timeline.PartEnder)},
	{"knockdown advantage", "", "How many frames pass from frame 0 to the wake-up, on the quickest rise.", nil, 3, RivalSide, dimensionOf(timeline.DimAdvantage)},
	{"filler", "frame kill", "A move, dash or jump of known length that touches nothing. It passes time, exactly as much every time.", nil, 3, AttackerSide, partOf(timeline.PartFiller)},
	{"delay, wait", "", "Frames that the player counts before the jump.", nil, 3, AttackerSide, partOf(timeline.PartDelay)},
	{"jump", "jump arc", "The attacker's way through the air. It is thick during the attack, and thickest where the attack can touch.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return s.Arc.Air }},
	{"prejump", "jump startup", "The frames of a jump before the fighter leaves the ground.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return span(s.JumpOn.N, s.Arc.Air.From) }},
	{"airborne", "air frames", "The frames of a jump, or of a move, in the air.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return s.Arc.Air }},
	{"attack, press", "", "The jump attack, and the air frame on which it is pressed. Auto: as early as still touches on the last air frame.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return s.Arc.Attack }},
	{"jumps on, lands on", "touchdown", "The frame on which the jump starts, and the first one back on the ground.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return span(s.Touchdown.N, s.Touchdown.N+1) }},
	{"landing", "landing recovery", "The frames after the jump on which the attacker can't act yet, and what the attacker does after it: guard, parry or a move.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return span(s.Touchdown.N, s.ActsFrom) }},
	{"guards from, acts from", "", "The first frame after the jump on which the attacker can guard, and the first on which it can act.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return span(s.GuardsFrom, s.ActsFrom+1) }},
	{"window", "", "The delays at which the setup is good. The bar under the attacker shows when the jump may start.", nil, 3, AttackerSide, func(s *Scene) timeline.Span {
		w := s.Window[0]
		return span(s.Delay.From+w.From, s.Delay.From+w.To+1)
	}},
	{"neighbour", "", "The same setup one frame earlier or later. Here one frame later than the last safe delay: the guard comes too late.", laterBy(2), 3, BothSides, meeting},
	{"bait", "empty jump", "A plan without an attack: the attacker jumps, lands, guards and waits for the reply.", empty, 3, AttackerSide, entire},
	{"chance by hand", "odds", "How likely a player presses on the right frame, from the presses measured in a drill.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return span(s.JumpOn.N, s.JumpOn.N+1) }},
	{"lesson", "", "The page that teaches one setup: it and its neighbours, one under the other, with a sentence each.", nil, 3, BothSides, entire},
	{"drill", "", "An exercise in timing: press the jump on its frame, again and again. It measures how far off the presses are.", nil, 3, AttackerSide, func(s *Scene) timeline.Span { return span(s.JumpOn.N, s.JumpOn.N+1) }},
}

// replyTerms are what the rival does.
var replyTerms = []shownTerm{
	{"rise, rises claimed", "wake-up timing", "One of the ways to get up. A setup claims the rises that it has to work against.", nil, 3, RivalSide, partOf(timeline.PartRise)},
	{"normal, backward, late rise", "", "Names of rises. A backward rise changes the distance, and may take longer; a late one takes longer.", nil, 3, RivalSide, partOf(timeline.PartRise)},
	{"wake-up", "", "The rival's first free frame. From it on the rival can act, and can be touched.", nil, 3, RivalSide, wakingUp},
	{"reply", "wake-up option", "What the rival does on the wake-up: a guard, nothing, or a move or jump.", nil, 3, RivalSide, partOf(timeline.PartReply)},
	{"guard high, guard low, nothing", "block", "The replies that are always judged: the two guards, and standing still.", nil, 0, RivalSide, partOf(timeline.PartReply)},
	{"reversal", "", "A reply that is active so soon, or is so well protected, that it beats attacks on the wake-up.", nil, 3, RivalSide, partOf(timeline.PartReply)},
	{"late", "delayed reply", "How many frames after the wake-up the reply starts. Until then the rival stands still.", func(s *timeline.Setup) {
		s.Replies = []timeline.Reply{{Move: "quick elbow", Demand: timeline.Survive, Late: 4}}
	}, 3, RivalSide, partOf(timeline.PartReply)},
	{"deciding reply", "", "The reply that the verdict depends on: the one that wins, or the one that comes nearest to winning.", nil, 3, RivalSide, partOf(timeline.PartReply)},
	{"demand: survive, beat, none", "", "What the setup must do against a reply: come through unhurt, beat it, or nothing.", nil, 3, BothSides, meeting},
	{"startup", "", "The frames of a move before it can touch. The ruleset says whether its number counts the first active frame.", nil, 3, RivalSide, phaseOf(timeline.Startup)},
	{"active", "", "The frames on which a move touches what it reaches.", nil, 3, RivalSide, phaseOf(timeline.Active)},
	{"recovery, total", "", "Recovery: the frames after the active ones, until the fighter is free. Total: all frames of a move.", nil, 3, RivalSide, phaseOf(timeline.Recovery)},
	{"immune, immunity", "invincible, invulnerable", "Frames on which strikes, throws or both pass through.", nil, 3, RivalSide, markOf("immune")},
	{"parry", "", "Frames on which a fighter takes a strike and answers it. Throws are not parried.", asked("open hand"), 3, RivalSide, markOf("parry")},
	{"armour", "super armour", "Frames on which a fighter takes so many hits of strikes and goes on. Throws ignore it.", asked("braced shove"), 3, RivalSide, markOf("armour 1")},
	{word: "match-up", means: "All setups of one fighter against all replies of another."},
}

// dataTerms are the words of the move data.
var dataTerms = []shownTerm{
	{word: "kind: strike, throw, parry, evade, dash", means: "Kinds of moves. A strike can be guarded, a throw can't; an evade avoids, and a dash only moves."},
	{word: "level: mid, low, overhead", means: "Which guard stops a strike: mid, both guards; low, only the low guard; overhead, only the high guard. Low strikes never touch an airborne body."},
	{word: "throw, air throw", means: "A throw takes a body on the ground, an air throw one in the air. Neither can be guarded."},
	{word: "on hit, on guard", also: "on block", means: "The advantage after the first active frame of a move hits, or is blocked."},
	{word: "hitstun, guardstun", also: "blockstun", means: "How many frames the touched side stands in stun. Given instead of on hit and on guard, always for jump attacks."},
	{word: "airborne from, misses air", means: "The frame from which a move's body is in the air; and whether its strikes pass under a body in the air."},
	{word: "deep", means: "On how many of the last air frames a jump attack is low enough to reach a rival on the ground."},
	{word: "drop, top, apex, body", means: "Heights: how far a jump attack reaches down, up to where a strike reaches, how high a jump goes, and how tall a fighter is."},
	{word: "reach near, reach far", also: "range", means: "The distances between which a move reaches."},
	{word: "guard after", means: "How many frames after landing a guard works."},
	{word: "hits", means: "How many hits armour takes."},
	{word: "damage, health, points", means: "What a move takes off, and what a fighter has, both in points."},
	{word: "points of an exchange, kills from", means: "What the attacker gains by an exchange, below 0 what it loses; and the rival's health from which on it ends the round."},
	{word: "mix, share, worst, against, value", means: "Setups picked so that the rival can't know which comes: how often each, what it makes at worst and against the rival's shares, and what a round is then worth."},
	{word: "habit", means: "What a rival does more often than its best share. A setup that is best against it gains more than the mix does."},
	{word: "finish, round", means: "How a fight ends: setups that follow each other, each a round, until the rival has no health left."},
	{word: "gauge, gauge cost, gauge gain, needs, segments", also: "meter", means: "What special moves are paid with, in segments; what a move costs, what it brings, and how much a route needs to begin with."},
	{word: "scaling, counter hit damage", means: "In percent: what of its damage each further move of a combo still does; and what a hit does to a rival whose own move had begun."},
	{word: "worth of a segment, carry over a round", means: "How many points a segment of the gauge counts as; and how much of what a round leaves counts for the next."},
	{word: "route, steps, link, cancel", also: "combo", means: "Moves that one side does in a row after a hit or a block, its steps. Each follows by link, once its owner is free again, or by cancel, out of the move before."},
	{word: "ends in, confirmed", means: "The last move of a route, after which a setup may begin; and that the route was done in the game, so that it is used whatever its links say."},
	{word: "string, gap, true string", also: "blockstring", means: "What the attacker does after the rival blocks. A gap is the frames in which the rival can act between two blocks; a true string has none."},
	{word: "reaction", means: "How many frames a player takes to see what happened and to press."},
	{word: "travel, distance, shift, room, width, units", means: "How far a move or jump goes, how far apart both are after the ender, how far a rise moves, how much room is left to the wall, and how wide a fighter is. All in the same units."},
	{word: "position: midscreen, wall", also: "corner", means: "Where the ender knocks down. At the wall the rival can't move backward."},
	{word: "extra", means: "How many frames longer a rise takes than the quickest."},
	{word: "ruleset", means: "The rules of the game that all setups share, such as the frame rate and how throws work."},
	{word: "rate", means: "Frames per second."},
	{word: "buffer", means: "How many frames early an input may come and still act on the first possible frame."},
	{word: "grace, throw immunity", also: "throw protection", means: "The frames after the wake-up, or after landing, on which a fighter can't be thrown."},
	{word: "trades", means: "Whether two strikes on one frame hit both, or only the attacker's hits."},
	{word: "revision", also: "patch, version", means: "A dated state of the move data: a patch of the game. A change of one frame can change a verdict."},
}

package timeline

// Spare is the least spare of the replies that a demand is on, over all rises
// claimed: how near the setup comes to break. It is absent where no exchange
// of them has one.
func (v *Verdict) Spare() (least Maybe) {
	for i := range v.Rises {
		for k := range v.Rises[i].Replies {
			r := &v.Rises[i].Replies[k]
			if r.Demand != DemandNone && r.Spare.Given && (!least.Given || r.Spare.N < least.N) {
				least = r.Spare
			}
		}
	}
	return least
}

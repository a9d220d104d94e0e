package find

import (
	"math/big"
	"math/bits"
	"slices"
)

// spots counts how many ways lead to each place, the places ascending. A count
// stands in limbs words of n, the lowest first.
type spots struct {
	at []int
	n  []uint64
}

// limbsFor is how many words hold a count of sequences of at most most things
// out of n.
func limbsFor(n, most int) int { return 1 + most*bits.Len(uint(n+1))/64 }

// merge adds the spots of b to those of a, each moved by to; false from to
// leaves a spot out. to must not change the order of places.
func merge(a, b spots, limbs int, to func(place int) (int, bool)) spots {
	if len(b.at) == 0 {
		return a
	}
	out := spots{make([]int, 0, len(a.at)+len(b.at)), make([]uint64, 0, len(a.n)+len(b.n))}
	put := func(place int, n []uint64) {
		if last := len(out.at) - 1; last < 0 || out.at[last] != place {
			out.at, out.n = append(out.at, place), append(out.n, n...)
			return
		}
		sum, carry := out.n[len(out.n)-limbs:], uint64(0)
		for l := range limbs {
			sum[l], carry = bits.Add64(sum[l], n[l], carry)
		}
	}
	i := 0
	for k, place := range b.at {
		place, ok := to(place)
		if !ok {
			continue
		}
		for ; i < len(a.at) && a.at[i] <= place; i++ {
			put(a.at[i], a.n[i*limbs:(i+1)*limbs])
		}
		put(place, b.n[k*limbs:(k+1)*limbs])
	}
	for ; i < len(a.at); i++ {
		put(a.at[i], a.n[i*limbs:(i+1)*limbs])
	}
	return out
}

// spread are the spots where each of s stands for several: to lists them for
// each as numbers of at, which ascends. sums is as long as at, limbs for each,
// and all 0, and is so again in the end.
func (s *spots) spread(to [][]int, at []int, limbs int, sums []uint64) (out spots) {
	var touched []int
	for i, spot := range s.at {
		n := s.n[i*limbs : (i+1)*limbs]
		for _, k := range to[spot] {
			sum, carry, before := sums[k*limbs:(k+1)*limbs], uint64(0), uint64(0)
			for l := range limbs {
				before |= sum[l]
				sum[l], carry = bits.Add64(sum[l], n[l], carry)
			}
			if before == 0 {
				touched = append(touched, k)
			}
		}
	}
	slices.Sort(touched)
	for _, k := range touched {
		sum := sums[k*limbs : (k+1)*limbs]
		out.at, out.n = append(out.at, at[k]), append(out.n, sum...)
		clear(sum)
	}
	return out
}

// big is the count of the i-th spot.
func (s *spots) big(i, limbs int, into *big.Int) *big.Int {
	into.SetUint64(s.n[(i+1)*limbs-1])
	word := new(big.Int)
	for l := limbs - 2; l >= 0; l-- {
		into.Lsh(into, 64).Or(into, word.SetUint64(s.n[i*limbs+l]))
	}
	return into
}

package quality

// prints are what tells, from one walk over the bins, that a record has nothing copied and
// nothing held on to. Equal values have equal bins, so nothing can be missed; what is only
// alike is left to the rules.
type prints struct {
	months  bool   // two months of an element may be the same
	stretch bool   // so may two stretches of days
	run     [2]int // days of the longest run of one bin, missing days left out
	set     keySet
}

// prints walks over the record when first asked to.
func (r *record) prints() *prints {
	p := &r.work.prints
	if r.printed {
		return p
	}
	r.look()
	r.printed = true
	p.months, p.stretch = false, false
	for e := range r.bins {
		p.run[e] = p.walk(r.bins[e], r.months)
	}
	p.stretch = p.stretches(r.bins)
	return p
}

// dayWeight makes a number of a month's first days, which every month has, that differs where
// one of them does.
var dayWeight = func() (w [31]uint64) {
	x := uint64(1)
	for d := range 28 {
		x *= keyMix
		w[d] = x
	}
	return w
}()

// walk looks at the months of one element, and returns the longest run.
func (p *prints) walk(bins []int16, months []monthSpan) (longest int) {
	p.set.reset(len(months))
	last, run := int16(noBin), 0
	for _, m := range months {
		key, n := uint64(0), 0
		weight := dayWeight[m.day-1:]
		for d, b := range bins[m.from:m.to] {
			if b < 0 {
				continue
			}
			n++
			key += uint64(b+1) * weight[d]
			if b == last {
				run++
				longest = max(longest, run)
			} else {
				last, run = b, 1
			}
		}
		if n >= enoughDays && !p.months {
			p.months = p.set.has(key)
			p.set.put(key)
		}
	}
	return max(longest, min(run, 1))
}

// stretches tells whether two blocks of days may be the same, the earlier one of those that
// repeatedStretch looks up. A day leaves the key after stretchBlock shifts.
func (p *prints) stretches(bins [2][]int16) bool {
	bn, bx := bins[Tmin], bins[Tmax]
	p.set.reset(len(bn)/stretchBlock + 1)
	key, known := uint64(0), 0
	for i, n := range bn {
		x := bx[i]
		if n|x < 0 {
			known = 0
			continue
		}
		key = key<<(64/stretchBlock) + (uint64(n)<<16|uint64(x))*keyMix
		if known++; known < stretchBlock {
			continue
		}
		if p.set.has(key) {
			return true
		}
		if (i+1)%stretchBlock == 0 {
			p.set.put(key)
		}
	}
	return false
}

// keySet holds numbers that are as good as random. The bits tell of nearly all that are not in
// it; memory stays as large as the first cache.
type keySet struct {
	bits  [1 << 10]uint64
	slots []uint64 // as a hash table with open addressing; 0 is free
	mask  uint64
}

const keyMix = 0x9e3779b97f4a7c15

// reset empties it, for up to n numbers.
func (s *keySet) reset(n int) {
	size := 16
	for size < 2*n {
		size *= 2
	}
	s.slots, s.mask = sized(s.slots, size), uint64(size-1)
	clear(s.slots)
	clear(s.bits[:])
}

// bit returns where a number's bit is.
func (s *keySet) bit(k uint64) (word *uint64, bit uint64) {
	k = k * keyMix >> 48
	return &s.bits[k>>6], k & 63
}

func (s *keySet) has(k uint64) bool {
	word, bit := s.bit(k)
	return *word>>bit&1 != 0 && s.find(k)
}

func (s *keySet) find(k uint64) bool {
	k = max(k, 1)
	for at := k * keyMix >> 32 & s.mask; s.slots[at] != 0; at = (at + 1) & s.mask {
		if s.slots[at] == k {
			return true
		}
	}
	return false
}

func (s *keySet) put(k uint64) {
	word, bit := s.bit(k)
	*word |= 1 << bit
	k = max(k, 1)
	at := k * keyMix >> 32 & s.mask
	for s.slots[at] != 0 && s.slots[at] != k {
		at = (at + 1) & s.mask
	}
	s.slots[at] = k
}

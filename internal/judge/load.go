package judge

// The aims of this file are about expected session load, in arbitrary units. They
// are off by default: their price is 0.

// blocks is the expected load of a session in steps of LoadBlock units, to the
// nearest, ties up.
func (s *season) blocks(r *session) int64 {
	load := s.p.Rating[r.Kind] * (r.End - r.Start)
	return (2*load + s.p.LoadBlock) / (2 * s.p.LoadBlock)
}

// blocksOn sums the blocks of the dates from to to.
func (s *season) blocksOn(from, to int) int64 {
	var n int64
	for d := from; d <= to; d++ {
		for _, r := range s.on(d).sessions {
			n += s.blocks(r)
		}
	}
	return n
}

// weekLoad: the load of every whole week lies in a band.
func weekLoad(s *season) []Miss {
	least, most := s.p.WeekLoad.Min/s.p.LoadBlock, s.p.WeekLoad.Max/s.p.LoadBlock
	var misses []Miss
	for _, w := range s.wholeWeeks() {
		n := s.blocksOn(w, w+6)
		switch {
		case n < least:
			misses = append(misses, s.missed(WeekLoad, w, w+6, int(least), int(n), least-n))
		case n > most:
			misses = append(misses, s.missed(WeekLoad, w, w+6, int(most), int(n), n-most))
		}
	}
	return misses
}

// loadRamp: from one whole week to the next the load changes little.
func loadRamp(s *season) []Miss {
	most := s.p.LoadRamp / s.p.LoadBlock
	var misses []Miss
	for _, w := range s.wholeWeeks() {
		if w-7 < s.From {
			continue
		}
		change := s.blocksOn(w, w+6) - s.blocksOn(w-7, w-1)
		if change < 0 {
			change = -change
		}
		if change > most {
			misses = append(misses, s.missed(LoadRamp, w, w+6, int(most), int(change), change-most))
		}
	}
	return misses
}

// rollingCount: few sessions in the seven dates that end at each date.
func rollingCount(s *season) []Miss {
	var misses []Miss
	for d := s.From; d <= s.To; d++ {
		if n := s.count(d-6, d, func(*session) bool { return true }); n > s.p.RollingCount {
			misses = append(misses, s.missed(RollingCount, d-6, d, s.p.RollingCount, n, int64(n-s.p.RollingCount)))
		}
	}
	return misses
}

// rollingLoad: little load in the three dates that end at each date.
func rollingLoad(s *season) []Miss {
	most := s.p.RollingLoad / s.p.LoadBlock
	var misses []Miss
	for d := s.From; d <= s.To; d++ {
		if n := s.blocksOn(d-2, d); n > most {
			misses = append(misses, s.missed(RollingLoad, d-2, d, int(most), int(n), n-most))
		}
	}
	return misses
}

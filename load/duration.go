package load

import "time"

// Block is the sets of one exercise, for the time they take.
type Block struct {
	Sets, Reps int
	Tempo      time.Duration // of one repetition
	Rest       time.Duration // between two sets
}

// Outline is a session as far as its length goes.
type Outline struct {
	WarmUp time.Duration
	Blocks []Block
	Change time.Duration // from one block's station to the next
}

// The longest single time and block of an outline.
const longestPart = 24 * time.Hour

// Duration is sets x repetitions x tempo plus a rest between each two sets,
// exact. No sets take no time. Undefined for counts outside 0 to 1000 and times
// outside 0 to 24 h, and where the whole, with a rest behind each set, is over
// 24 h.
//
// Source: common practice, no source.
func (b Block) Duration() (time.Duration, bool) {
	if !(SetGroup{Sets: b.Sets, Reps: b.Reps}).valid() || !partTime(b.Tempo) || !partTime(b.Rest) {
		return 0, false
	}
	if b.Sets == 0 {
		return 0, true
	}
	// In float64 first: a thousand sets of a thousand days do not fit.
	if total := float64(b.Sets) * (float64(b.Reps)*float64(b.Tempo) + float64(b.Rest)); total > float64(longestPart) {
		return 0, false
	}
	return time.Duration(b.Sets)*time.Duration(b.Reps)*b.Tempo + time.Duration(b.Sets-1)*b.Rest, true
}

// Duration is the warm-up, the blocks, and a change of station between each
// two of them, exact. Undefined where a [Block] is, for times outside 0 to
// 24 h, and for more than 1000 blocks.
//
// Source: common practice, no source.
func (o Outline) Duration() (time.Duration, bool) {
	if !partTime(o.WarmUp) || !partTime(o.Change) || len(o.Blocks) > mostCounted {
		return 0, false
	}
	total := o.WarmUp
	for i, b := range o.Blocks {
		d, ok := b.Duration()
		if !ok {
			return 0, false
		}
		total += d
		if i > 0 {
			total += o.Change
		}
	}
	return total, true
}

func partTime(d time.Duration) bool { return d >= 0 && d <= longestPart }

package load

import "time"

// standardGravity is exact by definition, in metres per second squared.
const standardGravity = 9.80665

// JumpHeight is the height of a jump from its flight time, g t^2 / 8 with
// g = 9.80665 m/s^2. Not rounded. It holds if the athlete lands as stretched as
// at take-off. Undefined for a time that is not above 0 and at most 2 s.
//
// Source: derived from free fall.
func JumpHeight(flight time.Duration) (Metres, bool) {
	if flight <= 0 || flight > 2*time.Second {
		return 0, false
	}
	t := flight.Seconds()
	return Metres(standardGravity * t * t / 8), true
}

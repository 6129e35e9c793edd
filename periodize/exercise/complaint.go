package exercise

import (
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Complaint is pain that an athlete reports of one part of the body. It is the
// athlete's own and private: no problem shows its values, and no wall sheet has
// a field for it.
type Complaint struct {
	Date   calendar.Date // of the report
	Region string        // one of BodyWords
	Side   string        // "left", "right", "both"; "" is asked, and taken as both
	Pain   int           // 0 to 10
	Since  calendar.Date // first date of the complaint; unset: today
	Cough  bool          // pain when coughing or sneezing
	// SqueezeBelow is by how many percent a squeeze test is under the
	// athlete's baseline, if Squeezed.
	SqueezeBelow int
	Squeezed     bool
}

func complaintProblems(path string, list []Complaint) []calendar.Problem {
	var f faults
	for i, p := range list {
		at := fmt.Sprintf("%s/%d", path, i)
		if _, ok := regionMask(p.Region); !ok {
			f.add("region-unknown", at+"/region", hiddenValue, "the word for the part of the body is not known here", "use one of BodyWords")
		}
		if !sideWord(p.Side) {
			f.add("side-unknown", at+"/side", hiddenValue, "the word is not known here", "use left, right or both")
		}
		if p.Pain < 0 || p.Pain > 10 {
			f.add("pain-range", at+"/pain", hiddenValue, "outside 0 to 10", "give a number from 0 to 10")
		}
		if p.SqueezeBelow < -100 || p.SqueezeBelow > 100 {
			f.add("squeeze-range", at+"/squeezeBelow", hiddenValue, "outside -100 to 100 percent", "give the percent under the baseline")
		}
		if !p.Since.IsZero() && !p.Date.IsZero() && p.Since.After(p.Date) {
			f.add("complaint-span", at+"/since", hiddenValue, "it began after it was reported", "check both dates")
		}
	}
	return f.list
}

// barred is what must not be loaded, by side.
type barred struct {
	left, right tissueMask // out, but for exercises that load them gently
	strict      tissueMask // out altogether, by a restriction
	gentle      tissueMask // worth reloading gently
	tender      tissueMask // better spared, not out
}

func (b *barred) add(m tissueMask, side string) {
	if side != "right" {
		b.left |= m
	}
	if side != "left" {
		b.right |= m
	}
}

// allows reports whether an exercise may be done, and on which side if only on
// one: "", "left" or "right".
func (b *barred) allows(e *entry) (side string, ok bool) {
	if e.loads&(b.left|b.right) == 0 {
		return "", (e.loads|e.gentle)&b.strict == 0
	}
	if !e.Apart {
		return "", false
	}
	switch {
	case e.loads&b.left == 0 && e.gentle&b.strict == 0:
		return "left", true
	case e.loads&b.right == 0 && e.gentle&b.strict == 0:
		return "right", true
	}
	return "", false
}

// restrictions bars what a named role has ruled out on a date.
func (b *barred) restrictions(list []season.Restriction, d calendar.Date) (asked bool) {
	for _, r := range list {
		if d.Before(r.From) || !r.To.IsZero() && d.After(r.To) {
			continue
		}
		m, _ := regionMask(r.Region)
		b.add(m, r.Side)
		b.strict |= m
		asked = asked || r.Side == ""
	}
	return asked
}

// open bars what an earlier complaint still rules out: one of 3 or more, until
// two later reports in a row were at most 2, with a squeeze within 10 % of the
// baseline where it was tested.
func (a *asked) open(reports []Complaint, d calendar.Date) (still bool) {
	for i, r := range reports {
		if r.Pain < painModify || r.Date.IsZero() || !r.Date.Before(d) {
			continue
		}
		m, _ := regionMask(r.Region)
		clear := 0
		for _, x := range reports[i+1:] {
			y, _ := regionMask(x.Region)
			if y&m == 0 || x.Date.IsZero() || !x.Date.After(r.Date) || !x.Date.Before(d) || !sameSide(x.Side, r.Side) {
				continue
			}
			if x.Pain >= painModify || x.Squeezed && x.SqueezeBelow > squeezeMost {
				clear = 0
			} else {
				clear++
			}
		}
		if clear < clearNeeded {
			a.bar.add(m, r.Side)
			a.bar.gentle |= m
			still = true
		}
	}
	return still
}

func sameSide(x, y string) bool { return x == y || x == "" || y == "" || x == "both" || y == "both" }

// The thresholds of a complaint. Common practice, no source.
const (
	painModify  = 3
	painHold    = 6
	squeezeMost = 10 // percent under the baseline
	clearNeeded = 2  // sessions in a row
	referAfter  = 14 // dates: the third week
)

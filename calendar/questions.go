package calendar

import "fmt"

// Assumed returns the questions that a list of placed events leaves open: one
// for all games without an end, one for all games without a time, one for all
// exams without a time, whatever their number, in this order. What is postponed or
// cancelled asks nothing. Path goes into
// the problems as it is.
func Assumed(events []Placed, a Assumptions, path string) []Problem {
	a = a.Settled()
	var ends, dates, exams []string
	for _, p := range events {
		switch {
		case !p.Active():
		case p.Kind == Exam && p.DateOnly && p.EndAssumed:
			exams = append(exams, p.ID)
		case p.Kind != Game:
		case p.DateOnly:
			dates = append(dates, p.ID)
		case p.EndAssumed:
			ends = append(ends, p.ID)
		}
	}
	var out []Problem
	if n := len(ends); n > 0 {
		out = append(out, Problem{
			Code: "end-assumed", Class: ClassQuestion, Path: path, Field: "end", Value: first(ends),
			Reason: fmt.Sprintf("%s without an end: %d minutes assumed", count(n, "game"), a.GameMinutes),
			Remedy: "give the ends, or the usual length of a game",
		})
	}
	if n := len(dates); n > 0 {
		out = append(out, Problem{
			Code: "date-only", Class: ClassQuestion, Path: path, Field: "time", Value: first(dates),
			Reason: fmt.Sprintf("%s without a time: %s to %s of the date kept free", count(n, "game"), a.DateOnlyFrom, a.DateOnlyTo),
			Remedy: "give the times when they are fixed",
		})
	}
	if n := len(exams); n > 0 {
		out = append(out, Problem{
			Code: "exam-date-only", Class: ClassQuestion, Path: path, Field: "time", Value: first(exams),
			Reason: fmt.Sprintf("%s without a time: %s to %s of the date assumed", count(n, "exam"), a.ExamFrom, a.ExamTo),
			Remedy: "give the times",
		})
	}
	return out
}

// first returns the smallest id, and says if there are more.
func first(ids []string) string {
	low := ids[0]
	for _, id := range ids {
		low = min(low, id)
	}
	if len(ids) > 1 {
		return fmt.Sprintf("%s and %d more", low, len(ids)-1)
	}
	return low
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

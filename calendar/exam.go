package calendar

// MaxExamDates is how many dates an exam may have for [SplitExam] to split it.
const MaxExamDates = 62

// SplitExam makes of a date-only exam of several dates one exam of each date, so
// that each has its exam hours and the rest of the date stays open. The first
// keeps the id, the others have their date behind it. Any other event, and an exam
// of more than [MaxExamDates] dates, comes back alone and unchanged.
func SplitExam(e Event) []Event {
	n := e.End.Date.DaysSince(e.Start.Date)
	if e.Kind != Exam || !e.DateOnly || !e.HasEnd || n < 2 || n > MaxExamDates {
		return []Event{e}
	}
	if e.ID == "" {
		e.ID = e.ContentID()
	}
	out := make([]Event, n)
	for i := range out {
		x := e
		x.Start.Date = e.Start.Date.AddDays(i)
		x.End, x.HasEnd = Wall{}, false
		if i > 0 {
			x.ID += "-" + x.Start.Date.String()
		}
		out[i] = x
	}
	return out
}

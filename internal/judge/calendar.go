package judge

import "time"

// weekday returns the weekday of a date, 0 = Sunday.
func weekday(date int) int {
	// 1970-01-01 was a Thursday.
	return ((date+4)%7 + 7) % 7
}

// weekStart returns the first date of the club week that holds the date.
func (s *season) weekStart(date int) int {
	return date - (weekday(date)-s.FirstWeekday+7)%7
}

// wholeWeeks returns the first dates of the club weeks inside the period.
func (s *season) wholeWeeks() []int {
	var weeks []int
	first := s.weekStart(s.From + 6)
	for w := first; w+6 <= s.To; w += 7 {
		weeks = append(weeks, w)
	}
	return weeks
}

// age returns full years on a date, born on the last day of the birth month:
// the most protective reading of a birth month.
func (s *season) age(date int) int {
	a := s.Athlete
	if !a.AgeKnown {
		return s.p.AssumedAge
	}
	year, month, day := time.Unix(int64(date)*86400, 0).UTC().Date()
	years := year - a.BornYear
	if int(month) < a.BornMonth || int(month) == a.BornMonth && day < lastDay(a.BornYear, a.BornMonth) {
		years--
	}
	return years
}

func lastDay(year, month int) int {
	switch month {
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

func (s *season) minor(date int) bool { return s.age(date) < s.p.AdultAge }

// trainingMonths is zero where it, or the age, is unknown.
func (s *season) trainingMonths() int {
	if !s.Athlete.AgeKnown {
		return 0
	}
	return max(s.Athlete.TrainingAgeMonths, 0)
}

// restricted says whether the athlete counts as a beginner or a child.
func (s *season) restricted(date int) bool {
	return s.trainingMonths() < s.p.BeginnerMonths || s.age(date) < s.p.BeginnerAge
}

package demo

import "example.org/weft/calendar"

// game is a line of the invented fixture list.
type game struct {
	id, date, time string // no time: not fixed yet
	minutes        int    // 0: its end is not given
	at, opponent   string
	competition    string
	road           int    // minutes by bus, one way
	zone           string // "" is the club's
	importance     calendar.Importance
	status         calendar.Status
}

const (
	h = calendar.AtHome
	a = calendar.AtAway

	high   = calendar.Important
	maybe  = calendar.Provisional
	ifNeed = calendar.IfNecessary
	off    = calendar.Postponed
)

var games = []game{
	{id: "g01", date: "2026-09-05", time: "15:40", minutes: 95, at: h, opponent: "Tornby"},
	{id: "g02", date: "2026-09-12", time: "14:10", minutes: 95, at: a, opponent: "Kragholm", road: 70},
	{id: "g03", date: "2026-09-19", time: "15:40", minutes: 95, at: h, opponent: "Dunmose"},
	{id: "g04", date: "2026-09-23", time: "19:15", minutes: 95, at: a, opponent: "Brakhavn", competition: "cup", road: 55},
	{id: "g05", date: "2026-09-26", time: "16:00", minutes: 95, at: a, opponent: "Hessel Strand", road: 130},
	{id: "g06", date: "2026-09-29", time: "19:30", minutes: 95, at: h, opponent: "Lyngmose"},
	{id: "g07", date: "2026-10-03", time: "15:40", minutes: 95, at: h, opponent: "Skarby Nord"},
	{id: "g08", date: "2026-10-10", time: "17:15", minutes: 95, at: a, opponent: "Solager", road: 185},
	{id: "g09", date: "2026-10-17", time: "19:30", minutes: 95, at: h, opponent: "Vestbjerg"},
	{id: "g10", date: "2026-10-18", time: "15:00", minutes: 95, at: a, opponent: "Tornby", road: 40},
	{id: "g11", date: "2026-10-25", time: "14:00", minutes: 95, at: h, opponent: "Kragholm"},
	{id: "g12", date: "2026-10-31", time: "15:40", minutes: 95, at: h, opponent: "Brakhavn", status: off},
	{id: "g13", date: "2026-11-04", time: "19:15", minutes: 110, at: h, opponent: "Skarby Nord", competition: "cup", importance: high},
	{id: "g14", date: "2026-11-08", time: "16:20", minutes: 95, at: a, opponent: "Dunmose", road: 80},
	{id: "g15", date: "2026-11-13", time: "22:15", minutes: 110, at: h, opponent: "Hessel Strand", competition: "night game"},
	{id: "g16", date: "2026-11-21", time: "18:00", minutes: 95, at: a, opponent: "Hraunvik", competition: "northern cup", zone: "Atlantic/Reykjavik"},
	{id: "g17", date: "2026-11-28", time: "17:00", minutes: 95, at: h, opponent: "Hraunvik", competition: "northern cup", importance: high},
	{id: "g18", date: "2026-12-02", time: "18:45", minutes: 95, at: h, opponent: "Solager"},
	{id: "g19", date: "2026-12-05", time: "15:40", minutes: 95, at: a, opponent: "Lyngmose", road: 65},
	{id: "g12b", date: "2026-12-08", time: "19:30", minutes: 95, at: h, opponent: "Brakhavn"},
	{id: "g20", date: "2026-12-12", time: "15:40", minutes: 95, at: h, opponent: "Skarby Nord"},
	{id: "g21", date: "2026-12-18", time: "20:15", minutes: 95, at: a, opponent: "Vestbjerg", road: 100},
	{id: "g22", date: "2027-01-09", time: "13:30", minutes: 75, at: h, opponent: "Kragholm", competition: "friendly", importance: calendar.Normal},
	{id: "g23", date: "2027-01-17", time: "15:00", minutes: 95, at: a, opponent: "Brakhavn", road: 55},
	{id: "g24", date: "2027-01-23", time: "15:40", minutes: 95, at: h, opponent: "Tornby"},
	{id: "g25", date: "2027-01-30", time: "13:30", minutes: 95, at: a, opponent: "Kragholm", road: 70},
	{id: "g26", date: "2027-02-03", time: "19:15", minutes: 110, at: h, opponent: "Lyngmose", competition: "cup", importance: high},
	{id: "g27", date: "2027-02-07", time: "16:20", minutes: 95, at: h, opponent: "Dunmose"},
	{id: "g28", date: "2027-02-13", time: "15:40", minutes: 95, at: a, opponent: "Hessel Strand", road: 130},
	{id: "g29", date: "2027-02-21", time: "15:00", minutes: 95, at: h, opponent: "Lyngmose"},
	{id: "g30", date: "2027-02-24", at: a, opponent: "Solager", competition: "cup"},
	{id: "g31", date: "2027-02-27", time: "15:40", at: h, opponent: "Vestbjerg"},
	{id: "g32", date: "2027-03-06", time: "17:15", minutes: 95, at: a, opponent: "Solager", road: 185},
	{id: "g33", date: "2027-03-14", time: "15:40", minutes: 95, at: h, opponent: "Brakhavn"},
	{id: "g34", date: "2027-03-20", time: "15:40", minutes: 95, at: a, opponent: "Skarby Nord", road: 45},
	{id: "g35", date: "2027-03-27", time: "18:00", minutes: 95, at: h, opponent: "Tornby"},
	{id: "g36", date: "2027-03-28", time: "13:00", minutes: 95, at: a, opponent: "Dunmose", road: 80},
	{id: "g37", date: "2027-04-03", time: "15:40", minutes: 95, at: a, opponent: "Lyngmose", road: 65},
	{id: "g38", date: "2027-04-10", time: "15:40", minutes: 95, at: h, opponent: "Hessel Strand", importance: high},
	{id: "q1", date: "2027-04-17", time: "15:40", minutes: 110, at: h, opponent: "Vestbjerg", competition: "quarter-final", importance: high},
	{id: "q2", date: "2027-04-20", time: "19:30", minutes: 110, at: a, opponent: "Vestbjerg", competition: "quarter-final", importance: high, road: 100},
	{id: "q3", date: "2027-04-22", time: "19:30", minutes: 110, at: h, opponent: "Vestbjerg", competition: "quarter-final", importance: high, status: ifNeed},
	{id: "s1", date: "2027-04-25", time: "16:00", minutes: 110, at: h, opponent: "semi-finalist", competition: "semi-final", importance: high, status: maybe},
	{id: "s2", date: "2027-04-28", time: "19:30", minutes: 110, at: a, opponent: "semi-finalist", competition: "semi-final", importance: high, status: maybe},
	{id: "s3", date: "2027-05-01", time: "16:00", minutes: 110, at: h, opponent: "semi-finalist", competition: "semi-final", importance: high, status: ifNeed},
	{id: "f1", date: "2027-05-08", time: "16:00", minutes: 110, at: h, opponent: "finalist", competition: "final", importance: high, status: maybe},
	{id: "f2", date: "2027-05-13", time: "19:30", minutes: 110, at: a, opponent: "finalist", competition: "final", importance: high, status: maybe},
	{id: "f3", date: "2027-05-16", time: "15:00", minutes: 110, at: h, opponent: "finalist", competition: "final", importance: high, status: ifNeed},
}

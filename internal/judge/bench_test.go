package judge

import "testing"

// fullSeason is 300 dates with 90 games, 200 practices and 250 sessions.
func fullSeason(items ...any) Input {
	in := with(items...)
	in.To = in.From + 299
	in.AthleteOpen, in.PlaceOpen = nil, [][]Span{nil, nil}
	for d := range 300 {
		hours := Span{instant(d, 6, 0), instant(d, 22, 0)}
		in.AthleteOpen = append(in.AthleteOpen, hours)
		for i := range in.PlaceOpen {
			in.PlaceOpen[i] = append(in.PlaceOpen[i], hours)
		}
		switch {
		case d%10 == 2 || d%10 == 5 || d%10 == 8:
			e := game(d, 18, 30)
			e.Important = d%7 == 0
			in.Events = append(in.Events, e)
		case d%18 != 0:
			e := ev(Practice, d, 18, 30, 90)
			e.Hard = d%4 == 0
			in.Events = append(in.Events, e)
		}
		if d%6 != 0 {
			kind := []Kind{FullBody, Recovery, Primer, Trimmed, Recovery}[d%5]
			in.Sessions = append(in.Sessions, ses(kind, d, 16, 30, 45))
		}
	}
	return in
}

func TestFullSeasonIsOfTheStatedSize(t *testing.T) {
	in := fullSeason()
	games, practices := 0, 0
	for _, e := range in.Events {
		if e.Kind == Game {
			games++
		} else {
			practices++
		}
	}
	if games != 90 || practices != 200 || len(in.Sessions) != 250 {
		t.Errorf("%d games, %d practices, %d sessions", games, practices, len(in.Sessions))
	}
}

func BenchmarkJudge(b *testing.B) {
	for _, c := range []struct {
		name string
		in   Input
	}{
		{"season of an adult", fullSeason()},
		{"season of a minor", fullSeason(born(15))},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				if _, err := Judge(c.in, Default()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

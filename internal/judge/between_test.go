package judge

import (
	"slices"
	"testing"
)

// Between-games relaxed allows longer recovery and takes nothing away that close
// games allow; tightened it forbids and allows nothing more.
func TestBetweenGamesChanged(t *testing.T) {
	for _, c := range []struct {
		name    string
		hours   int64
		apart   int // hours from the end of the first game at 20:00 to the second
		session Session
		want    []string
	}{
		{"as it is", 24, 18, ses(Recovery, 10, 11, 0, 30), nil},
		{"as it is, long", 24, 18, ses(Recovery, 10, 11, 0, 31), []string{BetweenGames, GameDate, SessionLength}},
		{"relaxed, short", 16, 18, ses(Recovery, 10, 11, 0, 20), nil},
		{"relaxed, too short", 16, 18, ses(Recovery, 10, 11, 0, 19), []string{SessionLength}},
		{"relaxed, long before the game of its date", 16, 18, ses(Recovery, 10, 11, 0, 31), []string{GameDate}},
		{"relaxed, long on the evening before", 16, 23, ses(Recovery, 9, 20, 20, 45), nil},
		{"relaxed, too long", 16, 23, ses(Recovery, 9, 20, 20, 46), []string{SessionLength}},
		{"tightened", 30, 26, ses(Recovery, 10, 11, 0, 30), []string{GameDate}},
		{"tightened, short on the evening before", 30, 26, ses(Recovery, 9, 20, 20, 30), nil},
		{"tightened, shorter than ever", 30, 26, ses(Recovery, 9, 20, 20, 29), []string{SessionLength}},
		{"tightened, long", 30, 26, ses(Recovery, 9, 20, 20, 31), []string{BetweenGames, SessionLength}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := Default()
			p.BetweenGames = c.hours * 60
			v, err := Judge(with(game(9, 18, 0), ev(Game, 9+(20+c.apart)/24, (20+c.apart)%24, 0, 90), c.session), p)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, b := range v.Illegal {
				got = append(got, b.Rule)
			}
			slices.Sort(got)
			if !slices.Equal(got, c.want) {
				t.Errorf("breaks %v, want %v", got, c.want)
			}
		})
	}
}

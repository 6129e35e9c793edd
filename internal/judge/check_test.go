package judge

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestCheck(t *testing.T) {
	bad := ses(FullBody, 3, 17, 0, 45)
	bad.Kind, bad.End = 6, bad.Start
	event := ev(Game, 3, 17, 0, 45)
	event.Kind, event.End, event.EndClock = 7, event.Start-1, MaxClock+1
	for _, c := range []struct {
		name string
		edit func(*Input, *Parameters)
		want []string // paths
	}{
		{"good", func(*Input, *Parameters) {}, nil},
		{"zero-length event", func(in *Input, _ *Parameters) { in.Events = []Event{ev(Busy, 3, 17, 0, 0)} }, nil},
		{"longest period", func(in *Input, _ *Parameters) { in.To = in.From + MaxDates - 1 }, nil},
		{"period too long", func(in *Input, _ *Parameters) { in.To = in.From + MaxDates }, []string{"To"}},
		{"period backwards", func(in *Input, _ *Parameters) { in.To = in.From - 1 }, []string{"To"}},
		{"period without end", func(in *Input, _ *Parameters) { in.From, in.To = math.MinInt, math.MaxInt }, []string{"From", "To"}},
		{"weekday", func(in *Input, _ *Parameters) { in.FirstWeekday = 7 }, []string{"FirstWeekday"}},
		{"athlete", func(in *Input, _ *Parameters) {
			in.Athlete.BornMonth, in.Athlete.BornYear, in.Athlete.TrainingAgeMonths = 13, 0, -2
			in.Athlete.Holds = []DateSpan{{5, 4, false}, {5, 4, true}}
		}, []string{"Athlete.BornYear", "Athlete.BornMonth", "Athlete.TrainingAgeMonths", "Athlete.Holds[0].To"}},
		{"birth is not read where the age is unknown", func(in *Input, _ *Parameters) {
			in.Athlete = Athlete{BornMonth: 13}
		}, nil},
		{"all at once", func(in *Input, _ *Parameters) {
			in.Events = []Event{event}
			in.Sessions = []Session{ses(Trimmed, 1, 17, 0, 45), bad}
			in.AthleteOpen = []Span{{3, 2}}
			in.PlaceOpen = [][]Span{nil, {{0, 9}, {far, maxInstant + 1}}}
			in.PreferredStart = []int{-1, MaxClock + 1}
		}, []string{
			"Events[0].Kind", "Events[0].End", "Events[0].EndClock", "Sessions[1].Kind", "Sessions[1].End",
			"AthleteOpen[0].End", "PlaceOpen[1][1].End", "PreferredStart[1]",
		}},
		{"issued", func(in *Input, _ *Parameters) {
			in.HasIssued, in.Issued, in.Now = true, []Session{bad}, math.MaxInt64
		}, []string{"Issued[0].Kind", "Issued[0].End", "Now"}},
		{"issued is not read", func(in *Input, _ *Parameters) { in.Issued = []Session{bad} }, nil},
		{"counts come alone", func(in *Input, _ *Parameters) {
			in.FirstWeekday = 7
			in.Events = make([]Event, MaxEvents+1)
			in.Sessions = make([]Session, MaxSessions+1)
			in.PlaceOpen = make([][]Span, MaxSpans+1)
		}, []string{"len(Events)", "len(Sessions)", "len(PlaceOpen)"}},
		{"unknown rule", func(_ *Input, p *Parameters) { p.Disabled = []string{Sleep, "slepe"} }, []string{"Parameters.Disabled[1]"}},
		{"points", func(_ *Input, p *Parameters) {
			p.Points[EmptyRun] = -1
			delete(p.Points, Size)
			p.Points["zzz"], p.Points["aaa"] = 1, 1
		}, []string{"Parameters.Points[empty-run]", "Parameters.Points[size]", "Parameters.Points[aaa]", "Parameters.Points[zzz]"}},
		{"load without blocks", func(_ *Input, p *Parameters) {
			p.LoadBlock, p.Points[WeekLoad], p.Rating[Primer] = 0, 1, 11
		}, []string{"Parameters.LoadBlock", "Parameters.Rating[2]"}},
		{"longest session", func(in *Input, _ *Parameters) {
			in.Sessions = []Session{ses(Recovery, 3, 9, 0, MaxLength), ses(Recovery, 3, 9, 0, MaxLength+1)}
		}, []string{"Sessions[1].End"}},
		{"numbers", func(_ *Input, p *Parameters) {
			p.Sleep, p.Length[Primer].Max, p.BufferAfter[Exam], p.Lifts = -1, MaxNumber+1, -1, -1
		}, []string{"Parameters.BufferAfter[4]", "Parameters.Length[2].Max", "Parameters.Sleep", "Parameters.Lifts"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			in, p := with(), Default()
			c.edit(&in, &p)
			var got []string
			for _, problem := range Check(in, p) {
				got = append(got, problem.Path)
				if problem.Value == "" || problem.Reason == "" || problem.Remedy == "" {
					t.Errorf("%+v", problem)
				}
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
			v, err := Judge(in, p)
			var bad *InputError
			if errors.As(err, &bad) != (len(c.want) > 0) {
				t.Errorf("error %v", err)
			}
			if err != nil && (len(bad.Problems) != len(c.want) || !strings.Contains(err.Error(), c.want[0]) || len(v.ByRule) > 0) {
				t.Errorf("error %v, verdict %+v", err, v)
			}
		})
	}
}

func TestZeroParametersAreRefused(t *testing.T) {
	if _, err := Judge(with(), Parameters{}); err == nil {
		t.Error("no error for parameters without points")
	}
}

func TestIds(t *testing.T) {
	all := append(Limits(), Aims()...)
	if len(Limits()) != 27 || len(Aims()) != 22 {
		t.Errorf("%d limits, %d aims", len(Limits()), len(Aims()))
	}
	slices.Sort(all)
	if len(slices.Compact(slices.Clone(all))) != len(all) {
		t.Errorf("an id twice: %v", all)
	}
}

package judge

import (
	"encoding/binary"
	"reflect"
	"testing"
)

// tape reads rows from fuzz data; an exhausted tape reads zeros.
type tape struct{ data []byte }

func (t *tape) byte() byte {
	if len(t.data) == 0 {
		return 0
	}
	b := t.data[0]
	t.data = t.data[1:]
	return b
}

// int reads a small number, or now and then any.
func (t *tape) int() int64 {
	switch b := t.byte(); {
	case b == 255 && len(t.data) >= 8:
		v := int64(binary.LittleEndian.Uint64(t.data))
		t.data = t.data[8:]
		return v
	default:
		return int64(int8(b))
	}
}

func (t *tape) session() Session {
	day, minute := t.int(), t.int()*20
	s := Session{Kind: Kind(t.byte() % 7), Place: int(t.int()), Forced: t.byte()%2 == 0}
	s.Date, s.StartClock = int(day), int(minute)
	s.Start = day*1440 + minute
	length := t.int()
	s.End, s.EndClock = s.Start+length, s.StartClock+int(length)
	return s
}

func (t *tape) event() Event {
	s := t.session()
	flags := t.byte()
	return Event{
		Kind: EventKind(t.byte() % 8), Start: s.Start, End: s.End, Date: s.Date + int(t.byte()%2),
		StartClock: s.StartClock, EndClock: s.EndClock,
		Important: flags&1 > 0, Hard: flags&2 > 0, LongHaul: flags&4 > 0, DateOnly: flags&8 > 0,
	}
}

func (t *tape) input() Input {
	in := Input{From: int(t.int()), FirstWeekday: int(t.byte() % 8)}
	in.To = in.From + int(t.int())
	in.Athlete = Athlete{
		BornYear: 1950 + int(t.int()), BornMonth: int(t.byte() % 14), AgeKnown: t.byte()%4 > 0,
		TrainingAgeMonths: int(t.int()), PostGame: t.byte()%2 == 0,
	}
	in.HasIssued, in.Now = t.byte()%2 == 0, t.int()*1440
	in.AthleteOpen = []Span{{t.int() * 1440, t.int() * 1440}}
	in.PlaceOpen = [][]Span{{{t.int() * 1440, t.int() * 1440}}, nil}
	in.PreferredStart = []int{int(t.int())}
	in.Athlete.Holds = []DateSpan{{int(t.int()), int(t.int()), t.byte()%2 == 0}}
	for range t.byte() {
		in.Events = append(in.Events, t.event())
	}
	for len(t.data) > 0 {
		in.Sessions = append(in.Sessions, t.session())
		if t.byte()%4 == 0 {
			in.Issued = append(in.Issued, t.session())
		}
	}
	return in
}

func FuzzJudge(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{0, 1, 28, 50, 3, 1, 40, 0, 0, 0, 156, 100, 156, 100, 40, 0, 5, 0, 2,
		3, 54, 0, 0, 0, 120, 1, 0, 0, 9, 54, 0, 0, 0, 120, 0, 1, 0,
		5, 54, 0, 0, 1, 45, 1, 7, 51, 1, 0, 0, 45, 0, 7, 51, 3, 0, 0, 30})
	f.Add([]byte{255, 0, 0, 0, 0, 0, 0, 0, 128, 1, 255, 255, 255, 255, 255, 255, 255, 255, 127})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 4096 {
			return
		}
		in := (&tape{data}).input()
		v, err := Judge(in, Default())
		if err != nil {
			if len(Check(in, Default())) == 0 {
				t.Fatalf("refused without a problem: %v", err)
			}
			return
		}
		again, err := Judge(in, Default())
		if err != nil || !reflect.DeepEqual(v, again) {
			t.Fatal("two verdicts on one input")
		}
		addsUp(t, in, v)
	})
}

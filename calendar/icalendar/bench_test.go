package icalendar

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"testing"

	"example.org/weft/calendar"
)

// bigCalendar makes a calendar of n invented events, about 340 bytes each.
func bigCalendar(n int) []byte {
	var b bytes.Buffer
	b.WriteString("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//invented//test//EN\r\n")
	day := dayNumber(2026, 1, 1)
	for i := 0; i < n; i++ {
		d := dateText(calendar.DateFromDayNumber(day + i%365))
		fmt.Fprintf(&b, "BEGIN:VEVENT\r\nUID:fixture-%d@example.org\r\nDTSTAMP:20260921T141320Z\r\nDTSTART;TZID=Europe/Berlin:%sT1%d0000\r\nDTEND;TZID=Europe/Berlin:%sT1%d4500\r\nSEQUENCE:%d\r\n", i, d, i%6, d, i%6+2, i%3)
		fmt.Fprintf(&b, "SUMMARY:Invented team %d against invented team %d\r\nLOCATION:Sports hall %d\\, somewhere\r\nDESCRIPTION:Meet an hour before at the side door. Bring both shirts.\\nAn\r\n  d water.\r\nX-INVENTED-ID:%d\r\nEND:VEVENT\r\n", i%40, i%37, i%12, i)
	}
	b.WriteString("END:VCALENDAR\r\n")
	return b.Bytes()
}

func benchmarkRead(b *testing.B, n int) {
	data := bigCalendar(n)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		res, ps, err := Read(bytes.NewReader(data), "big.ics", Options{})
		if err != nil || len(ps) > 0 || len(res.Events) != n {
			b.Fatal(err, ps, len(res.Events))
		}
		if i == 0 {
			var m runtime.MemStats
			b.StopTimer()
			runtime.GC()
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.HeapAlloc-uint64(len(data)))/float64(n), "kept-B/event")
			runtime.KeepAlive(res)
			b.StartTimer()
		}
	}
}

func BenchmarkRead(b *testing.B) {
	b.Run("season", func(b *testing.B) { benchmarkRead(b, 100) })
	b.Run("league", func(b *testing.B) { benchmarkRead(b, 10_000) })
	b.Run("largest", func(b *testing.B) { benchmarkRead(b, 150_000) })
}

func BenchmarkWrite(b *testing.B) {
	res, _, err := Read(bytes.NewReader(bigCalendar(10_000)), "big.ics", Options{})
	if err != nil {
		b.Fatal(err)
	}
	var c Calendar
	for _, e := range res.Events {
		c.Entries = append(c.Entries, EntryOf(e, stamp))
	}
	b.ReportAllocs()
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		if err := Write(io.Discard, c); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRule(b *testing.B) {
	from := int64(dayNumber(2026, 1, 1)) * daySeconds
	for _, text := range []string{"FREQ=WEEKLY;BYDAY=TU,TH", "FREQ=MONTHLY;BYDAY=-1SU", "FREQ=YEARLY;BYDAY=20MO"} {
		b.Run(text, func(b *testing.B) {
			for i := 0; i < b.N; i++ {
				r, err := parseRule(text)
				if err != nil {
					b.Fatal(err)
				}
				m := meter{limit: 1_000_000}
				if _, err := r.expand(from-10*365*daySeconds, false, from, from+365*daySeconds, nil, &m, func(int64) bool { return true }); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

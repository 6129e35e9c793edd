package load_test

import (
	"testing"

	"example.org/weft/load"
)

// A day's update of everything a tracker keeps.
func BenchmarkTrackerDay(b *testing.B) {
	tracker, err := load.NewTracker(load.TrackerOptions{AcuteChronic: true, Impulse: load.DefaultImpulseModel()})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for i := range b.N {
		tracker.Add(load.Known(load.AU(i % 7 * 100)))
		if _, ok := tracker.Week(); !ok && i > 6 {
			b.Fatal("undefined")
		}
		tracker.Coupled()
		tracker.Uncoupled()
		tracker.Exponential()
		tracker.Impulse()
	}
}

// Ten seasons of 365 daily values for 1,000 athletes, every series read daily.
func BenchmarkTenSeasonsOf1000Athletes(b *testing.B) {
	const athletes, days = 1000, 3650
	b.ReportAllocs()
	for range b.N {
		strain := load.AU(0)
		for a := range athletes {
			tracker, err := load.NewTracker(load.TrackerOptions{AcuteChronic: true, Impulse: load.DefaultImpulseModel()})
			if err != nil {
				b.Fatal(err)
			}
			for d := range days {
				tracker.Add(load.Known(load.AU((a + d*d) % 700)))
				if w, ok := tracker.Week(); ok {
					s, _ := w.Strain()
					strain = max(strain, s)
				}
				tracker.Coupled()
				tracker.Uncoupled()
				tracker.Exponential()
				tracker.Impulse()
			}
		}
		if strain == 0 {
			b.Fatal("no strain at all")
		}
	}
	b.ReportMetric(float64(b.N)*athletes*days/b.Elapsed().Seconds(), "days/s")
}

func BenchmarkOneRepMax(b *testing.B) {
	for _, c := range load.Curves() {
		b.Run(c.String(), func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				c.OneRepMaxAt(100*load.Kilogram, 5, 8)
			}
		})
	}
}

func BenchmarkNewRack(b *testing.B) {
	for name, discs := range map[string][]load.Disc{
		"competition": load.IWFDiscs(),
		"mixed with pounds": append(load.IWFDiscs(),
			load.Disc{Mass: 20_412, Pairs: 4}, load.Disc{Mass: 4536, Pairs: 4}, load.Disc{Mass: 1134, Pairs: 4}),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				if _, err := load.NewRack(load.MensBar, discs); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkRackAtMost(b *testing.B) {
	rack, err := load.NewRack(load.MensBar, load.IWFDiscs())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for i := range b.N {
		rack.AtMost(load.Mass(20_000 + i%200_000))
	}
}

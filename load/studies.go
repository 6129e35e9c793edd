package load

import "time"

// Topic is what a study is about.
type Topic uint8

// The topics.
const (
	Detraining   Topic = iota // what is lost without training
	Maintenance               // the least that keeps strength
	AfterLifting              // recovery from strength work
	AfterGames                // recovery from games
	Priming                   // training shortly before a game
	MicroDosing               // the same total in shorter bouts
	Injuries                  // documentation only
	Reliability               // how well tests repeat
	YouthSafety               // resistance training of the young
)

// topics is how many there are.
const topics = 9

// Topics lists them.
func Topics() []Topic {
	all := make([]Topic, topics)
	for i := range all {
		all[i] = Topic(i)
	}
	return all
}

// Study is one published result, for documentation and for text beside a plan.
// It is a result of a group: nothing in this package turns one into a promise
// or a risk of one athlete.
type Study struct {
	Topic    Topic   `json:"topic"`
	Result   string  `json:"result"`  // in our own words
	Measure  string  `json:"measure"` // what Value is, with its unit; empty if there is no number
	Value    float64 `json:"value"`
	Low      float64 `json:"low"` // of the interval, where Interval is true
	High     float64 `json:"high"`
	Interval bool    `json:"interval"`
	Source   string  `json:"source"`
	Traced   string  `json:"traced"` // "seen", "via secondary text", "from memory"
}

const (
	seen   = "seen"
	memory = "from memory"
)

func result(t Topic, text, source, traced string) Study {
	return Study{Topic: t, Result: text, Source: source, Traced: traced}
}

func (s Study) number(measure string, value float64) Study {
	s.Measure, s.Value = measure, value
	return s
}

func (s Study) between(low, high float64) Study {
	s.Low, s.High, s.Interval = low, high, true
	return s
}

// Studies lists the results of a topic, in a fixed order; none for an unknown
// topic. Injury results are documentation only.
func Studies(t Topic) []Study {
	switch t {
	case Detraining:
		const bosquet = "Bosquet et al. 2013, SJMSS 23:e140-149"
		return []Study{
			result(t, "maximal force falls when training stops", bosquet, seen).number("standardised mean difference", -0.46).between(-0.54, -0.37),
			result(t, "maximal power falls less", bosquet, seen).number("standardised mean difference", -0.20),
			result(t, "strength is kept for up to about four weeks", "Mujika and Padilla 2000, 2001", seen).number("weeks", 4),
			result(t, "strength is kept for up to three weeks in contact sports", "McMaster et al. 2013, Sports Med 43:367-384", memory).number("weeks", 3),
		}
	case Maintenance:
		const (
			ronnestad = "Ronnestad et al. 2011, JSCR 25:2653-2660"
			graves    = "Graves et al. 1988, IJSM 9:316-319"
			spiering  = "Spiering et al. 2021, JSCR 35:1449-1458"
		)
		return []Study{
			result(t, "in season, one session a week kept strength and 40 m sprint for twelve weeks", ronnestad, seen).number("sessions a week", 1),
			result(t, "in season, one session every two weeks lost both", ronnestad, seen).number("sessions a week", 0.5),
			result(t, "one or two days a week kept the gain", graves, seen).number("days a week", 1).between(1, 2),
			result(t, "without training, most of the gain was lost", graves, seen).number("percent of the gain", 68),
			result(t, "one session a week and one set an exercise keep strength if the relative load is kept; few data for athletes", spiering, seen).number("sessions a week", 1),
			result(t, "a small part of the volume keeps strength in young adults", "Bickel et al. 2011, MSSE 43:1177-1187", seen),
		}
	case AfterLifting:
		const (
			thomas  = "Thomas et al. 2018, MSSE 50:2526-2535"
			helland = "Helland et al. 2020, PeerJ 8:e10044"
		)
		return []Study{
			result(t, "jumps are back", thomas, seen).number("hours", 48),
			result(t, "strength and sprints are back", thomas, seen).number("hours", 72),
			result(t, "after five-repetition-maximum work the jump is back", helland, seen).number("hours", 48).between(24, 48),
			result(t, "after five-repetition-maximum work peak force is not yet back", helland, seen).number("hours", 48),
		}
	case AfterGames:
		const (
			mclean = "McLean et al. 2010, IJSPP 5:367-383"
			west   = "West et al. 2014, JSCR 28:194-200"
		)
		return []Study{
			result(t, "jumps and perceived freshness are lower for up to", mclean, seen).number("hours", 48),
			result(t, "both are back", mclean, seen).number("days", 4),
			result(t, "jump power 12 h after the game", west, seen).number("percent", -6.9),
			result(t, "jump power 36 h after the game", west, seen).number("percent", -5.6),
			result(t, "jump power is back", west, seen).number("hours", 60),
			result(t, "matches less far apart than this are congested", "Julian et al. 2021, Sports Med 51:255-273", seen).number("hours", 96),
		}
	case Priming:
		return []Study{
			result(t, "heavy or ballistic work of low volume helps later", "Harrison et al. 2019, Sports Med 49:1501-1514", seen).number("hours", 48).between(1, 48),
			result(t, "a morning session helped in the afternoon", "Cook et al. 2014, JSAMS 17:317-321", seen).number("hours", 6),
			result(t, "some trials found nothing: it is individual", "Holmberg et al. 2022, SCJ 44:188-206", seen),
		}
	case MicroDosing:
		return []Study{
			result(t, "the same weekly total in more and shorter bouts", "Cuthbert et al. 2024, SCJ 46:180-201", seen),
		}
	case Injuries:
		const (
			lauersen14 = "Lauersen et al. 2014, BJSM 48:871-877"
			tyler01    = "Tyler et al. 2001, AJSM 29:124-128"
			tyler02    = "Tyler et al. 2002, AJSM 30:680-683"
		)
		return []Study{
			result(t, "strength training and injuries, across trials", lauersen14, seen).number("risk ratio", 0.315).between(0.207, 0.480),
			result(t, "exercise programmes and overuse injuries, across trials", lauersen14, seen).number("risk ratio", 0.527).between(0.373, 0.746),
			result(t, "strength training and injuries, across trials", "Lauersen et al. 2018, BJSM 52:1557-1563", seen).number("risk ratio", 0.338).between(0.238, 0.480),
			result(t, "an adductor programme and groin problems", "Haroy et al. 2019, BJSM", seen).number("odds ratio", 0.59).between(0.40, 0.86),
			result(t, "the Nordic hamstring exercise and hamstring injuries", "van Dyk et al. 2019, BJSM 53:1362-1370", seen).number("risk ratio", 0.49).between(0.32, 0.74),
			result(t, "players with adduction under 80 % of abduction had more adductor strains", tyler01, seen).number("times as many", 17),
			result(t, "adductor strains before a strengthening programme", tyler02, seen).number("per 1000 exposures", 3.2),
			result(t, "adductor strains with a strengthening programme", tyler02, seen).number("per 1000 exposures", 0.71),
		}
	case Reliability:
		return []Study{
			result(t, "a one-repetition maximum repeats", "Grgic et al. 2020", seen).number("coefficient of variation, percent, median", 4.2).between(0.5, 12.1),
			result(t, "jump heights and sprints over 10 and 20 m repeat, the best of three trials, ten active men on five days", "Moir et al. 2004, JSCR 18:276-280", seen).number("coefficient of variation, percent, highest", 2.6).between(1.9, 2.6),
			result(t, "the height of a countermovement jump repeats from one session to the next, 41 active men", "Alves Souza et al. 2020, Int J Exerc Sci 13(4):6-17", seen).number("coefficient of variation, percent", 5.8),
			result(t, "estimates from repetitions correlate with the lifted maximum, 220 men", "Mayhew et al. 1995, J Sports Med Phys Fitness 35:108-113", seen).number("correlation", 0.98).between(0.82, 0.98),
			result(t, "estimates from repetitions differ between lifts", "LeSuer et al. 1997, JSCR 11:211-213", memory),
			result(t, "raters are off near failure, 0 to 5 repetitions left", "Hackett et al. 2017", seen).number("repetitions", 1),
			result(t, "raters are off by more than this far from failure, 7 to 10 left", "Hackett et al. 2017", seen).number("repetitions", 2),
		}
	case YouthSafety:
		return []Study{
			result(t, "supervised and led by technique, resistance training is safe and effective", "Lloyd et al. 2014, BJSM 48:498-505", "via secondary text"),
			result(t, "the same, for children and adolescents in general", "AAP 2020, Pediatrics 145(6):e20201011", seen),
			result(t, "position statement on youth resistance training", "Faigenbaum et al. 2009, JSCR 23(5 Suppl):S60-S79", "seen that it exists"),
		}
	}
	return nil
}

// Congested reports whether two games follow each other in less than 96 hours;
// 96 h exactly are not. Undefined for a negative time.
//
// Source: Julian et al. 2021, Sports Med 51:255-273, seen.
func Congested(between time.Duration) (congested, ok bool) {
	if between < 0 {
		return false, false
	}
	return between < 96*time.Hour, true
}

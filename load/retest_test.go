package load_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"example.org/weft/load"
)

// The repeated maxima of Hammarstrom et al. 2020, J Physiol 598:543, as
// published in dhammarstrom/exscidata (CC0): both legs of the included
// participants, before training against the first session. The data is not part
// of this repository; OPEN_DATA names the folder that holds it.
func TestPublishedRetestOfOpenData(t *testing.T) {
	folder := os.Getenv("OPEN_DATA")
	if folder == "" {
		t.Skip("skipped: set OPEN_DATA to the folder that holds one-rep-max-retest.csv")
	}
	f, err := os.Open(filepath.Join(folder, "one-rep-max-retest.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := func(name string) int { return slices.Index(rows[0], name) }
	participant, include, time, leg, exercise, mass := column("participant"), column("include"), column("time"), column("leg"), column("exercise"), column("load")

	p := paper{"Hammarstrom et al. 2020, J Physiol 598:543, open data", derived}
	for _, want := range []struct {
		exercise string
		pairs    int
		kg, cv   string // as printed, one decimal
	}{
		{"legpress", 67, "10.5", "4.9"},
		{"legext", 68, "5.2", "8.7"},
	} {
		first, second := map[string]load.Mass{}, map[string]load.Mass{}
		for _, r := range rows[1:] {
			if r[exercise] != want.exercise || r[include] != "incl" || r[mass] == "" {
				continue
			}
			m, err := load.ParseMass(r[mass] + " kg")
			if err != nil {
				t.Fatal(err)
			}
			switch key := r[participant] + " " + r[leg]; r[time] {
			case "pre":
				first[key] = m
			case "session1":
				second[key] = m
			}
		}
		var a, b []load.Mass
		for key, m := range first {
			if again, ok := second[key]; ok {
				a, b = append(a, m), append(b, again)
			}
		}
		r, ok := load.TypicalError(a, b)
		exact(t, p, want.exercise+" pairs", r.Pairs, want.pairs)
		exact(t, p, want.exercise+" typical error, kg", strconv.FormatFloat(r.TypicalError.Kilograms(), 'f', 1, 64), want.kg)
		exact(t, p, want.exercise+" coefficient of variation, %", strconv.FormatFloat(float64(r.CV), 'f', 1, 64), want.cv)
		exact(t, p, want.exercise+" is defined", ok && r.CVDefined, true)
	}
}

package main

import (
	"strings"
	"testing"
)

// TestReportOfADay: the session that a report leads to, and the rest of the week.
func TestReportOfADay(t *testing.T) {
	in := files{
		"groin.json": `{"schema": 1, "pain": [{"region": "groin", "side": "left", "pain": 3}], "minutes": 20, "kit": ["kettlebell 16 kg"]}`,
		"ill.json":   `{"schema": 1, "ill": true}`,
		"head.json":  `{"schema": 1, "signs": ["knock to the head"]}`,
		"fine.json":  `{"schema": 1, "sleepMinutes": 460, "energy": 7}`,
	}
	out := ""
	for _, c := range []struct {
		name string
		want []string
		not  []string
	}{
		{"groin", []string{"TODAY: SWAPPED", "20 MINUTES", "physiotherapist", "IF THIS IS CONFIRMED"}, []string{"Back squat", "Sprint", "Lateral"}},
		{"ill", []string{"TODAY: HELD", "one whole date is free"}, []string{"Main lift"}},
		{"head", []string{"TODAY: HELD", "until a named clinician", "nothing is planned until the hold is cleared"}, []string{"Main lift"}},
		{"fine", []string{"TODAY: AS-WRITTEN", "stays as it is", "Main lift"}, []string{"physiotherapist"}},
	} {
		got := run(t, in, "-card", "2026-11-10", "-checkin", c.name+".json")
		if got.code != exitPlanned {
			t.Fatalf("%s: exit %d: %s", c.name, got.code, got.stderr)
		}
		for _, w := range c.want {
			if !strings.Contains(got.stdout, w) {
				t.Errorf("%s: no %q in\n%s", c.name, w, got.stdout)
			}
		}
		card := got.stdout
		if _, after, ok := strings.Cut(card, " MINUTES\n"); ok {
			card = after // before it stands what is out
		}
		for _, w := range c.not {
			if strings.Contains(card, w) {
				t.Errorf("%s: %q in\n%s", c.name, w, got.stdout)
			}
		}
		for _, l := range strings.Split(got.stdout, "\n") {
			if len([]rune(l)) > width {
				t.Errorf("%d columns: %s", len([]rune(l)), l)
			}
		}
		out += got.stdout + "\n"
	}
	golden(t, "day.text", out)
}

func TestReportsAndKitRefused(t *testing.T) {
	in := files{
		"bad.json":  `{"energy": 11, "pain": [{"region": "tail", "pain": 2}]}`,
		"sign.json": `{"energy": 11, "signs": ["fainting"]}`,
		"kit.json":  `{"bar": 20}`,
		"own.json":  `{"prehab": ["short-copenhagn"]}`,
	}
	for _, c := range []struct {
		args []string
		want []string
	}{
		{[]string{"-checkin", "bad.json"}, []string{"name it with -card"}},
		{[]string{"-kit", "kit.json"}, []string{"-kit is for -card"}},
		{[]string{"-card", "2026-11-10", "-checkin", "bad.json"}, []string{"bad.json /energy", "bad.json /pain/0/region"}},
		{[]string{"-card", "2026-11-10", "-checkin", "sign.json"}, []string{"sign.json /energy", "no session today"}},
		{[]string{"-profile", "own.json"}, []string{"-profile is for -card"}},
		{[]string{"-card", "2026-11-10", "-profile", "own.json"}, []string{"own.json /prehab/0", "did you mean short-copenhagen?"}},
		{[]string{"-card", "2026-11-10", "-kit", "kit.json"}, []string{"kit.json /bar", "a load without a unit"}},
	} {
		got := run(t, in, c.args...)
		if got.code != exitInput || got.stdout != "" {
			t.Errorf("%v: exit %d, %q", c.args, got.code, got.stdout)
		}
		for _, w := range c.want {
			if !strings.Contains(got.stderr, w) {
				t.Errorf("%v: no %q in\n%s", c.args, w, got.stderr)
			}
		}
		if strings.Contains(got.stderr, "tail") || strings.Contains(got.stderr, "11") && strings.Contains(got.stderr, `"11"`) {
			t.Errorf("%v: private values in\n%s", c.args, got.stderr)
		}
	}
}

// TestAHoldOnAFreeDate: a sign that is told on a date without a session holds all
// the same.
func TestAHoldOnAFreeDate(t *testing.T) {
	in := files{"head.json": `{"signs": ["knock to the head"]}`, "fine.json": `{"energy": 6}`}
	got := run(t, in, "-card", "2026-11-11", "-checkin", "head.json")
	if got.code != exitPlanned || !strings.Contains(got.stdout, "TODAY: HELD") || !strings.Contains(got.stdout, "nothing is planned until the hold is cleared") {
		t.Errorf("exit %d: %s\n%s", got.code, got.stderr, got.stdout)
	}
	got = run(t, in, "-card", "2026-11-11", "-checkin", "fine.json")
	if got.code != exitPlanned || !strings.Contains(got.stdout, "No session to train from") || strings.Contains(got.stdout, "TODAY") {
		t.Errorf("exit %d: %s\n%s", got.code, got.stderr, got.stdout)
	}
}

// TestProfile: the athlete's own prehab is in the warm-up, and nothing to avoid
// anywhere.
func TestProfile(t *testing.T) {
	got := run(t, files{"own.json": `{"prehab": ["neck-hold"], "avoid": ["back-squat", "hip-thrust", "bench-press"]}`}, "-card", "2026-11-10", "-profile", "own.json")
	if got.code != exitPlanned || !strings.Contains(got.stdout, "Neck holds") {
		t.Errorf("exit %d: %s\n%s", got.code, got.stderr, got.stdout)
	}
	for _, name := range []string{"Back squat", "Hip thrust", "Bench press  "} {
		if strings.Contains(got.stdout, name) {
			t.Errorf("%s on the card", name)
		}
	}
}

// TestKitOfOnesOwn: the card keeps to the kit that was named.
func TestKitOfOnesOwn(t *testing.T) {
	got := run(t, files{"kit.json": `{"kettlebells": ["16 kg"], "words": ["band", "corridor"]}`}, "-card", "2026-11-10", "-kit", "kit.json")
	if got.code != exitPlanned || strings.Contains(got.stdout, "Back squat") || !strings.Contains(got.stdout, "Main lift") {
		t.Errorf("exit %d: %s\n%s", got.code, got.stderr, got.stdout)
	}
}

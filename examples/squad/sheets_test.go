package main

import (
	"strings"
	"testing"
)

// The chart draws every slot of the hall, and each athlete hangs on the wall.
func TestSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("plans a squad several times")
	}
	hall, _ := call(t, exitDone, "-quiet", "-format", "html")
	text, _ := call(t, exitDone, "-quiet")
	slots := 0
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(line, "    ") && len(line) > 15 && line[6] == ':' && line[9] == '-' {
			slots++
		}
	}
	if n := strings.Count(hall, `class="slot"`); n != slots || n < 20 {
		t.Errorf("%d slots drawn, %d in the text", n, slots)
	}
	wall, _ := call(t, exitDone, "-quiet", "-format", "html", "-sheet", "wall")
	for _, x := range club(8).Athletes {
		if !strings.Contains(wall, x.Season.Athlete.ID) {
			t.Errorf("%s is not on the wall", x.Season.Athlete.ID)
		}
	}
	for _, page := range []string{hall, wall} {
		if !strings.Contains(page, "Invented example") {
			t.Error("it does not say that it is invented")
		}
	}
	call(t, exitInput, "-format", "html", "-sheet", "ceiling")
	call(t, exitInput, "-format", "html", "-worth")
}

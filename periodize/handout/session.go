package handout

import (
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// Session is the card to train from: the blocks of a session with sets, loads
// and what a load rests on, and empty boxes for what was done. It is the
// athlete's own and may say why it was changed; on a wall hangs a [Wall]. The
// error is a *[season.InputError] for the card of a session that the plan does
// not have.
func (b *Book) Session(c exercise.Card) (Sheet, error) {
	i := slices.IndexFunc(b.plan.Sessions, func(s season.Session) bool { return s.ID == c.Session })
	if i < 0 {
		return Sheet{}, &season.InputError{Problems: []calendar.Problem{{
			Code: "handout", Class: calendar.ClassError, Path: "card/session", Value: c.Session,
			Reason: "the plan has no session of this id", Remedy: "give a card that was made for this plan",
		}}}
	}
	s := &b.plan.Sessions[i]
	lead := facts{
		{"What", kindMeaning(c.Kind)},
		{"When", b.cardWhen(s, c.Minutes)},
		{"Next game", b.toGame(s)},
		{"Today", b.became(c)},
	}
	lead = slices.DeleteFunc(lead, func(f [2]string) bool { return f[1] == "" })
	parts := []cardPart{{page{lead}, 20 + 57*len(lead)}}
	tight := slices.Clone(parts) // the same with lower boxes
	add := func(blocks page, high, low int) {
		parts, tight = append(parts, cardPart{blocks, high}), append(tight, cardPart{blocks, low})
	}
	for _, x := range c.Blocks {
		add(page{cardBlock(x)}, cardBlock(x).high(cardRow), cardBlock(x).high(cardRowLow))
	}
	if notes := cardNotes(c); len(notes) > 0 {
		high := 125
		for _, n := range notes {
			high += 54 * (1 + len(n)/85)
		}
		add(page{heading("To know"), notes}, high, high)
	}
	add(page{afterwards{}}, 205, 205)
	class, room := "session", cardRoom[b.opt.Paper]
	pages := cardPages(parts, room)
	if one := cardPages(tight, room); len(one) == 1 && len(pages) > 1 {
		class, pages = "session close", one
	}
	key := cardKey(c)
	for i := range pages {
		pages[i] = append(pages[i], key)
	}
	return b.sheet(class, upper(say.Kind(c.Kind)), pages...), nil
}

// cardKey explains how a card is read and filled in.
func cardKey(c exercise.Card) (out keyBlock) {
	var sets, boxes, sides bool
	for _, x := range c.Blocks {
		for _, it := range x.Items {
			sets = sets || it.Exercise.Sets > 1
			boxes = boxes || !cardBlock(x).running() && cardBlock(x).boxes(it) > 0
			sides = sides || it.Exercise.Side == "each"
		}
	}
	for _, k := range []struct {
		seen          bool
		word, meaning string
	}{
		{sets, "2 x 5", "2 sets of 5, one in each round"},
		{boxes, "box", "one for each set: write what you did"},
		{sides, "each", "on both sides"},
	} {
		if k.seen {
			out = append(out, keyEntry{word: k.word, meaning: k.meaning})
		}
	}
	return out
}

// cardWhen is when and where a session is.
func (b *Book) cardWhen(s *season.Session, minutes int) string {
	t := b.sessionThere(s)
	out := say.DayYear(s.Date) + ", " + strings.TrimSpace(t.clocks()+" "+t.note()) + fmt.Sprintf(", %d min", minutes)
	if s.Place != "" {
		out += ", " + say.Clip(s.Place, 40)
	}
	return out
}

// became says what became of the card, if it is not as written.
func (b *Book) became(c exercise.Card) string {
	switch c.State {
	case season.Eased:
		return "eased: less than planned, on purpose"
	case season.Swapped:
		return "swapped: other exercises for the same movements"
	case season.Held:
		return "held: no training"
	}
	return ""
}

func cardNotes(c exercise.Card) (out list) {
	for _, n := range c.Notes {
		out = append(out, upper(n.Text)+".")
	}
	return out
}

func upper(s string) string {
	if s == "" || s[0] >= 0x80 {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// cardBlock is a block of a card with boxes for its sets.
type cardBlock exercise.Block

// dose is sets times repetitions.
func dose(x season.Exercise) string {
	if x.Sets > 1 {
		return fmt.Sprintf("%d x %s", x.Sets, x.Reps)
	}
	return x.Reps
}

// weight is what to lift: kilograms, an effort, or both.
func weight(x season.Exercise) string {
	if x.Load == nil {
		return x.Effort
	}
	out := load.Mass(x.Load.Grams).String()
	if x.Effort != "" {
		out += ", " + x.Effort
	}
	return out
}

func exerciseName(x season.Exercise) string {
	if x.Side != "" {
		return x.Name + " (" + x.Side + ")"
	}
	return x.Name
}

// running reports whether a block is written in one paragraph: a warm-up, of
// which nobody writes down sets.
func (c cardBlock) running() bool { return c.Rounds == 0 }

// boxes is how many sets are to be written down: none of the lighter ones before
// the first work set.
func (c cardBlock) boxes(it exercise.Item) int {
	if it.Slot == rampSlot {
		return 0
	}
	return min(it.Exercise.Sets, 6)
}

const rampSlot = "ramp-up" // of exercise.Item

// loaded reports whether a set has kilograms to write down.
func loaded(it exercise.Item) bool {
	x, known := exercise.Catalogue{}.Find(it.ID)
	switch x.Load {
	case exercise.Body, exercise.Band, exercise.Untracked:
		return it.Exercise.Load != nil
	}
	return known || it.Exercise.Load != nil
}

// counted is what a box asks for.
func counted(it exercise.Item) string {
	if r := it.Exercise.Reps; strings.HasSuffix(r, " s") || strings.HasSuffix(r, " min") {
		return "done"
	}
	return "reps"
}

// evidence is what the load of a work set rests on, "" where there is none.
func (c cardBlock) evidence(it exercise.Item) string {
	if x := it.Exercise; x.Load != nil && x.Evidence != nil && it.Slot != rampSlot {
		return x.Evidence.Text
	}
	return ""
}

// inline is a block in one paragraph.
func (c cardBlock) inline() string {
	var parts []string
	for _, it := range c.Items {
		s := exerciseName(it.Exercise) + " " + dose(it.Exercise)
		if w := weight(it.Exercise); w != "" {
			s += ", " + w
		}
		parts = append(parts, s)
	}
	if len(parts) == 0 {
		return "At your own pace."
	}
	return strings.Join(parts, "; ") + "."
}

func (c cardBlock) title() string {
	out := fmt.Sprintf("%s, %d min", upper(c.Name), c.Minutes)
	if c.Rounds > 1 {
		out += fmt.Sprintf(", %d rounds", c.Rounds)
	}
	return out
}

func (c cardBlock) html(m *markup) {
	m.open("section", "class", "block")
	m.el("h2", c.title())
	if c.running() {
		m.el("p", c.inline(), "class", "inline")
		m.close("section")
		return
	}
	for _, it := range c.Items {
		x := it.Exercise
		m.open("div", "class", "ex")
		m.open("p", "class", "name")
		m.el("b", exerciseName(x))
		m.close("p")
		m.el("p", dose(x), "class", "dose")
		m.el("p", weight(x), "class", "load")
		if n := c.boxes(it); n > 0 {
			setBoxes(m, n, loaded(it), counted(it))
		}
		if e := c.evidence(it); e != "" {
			m.el("p", e, "class", "why")
		}
		m.close("div")
		m.line()
	}
	m.close("section")
}

// setBoxes are the empty boxes of an exercise.
func setBoxes(m *markup, n int, loaded bool, what string) {
	m.open("p", "class", "boxes", "aria-hidden", "true")
	for i := range n {
		m.open("span", "class", "setbox")
		m.el("i", itoa(i+1))
		if loaded {
			m.el("i", "kg")
		}
		m.el("i", what)
		m.close("span")
	}
	m.close("p")
}

func (c cardBlock) text(l *say.Page) {
	l.Line("")
	l.Line(c.title())
	if c.running() {
		l.Hang("  ", c.inline())
		return
	}
	for _, it := range c.Items {
		x := it.Exercise
		l.Hang("  "+say.Pad(say.Clip(exerciseName(x), 36), 36)+" "+say.Pad(say.Clip(dose(x), 12), 12)+" ", weight(x))
		if e := c.evidence(it); e != "" {
			l.Hang("      ", e)
		}
		var boxes []string
		for i := range c.boxes(it) {
			if loaded(it) {
				boxes = append(boxes, fmt.Sprintf("%d [____ kg x ___]", i+1))
			} else {
				boxes = append(boxes, fmt.Sprintf("%d [___]", i+1))
			}
		}
		if len(boxes) > 0 {
			l.Hang("      ", strings.Join(boxes, "  "))
		}
	}
}

// afterwards is what to write down when the session is over.
type afterwards struct{}

var askedAfter = []string{"Minutes done", "How hard, 0-10", "Anything that hurt: tell the coach"}

func (afterwards) html(m *markup) {
	m.open("section", "class", "after")
	m.el("h2", "Afterwards")
	m.open("p", "class", "asked")
	for _, s := range askedAfter[:2] {
		m.open("span")
		m.text(s)
		m.el("i", "")
		m.close("span")
	}
	m.el("span", askedAfter[2])
	m.close("p")
	m.close("section")
}

func (afterwards) text(l *say.Page) {
	l.Line("")
	l.Line("Afterwards: minutes done [____]  how hard, 0-10 [___]")
	l.Line(askedAfter[2] + ".")
}

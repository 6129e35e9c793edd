package whatif

import (
	"bufio"
	"cmp"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Rows takes the rows out of results. Those of variants that failed are kept and
// say why; any other error ends the rows and is stored in fatal.
func Rows(results iter.Seq2[Result, error], fatal *error) iter.Seq[Row] {
	return func(yield func(Row) bool) {
		for r, err := range results {
			var failed *VariantError
			if err != nil && !errors.As(err, &failed) {
				if fatal != nil {
					*fatal = err
				}
				return
			}
			if !yield(r.Row) {
				return
			}
		}
	}
}

// aims are the ids of all aims, in the order of the rule table.
func aims() []string {
	var out []string
	for _, r := range rule.Table() {
		if r.Kind == rule.Aim {
			out = append(out, r.ID)
		}
	}
	return out
}

// WriteCSV writes rows as a table: one line of names, one line a row, RFC 4180
// with line ends of CR and LF. Each aim has a column for how often it was missed
// and one for the points of it. Text that a spreadsheet would take for a formula
// gets an apostrophe in front. Means without a whole week are empty, and so is all
// that a variant without a plan does not have. If the first row has edges, two
// columns for each quality follow, empty where it reaches none.
func WriteCSV(w io.Writer, rows iter.Seq[Row]) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	ids := aims()
	head := []string{"index", "name", "error", "outcome", "proof", "points", "bound", "broken", "weeks", "lifts_a_week",
		"weeks_under_two_lifts", "full_body_a_week", "weeks_without_full_body", "weeks_below_minimum", "sessions", "hours", "longest_empty", "longest_no_lift", "changes"}
	for _, a := range ids {
		head = append(head, "missed_"+a, "points_"+a)
	}
	edges, begun := false, false
	begin := func(with bool) error {
		begun, edges = true, with
		if edges {
			head = append(head, edgeColumns()...)
		}
		return out.Write(head)
	}
	for r := range rows {
		if !begun {
			if err := begin(len(r.Edges) > 0); err != nil {
				return err
			}
		}
		if r.Error != "" {
			line := make([]string, len(head))
			line[0], line[1], line[2] = strconv.Itoa(r.Index), guarded(r.Name), guarded(r.Error)
			if err := out.Write(line); err != nil {
				return err
			}
			continue
		}
		hundredths, _ := mean(r.Minutes, 60)
		line := []string{strconv.Itoa(r.Index), guarded(r.Name), "", guarded(string(r.Outcome)), guarded(string(r.Proof)),
			strconv.FormatInt(r.Points, 10), strconv.FormatInt(r.Bound, 10), strconv.FormatInt(r.Broken, 10), strconv.Itoa(r.Weeks), decimal(r.LiftsAWeek()),
			strconv.Itoa(r.WeeksUnderTwo), decimal(r.FullBodyAWeek()), strconv.Itoa(r.WeeksWithout), strconv.Itoa(r.WeeksBelow), strconv.Itoa(r.Sessions), decimal(hundredths, true),
			strconv.Itoa(r.LongestEmpty), strconv.Itoa(r.LongestNoLift), strconv.Itoa(r.Changes)}
		for _, a := range ids {
			n, points := r.MissedCount(a)
			line = append(line, strconv.Itoa(n), strconv.FormatInt(points, 10))
		}
		if edges {
			line = append(line, r.edgeCells()...)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	if !begun {
		if err := begin(false); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// WriteCauses writes what stood in the way as a table with a line for each row,
// aim and rule, in the form of [WriteCSV]: how many misses of the aim there are, and
// how many of them the rule stood in the way of. It is empty but for its head where
// the planner was brief.
func WriteCauses(w io.Writer, rows iter.Seq[Row]) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write([]string{"index", "name", "aim", "missed", "points", "rule", "in_the_way"}); err != nil {
		return err
	}
	for r := range rows {
		for _, m := range r.Missed {
			for _, c := range m.Causes {
				if err := out.Write([]string{strconv.Itoa(r.Index), guarded(r.Name), guarded(m.Aim), strconv.Itoa(m.Count),
					strconv.FormatInt(m.Points, 10), guarded(c.Rule), strconv.Itoa(c.Count)}); err != nil {
					return err
				}
			}
		}
	}
	out.Flush()
	return out.Error()
}

// WriteMoves writes what becomes of each move of each fixture as a table in the form
// of [WriteCSV]: how many limits break if nobody plans anew and which rules these
// are, the sessions that change with a new plan, what it costs, and the aims missed
// more often. A move that cannot be made has its problem and no figures.
func WriteMoves(w io.Writer, f *Fragile) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write([]string{"event", "title", "date", "days", "problem", "breaks", "rules", "changed", "points", "missed_more"}); err != nil {
		return err
	}
	if f == nil {
		f = &Fragile{}
	}
	for _, x := range f.Fixtures {
		for _, m := range x.Moves {
			line := []string{guarded(x.Event), guarded(x.Title), x.Date.String(), strconv.Itoa(m.Days), guarded(m.Problem), "", "", "", "", ""}
			if m.Problem == "" {
				var rules []string
				for _, b := range m.Breaks {
					rules = append(rules, b.Rule)
				}
				copy(line[5:], []string{strconv.Itoa(len(m.Breaks)), guarded(strings.Join(sortedSet(rules), " ")), strconv.Itoa(m.Changed),
					strconv.FormatInt(m.Points, 10), guarded(missedText(m.More))})
			}
			if err := out.Write(line); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}

// guarded makes a text safe in a cell of a spreadsheet.
func guarded(s string) string {
	s = calendar.Inert(s)
	if t := strings.TrimLeft(s, "' "); t != "" && strings.IndexByte("=+-@", t[0]) >= 0 {
		return "'" + s
	}
	return s
}

// WriteJSON writes rows as a JSON array, one row a line.
func WriteJSON(w io.Writer, rows iter.Seq[Row]) error {
	b := bufio.NewWriter(w)
	before := "[\n"
	for r := range rows {
		text, err := json.Marshal(r)
		if err != nil {
			return err
		}
		b.WriteString(before)
		b.Write(text)
		before = ",\n"
	}
	if before == "[\n" {
		b.WriteString("[")
	}
	b.WriteString("\n]\n")
	return b.Flush()
}

// Room in a text table, in characters.
const (
	textWidth = 98
	nameWidth = 38
)

// WriteText writes rows as a table for a screen of 98 characters. Below each line
// stands what the figures do not say: the aims missed, of all but the first row only
// those that the first misses less or more often, with its number in brackets; the
// three rules that stood in the way most often, where that is known; when strength
// and speed may begin to fade; and why a variant has no plan.
func WriteText(w io.Writer, rows iter.Seq[Row]) error {
	b := bufio.NewWriter(w)
	figures := func(name, lifts, under, full, empty, none, hours, changed, points string) {
		if utf8.RuneCountInString(name) > nameWidth {
			wrapped(b, "", "  ", name)
			name = ""
		}
		fmt.Fprintf(b, "%s %7s %7s %6s %5s %7s %6s %7s %7s\n", fit(name, nameWidth), lifts, under, full, empty, none, hours, changed, points)
	}
	figures("variant", "lifts/w", "weeks<2", "full/w", "empty", "no lift", "hours", "changed", "points")
	var first []AimMissed
	begun := false
	for r := range rows {
		name := calendar.Inert(r.Name)
		if r.Error != "" {
			wrapped(b, "", "    ", name+": no plan: "+calendar.Inert(r.Error))
			continue
		}
		lifts, ok1 := r.LiftsAWeek()
		full, ok2 := r.FullBodyAWeek()
		hundredths, _ := mean(r.Minutes, 60)
		figures(name, dash(decimal(lifts, ok1)), strconv.Itoa(r.WeeksUnderTwo), dash(decimal(full, ok2)), strconv.Itoa(r.LongestEmpty),
			strconv.Itoa(r.LongestNoLift), decimal(hundredths, true), strconv.Itoa(r.Changes), strconv.FormatInt(r.Points, 10))
		said := []string{"missed: " + dash(missedText(r.Missed))}
		if begun {
			said[0] = against(r.Missed, first)
		} else {
			begun, first = true, r.Missed
		}
		said = append(said, causesText(r.Missed), edgeText(r.Edges))
		if r.Outcome == season.Refused {
			said = append(said, "refused")
		}
		if r.Proof == season.Bounded {
			said = append(said, fmt.Sprintf("bounded, at least %d points", r.Bound))
		}
		said = slices.DeleteFunc(said, func(s string) bool { return s == "" })
		wrapped(b, "    ", "      ", strings.Join(said, "; "))
	}
	return b.Flush()
}

// against says in which aims missed a row differs from another.
func against(list, other []AimMissed) string {
	count := func(in []AimMissed, aim string) int {
		n := 0
		for _, m := range in {
			if m.Aim == aim {
				n += m.Count
			}
		}
		return n
	}
	var aims, parts []string
	for _, m := range list {
		aims = append(aims, m.Aim)
	}
	for _, m := range other {
		aims = append(aims, m.Aim)
	}
	for _, aim := range sortedSet(aims) {
		if n, was := count(list, aim), count(other, aim); n != was {
			parts = append(parts, fmt.Sprintf("%s %d (%d)", calendar.Inert(aim), n, was))
		}
	}
	if len(parts) == 0 {
		return "misses the same"
	}
	return "missed: " + strings.Join(parts, ", ")
}

// wrapped writes a text in lines of words, the first behind one indent and the
// others behind another. A longer word is cut, which shows.
func wrapped(b *bufio.Writer, indent, more, text string) {
	line := indent
	empty := true
	for _, word := range strings.Fields(text) {
		if n := textWidth - len(more) - len(indent); utf8.RuneCountInString(word) > n {
			word = strings.TrimRight(fit(word, n), " ")
		}
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > textWidth {
			b.WriteString(line + "\n")
			line, empty = more, true
		}
		if !empty {
			line += " "
		}
		line += word
		empty = false
	}
	b.WriteString(line + "\n")
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

func missedText(list []AimMissed) string {
	var parts []string
	for _, m := range list {
		parts = append(parts, fmt.Sprintf("%s %d", calendar.Inert(m.Aim), m.Count))
	}
	return strings.Join(parts, ", ")
}

// causesText names the rules that stood in the way most often, over all aims.
func causesText(list []AimMissed) string {
	var all []Cause
	for _, m := range list {
		for _, c := range m.Causes {
			at := slices.IndexFunc(all, func(x Cause) bool { return x.Rule == c.Rule })
			if at < 0 {
				all = append(all, c)
			} else {
				all[at].Count += c.Count
			}
		}
	}
	if len(all) == 0 {
		return ""
	}
	slices.SortFunc(all, func(a, b Cause) int { return cmp.Or(cmp.Compare(b.Count, a.Count), cmp.Compare(a.Rule, b.Rule)) })
	var parts []string
	for _, c := range all[:min(3, len(all))] {
		parts = append(parts, fmt.Sprintf("%s %d", calendar.Inert(c.Rule), c.Count))
	}
	return "most in the way: " + strings.Join(parts, ", ")
}

// fit pads or cuts a text to a width in characters.
func fit(s string, width int) string {
	s = calendar.Inert(s)
	n := utf8.RuneCountInString(s)
	if n <= width {
		return s + strings.Repeat(" ", width-n)
	}
	cut := []rune(s)[:width-3]
	return string(cut) + "..."
}

// WriteDiff writes two plans side by side, each start on a line; those that
// differ are marked. If only is true, the equal ones are left out.
func WriteDiff(w io.Writer, a, b *season.Plan, only bool) error {
	out := bufio.NewWriter(w)
	n, all := 0, Diff(a, b)
	for _, d := range all {
		mark := " "
		if d.Changed {
			mark = "*"
			n++
		} else if only {
			continue
		}
		fmt.Fprintf(out, "%s %s  %s  %s\n", mark, d.Start.Format("Mon 2006-01-02 15:04"), fit(dash(string(d.A)), 17), dash(string(d.B)))
	}
	fmt.Fprintf(out, "%d of %d differ\n", n, len(all))
	return out.Flush()
}

package handout

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// contrast is the ratio of WCAG 2.1: (lighter + 0.05) / (darker + 0.05) of the
// relative luminances (w3.org/TR/WCAG21, definitions; from memory, held against
// ratios that are widely quoted below).
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil || len(hex) != 7 {
		t.Fatalf("%q is no colour", hex)
	}
	part := func(shift uint) float64 {
		c := float64(n>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}

func TestContrastFormula(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{
		{"#000000", "#ffffff", 21},
		{"#767676", "#ffffff", 4.54}, // the lightest grey that passes on white, widely quoted
		{"#777777", "#ffffff", 4.48}, // the next one fails
		{"#ff0000", "#ffffff", 4.00},
	} {
		if got := contrast(t, c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s: %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

func TestContrast(t *testing.T) {
	find := func(name string) colour {
		i := slices.IndexFunc(palette, func(c colour) bool { return c.name == name })
		if i < 0 {
			t.Fatalf("no colour %q", name)
		}
		return palette[i]
	}
	for _, p := range slices.Concat(wordPairs, markPairs) {
		a, b := find(p.upon), find(p.over)
		if got := contrast(t, a.light, b.light); got < 4.5 {
			t.Errorf("%s on %s, light: %.2f", p.upon, p.over, got)
		}
		if got := contrast(t, a.dark, b.dark); got < 4.5 {
			t.Errorf("%s on %s, dark: %.2f", p.upon, p.over, got)
		}
	}
}

// The style sheet uses the palette and nothing else, words only in colours whose
// pairs are tested, and grounds that the pairs name.
func TestStyleUsesPalette(t *testing.T) {
	css := Style(A4)
	for _, v := range variablesIn(css) {
		css = strings.ReplaceAll(css, v, "")
	}
	if m := regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|rgba?\(|hsla?\(`).FindAllString(css, -1); m != nil {
		t.Errorf("colours beside the palette: %v", m)
	}
	over := map[string]bool{}
	upon := map[string]bool{}
	for _, p := range wordPairs {
		upon[p.upon], over[p.over] = true, true
	}
	for _, m := range regexp.MustCompile(`[{;](color|background|fill|stroke):([^;}]*)`).FindAllStringSubmatch(css, -1) {
		name, isVar := strings.CutPrefix(strings.TrimSuffix(m[2], ")"), "var(--weft-")
		switch {
		case !isVar && (m[2] == "none" || m[2] == "transparent"):
		case !isVar:
			t.Errorf("%s is %q, which is no colour of the palette", m[1], m[2])
		case m[1] == "color" && !upon[name]:
			t.Errorf("words in %s, which no pair names", name)
		case m[1] == "background" && !over[name]:
			t.Errorf("ground of %s, which no pair names", name)
		}
	}
}

// variablesIn are the definitions of the palette.
func variablesIn(string) []string { return []string{variables(false), variables(true)} }

func TestStyleSelectorsAreBound(t *testing.T) {
	css := regexp.MustCompile(`@page[^{]*\{[^}]*\}`).ReplaceAllString(Style(Letter), "")
	css = regexp.MustCompile(`@media[^{]*\{`).ReplaceAllString(css, "")
	for _, m := range regexp.MustCompile(`([^{}]+)\{`).FindAllStringSubmatch(css, -1) {
		for _, s := range strings.Split(m[1], ",") {
			if s = strings.TrimSpace(s); !strings.HasPrefix(s, ".weft") {
				t.Errorf("selector %q reaches beyond .weft", s)
			}
		}
	}
}

func TestStyleRequestsNothing(t *testing.T) {
	for _, p := range []Paper{A4, Letter} {
		for _, bad := range []string{"url(", "@import", "http", "//", "expression", "</"} {
			if strings.Contains(Style(p), bad) {
				t.Errorf("the style sheet has %q", bad)
			}
		}
	}
	if a, l := Style(A4), Style(Letter); !strings.Contains(a, "size:A4;") || !strings.Contains(l, "size:letter;") || strings.Contains(l, "A4") {
		t.Error("the paper is not that of the style sheet")
	}
}

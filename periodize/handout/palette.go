package handout

import "strings"

// A colour of the sheets, for white and for dark ground. Print takes the light
// one always. Everything a colour says is also said by a word, a shape or a
// hatch.
type colour struct{ name, light, dark string }

var palette = []colour{
	{"paper", "#ffffff", "#15191d"},
	{"desk", "#eef0ee", "#0b0d0f"}, // behind the sheets, on a screen
	{"ink", "#1c2226", "#eef1f0"},
	{"soft", "#4b565c", "#b4bfc3"},  // secondary words
	{"hair", "#b9c1c2", "#3c464c"},  // lines that only order the page
	{"shade", "#eef1ef", "#232a2f"}, // ground of heads and of games in a month
	{"lift", "#0e4f52", "#7cd0cc"},  // sessions
	{"game", "#8a2b12", "#f3a487"},  // games
	{"hatch", "#5d6966", "#94a19f"}, // shading of breaks, trips, exams
}

// pair is a colour upon another.
type pair struct{ upon, over string }

// wordPairs are all pairs in which words stand, markPairs those of marks that
// mean something. Lines of colour "hair" mean nothing.
var (
	wordPairs = []pair{
		{"ink", "paper"}, {"ink", "desk"}, {"ink", "shade"}, {"soft", "paper"}, {"soft", "desk"}, {"soft", "shade"},
		{"lift", "paper"}, {"lift", "shade"}, {"game", "paper"}, {"game", "shade"}, {"paper", "ink"}, {"paper", "game"}, {"paper", "lift"},
	}
	markPairs = []pair{{"hatch", "paper"}, {"hatch", "shade"}, {"lift", "paper"}, {"game", "paper"}, {"ink", "paper"}}
)

// variables writes the palette as custom properties.
func variables(dark bool) string {
	var b strings.Builder
	for _, c := range palette {
		v := c.light
		if dark {
			v = c.dark
		}
		b.WriteString("--weft-" + c.name + ":" + v + ";")
	}
	return b.String()
}

package main

import (
	"context"
	"encoding/xml"
	"math"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// A print is read back by pdftotext of poppler, which knows nothing of the
// browser that made it. Its lengths are points, 72 an inch.

const millimetre = 72 / 25.4

// printed is the size of a paper.
type printed struct{ wide, high float64 }

// sheetOfPaper is a page as it was printed.
type sheetOfPaper struct {
	Width  float64     `xml:"width,attr"`
	Height float64     `xml:"height,attr"`
	Words  []paperWord `xml:"word"`
}

type paperWord struct {
	Left   float64 `xml:"xMin,attr"`
	Top    float64 `xml:"yMin,attr"`
	Right  float64 `xml:"xMax,attr"`
	Bottom float64 `xml:"yMax,attr"`
	Text   string  `xml:",chardata"`
}

func (p sheetOfPaper) text() string {
	var words []string
	for _, w := range p.Words {
		words = append(words, w.Text)
	}
	return strings.Join(words, " ")
}

// check looks for words that leave the paper or its margins of 12 mm, and for
// words upon each other.
func (p sheetOfPaper) check(t *testing.T, at string, size printed) {
	t.Helper()
	wide, high := size.wide, size.high
	if p.Width > p.Height {
		wide, high = high, wide
	}
	if math.Abs(p.Width-wide) > 1 || math.Abs(p.Height-high) > 1 {
		t.Errorf("%s is %.0f x %.0f points", at, p.Width, p.Height)
	}
	const margin = 11.5 * millimetre
	for i, w := range p.Words {
		if w.Left < margin || w.Right > p.Width-margin || w.Top < margin-2 || w.Bottom > p.Height-margin+2 {
			t.Errorf("%s: %q leaves the page: %.0f,%.0f to %.0f,%.0f of %.0f x %.0f", at, w.Text, w.Left, w.Top, w.Right, w.Bottom, p.Width, p.Height)
		}
		for _, o := range p.Words[:i] {
			if x, y := overlap(w, o); x > 1 && y > 0.45*min(w.Bottom-w.Top, o.Bottom-o.Top) { // boxes have room above capitals and below
				t.Errorf("%s: %q and %q lie upon each other by %.1f x %.1f points", at, w.Text, o.Text, x, y)
			}
		}
	}
}

func overlap(a, b paperWord) (x, y float64) {
	return min(a.Right, b.Right) - max(a.Left, b.Left), min(a.Bottom, b.Bottom) - max(a.Top, b.Top)
}

// show puts a document into the tab, as it is on a paper with its margins.
func (b *tab) show(doc string, size printed) {
	b.t.Helper()
	file := filepath.Join(b.t.TempDir(), "sheet.html")
	if err := os.WriteFile(file, []byte(doc), 0o600); err != nil {
		b.t.Fatal(err)
	}
	if strings.Contains(doc, "@page{size:A4 landscape") || strings.Contains(doc, "@page{size:letter landscape") {
		size.wide = size.high
	}
	b.do(emulation.SetDeviceMetricsOverride(int64(math.Round((size.wide-24*millimetre)*96/72)), 900, 1, false), chromedp.Navigate((&url.URL{Scheme: "file", Path: file}).String()), emulation.SetEmulatedMedia().WithMedia("print"))
}

// pdf prints the tab without backgrounds, as browsers do unasked, and reads the
// print. It stays in the folder WEFT_SHOTS, if there is one.
func (b *tab) pdf(name string) []sheetOfPaper {
	b.t.Helper()
	read, err := exec.LookPath("pdftotext")
	if err != nil {
		missing(b.t, "pdftotext of poppler-utils")
	}
	dir := os.Getenv("WEFT_SHOTS")
	if dir == "" {
		dir = b.t.TempDir()
	}
	file := filepath.Join(dir, name+".pdf")
	b.print(file)
	out, err := exec.Command(read, "-bbox", file, "-").Output()
	if err != nil {
		b.t.Fatalf("%s: %v", name, err)
	}
	var doc struct {
		Pages []sheetOfPaper `xml:"body>doc>page"`
	}
	d := xml.NewDecoder(strings.NewReader(string(out)))
	d.Strict, d.Entity = false, xml.HTMLEntity
	if err := d.Decode(&doc); err != nil {
		b.t.Fatalf("%s: %v", name, err)
	}
	return doc.Pages
}

// print writes the page as a PDF.
func (b *tab) print(name string) {
	b.t.Helper()
	var pdf []byte
	b.do(chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = cdppage.PrintToPDF().WithPreferCSSPageSize(true).WithPrintBackground(false).Do(ctx)
		return err
	}))
	if err := os.WriteFile(name, pdf, 0o644); err != nil {
		b.t.Fatal(err)
	}
}

// cut names what is cut off: text wider or higher than a box that hides the rest,
// and words of a picture that leave it or run into each other.
func (b *tab) cut() []string {
	b.t.Helper()
	return js[[]string](b, `(() => {
		const out = [];
		for (const e of document.querySelectorAll('main *')) {
			const s = getComputedStyle(e);
			if (s.overflow !== 'visible' && !(e instanceof SVGElement) && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)) out.push('cut: ' + e.textContent.slice(0, 60));
		}
		for (const s of document.querySelectorAll('main svg')) {
			const r = s.getBoundingClientRect(), texts = [...s.querySelectorAll('text')].map((t) => [t.textContent, t.getBoundingClientRect()]);
			texts.forEach(([w, q], i) => {
				if (q.left < r.left - 1 || q.right > r.right + 1 || q.top < r.top - 1 || q.bottom > r.bottom + 1) out.push('leaves its picture: ' + w);
				for (const [v, p] of texts.slice(0, i)) if (Math.min(p.right, q.right) - Math.max(p.left, q.left) > 1 && Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top) > 4) out.push(w + ' and ' + v + ' lie upon each other');
			});
		}
		return out;
	})()`)
}

// words are what the tab shows in print.
func (b *tab) words() []string {
	b.t.Helper()
	return strings.Fields(js[string](b, `document.querySelector('main').innerText + ' ' + [...document.querySelectorAll('main svg text')].map((t) => t.textContent).join(' ')`))
}

// missingWords are those that are in no page. Letters alone are compared: where a
// line breaks, and in what order columns are read, is the reader's choice.
func missingWords(want []string, pages []sheetOfPaper) (lost []string) {
	have := map[string]int{}
	for _, p := range pages {
		for _, w := range p.Words {
			for _, part := range strings.Fields(w.Text) {
				have[strings.ToLower(part)]++
			}
		}
	}
	var all strings.Builder
	for _, p := range pages {
		all.WriteString(strings.ToLower(strings.ReplaceAll(p.text(), " ", "")))
	}
	for _, w := range want {
		w = strings.ToLower(w)
		if have[w] > 0 {
			have[w]--
			continue
		}
		if !strings.Contains(all.String(), w) { // broken in two, or joined to its neighbour
			lost = append(lost, w)
		}
	}
	return lost
}

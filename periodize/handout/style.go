package handout

import "strings"

// Style is the style sheet of figures and sheets, for a page that holds them
// inside an element of class "weft". Every rule is bound to that class. It is
// light or dark as the reader's screen asks, and light in print.
func Style(paper Paper) string {
	size := paper.css()
	return ".weft{color-scheme:light;" + variables(false) + "}" +
		"@media screen and (prefers-color-scheme:dark){.weft{color-scheme:dark;" + variables(true) + "}}\n" +
		strings.NewReplacer("SIZE", size, "LETTER", wallLetter, "TALL", paper.height(), "FLAT", paper.width()).Replace(baseStyle+figureStyle+sheetStyle+monthStyle+weekStyle+cardStyle+wallStyle+halfStyle)
}

func (p Paper) css() string {
	if p == Letter {
		return "letter"
	}
	return "A4"
}

// height and width are what the margins leave of a page, less a millimetre so
// that rounding never makes another page.
func (p Paper) height() string {
	if p == Letter {
		return "254mm"
	}
	return "272mm"
}

func (p Paper) width() string {
	if p == Letter {
		return "191mm"
	}
	return "185mm"
}

const baseStyle = `
.weft{color:var(--weft-ink);background:var(--weft-desk);font:10.5pt/1.45 "Segoe UI","Helvetica Neue",Arial,"Liberation Sans","Noto Sans",sans-serif;font-variant-numeric:tabular-nums}
.weft *{box-sizing:border-box}
.weft h1{font-size:21pt;line-height:1.12;font-weight:700;letter-spacing:-.015em;margin:0}
.weft h2{font-size:12pt;line-height:1.25;margin:1.1em 0 .35em}
.weft p,.weft ul,.weft ol{margin:0 0 .5em}
.weft ul{padding-left:1.1em}
.weft table{border-collapse:collapse;width:100%;font-size:9.5pt}
.weft caption{text-align:left;font-weight:700;padding:.3em 0}
.weft th,.weft td{text-align:left;vertical-align:top;padding:.28em .7em .28em 0;border-bottom:1px solid var(--weft-hair)}
.weft thead th{color:var(--weft-soft);font-weight:600;border-bottom:1.5px solid var(--weft-ink)}
`

const figureStyle = `
.weft figure{margin:0 0 6mm}
.weft figcaption{font-weight:700;font-size:12pt;margin-bottom:2mm}
.weft .strip{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,330px),1fr));gap:4mm 5mm}
.weft .piece{break-inside:avoid}
.weft .piece p{font-size:8.5pt;color:var(--weft-soft);margin:0 0 1mm}
.weft svg{display:block;width:100%;height:auto}
.weft svg text{font-size:9px;fill:var(--weft-ink);font-family:inherit}
.weft svg text.strong{font-weight:700}
.weft .lift{fill:var(--weft-paper);stroke:var(--weft-lift);stroke-width:1.2}
.weft .lift.full{fill:var(--weft-lift)}
.weft .fine{fill:none;stroke:var(--weft-lift);stroke-width:1}
.weft .game{fill:var(--weft-paper);stroke:var(--weft-game);stroke-width:1.4}
.weft .game.full{fill:var(--weft-game)}
.weft .game.dash{stroke-dasharray:2 1.6}
.weft .bar{fill:none;stroke:var(--weft-game);stroke-width:2}
.weft .hatch{fill:none;stroke:var(--weft-hatch);stroke-width:.7}
.weft .week{fill:none;stroke:var(--weft-hair);stroke-width:1}
.weft .axis{fill:none;stroke:var(--weft-ink);stroke-width:1}
.weft .now{fill:none;stroke:var(--weft-ink);stroke-width:2}
.weft .tick{fill:none;stroke:var(--weft-ink);stroke-width:1.2}
.weft .ink{fill:var(--weft-ink)}
.weft .hit{fill:transparent;stroke:none}
.weft .key{list-style:none;padding:0;margin:3mm 0 2mm;display:flex;flex-wrap:wrap;gap:.8mm 5mm;font-size:8.5pt;color:var(--weft-soft)}
.weft .key li{display:flex;align-items:center;gap:1.5mm}
.weft .key svg{width:16px;height:16px;flex:none}
.weft .key b{color:var(--weft-ink);font-weight:600}
.weft details{font-size:9.5pt;margin-top:2mm}
.weft summary{cursor:pointer;color:var(--weft-soft)}
@media print{.weft details{display:none}.weft .strip{grid-template-columns:1fr 1fr;gap:2mm 5mm}.weft .piece p{margin:0}.weft .key{font-size:8pt;gap:.4mm 4mm;margin:2mm 0 0}.weft figure{margin:0}}
`

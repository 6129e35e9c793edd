package handout

const sheetStyle = `
.weft .sheet{background:var(--weft-paper);max-width:210mm;margin:8mm auto;padding:12mm;display:flex;flex-direction:column;gap:5mm}
.weft .sheet.wide{max-width:297mm}
.weft .sheet header{display:flex;flex-wrap:wrap;justify-content:space-between;align-items:baseline;gap:1mm 6mm;border-bottom:2.5px solid var(--weft-ink);padding-bottom:2.5mm}
.weft .sheet .who{margin:0;color:var(--weft-soft)}
.weft .sheet .again{margin:0;font-weight:700;font-size:13pt}
.weft .example{margin-left:3mm;color:var(--weft-paper);background:var(--weft-ink);font-size:8.5pt;font-weight:600;padding:.4mm 2mm;white-space:nowrap}
.weft .sheet footer{margin-top:auto;border-top:1px solid var(--weft-ink);padding-top:2mm;font-size:8pt;line-height:1.4;color:var(--weft-soft)}
.weft .care{color:var(--weft-ink);margin:0 0 1.2mm}
.weft .plate{display:flex;flex-wrap:wrap;gap:0 4mm;margin:0}
.weft .sheet table+p{margin-top:2mm}
@media screen and (max-width:640px){.weft .sheet{margin:0 0 4mm;padding:5mm 4mm}.weft h1{font-size:17pt}}
@page weft-tall{size:SIZE;margin:12mm}
@page weft-wide{size:SIZE landscape;margin:12mm}
@media print{.weft{background:none}.weft .example{color:var(--weft-ink);background:none;border:1px solid var(--weft-ink)}.weft .sheet{page:weft-tall;gap:3.5mm;margin:0;padding:0;max-width:none;min-height:TALL;break-after:page}.weft .sheet:last-child{break-after:auto}.weft .sheet.wide{page:weft-wide;min-height:FLAT}}
`

const monthStyle = `
.weft .grid{table-layout:fixed;font-size:7.8pt;line-height:1.32}
.weft .grid th{padding:1mm 1.2mm;color:var(--weft-soft);border-bottom:1.5px solid var(--weft-ink)}
.weft .grid td{height:27mm;padding:1mm 1.2mm;border:1px solid var(--weft-hair);border-width:0 0 1px 1px;overflow-wrap:anywhere}
.weft .grid td:first-child{border-left:0}
.weft .grid .num{margin:0 0 .8mm;font-size:9.5pt;font-weight:700;line-height:1.2}
.weft .grid .wd{display:none}
.weft .grid .today{outline:2px solid var(--weft-ink);outline-offset:-2px}
.weft .nowword{font-size:7.5pt;font-weight:700;text-transform:uppercase;letter-spacing:.06em}
.weft .it{margin:0 0 .7mm;color:var(--weft-soft)}
.weft .it b{font-weight:400}
.weft .it.se,.weft .it.ga{color:var(--weft-ink)}
.weft .it.se b{font-weight:700;color:var(--weft-lift)}
.weft .it.ga{background:var(--weft-shade);border-left:2.5px solid var(--weft-game);padding:.4mm 1mm;margin-left:-1.2mm;margin-right:-1.2mm}
.weft .it.ga.open{border-left-style:dotted}
.weft .it.ga b{font-weight:700;color:var(--weft-game)}
.weft .it .note{display:block}
.weft .it .when{display:block;white-space:nowrap}
.weft .it.se b,.weft .it.ga b{white-space:nowrap}
.weft .mark{display:inline-block;width:7px;height:11px;vertical-align:-1.5px;margin-right:1.3mm}
@media screen and (max-width:640px){
.weft .grid,.weft .grid tbody,.weft .grid tr{display:block}
.weft .grid thead,.weft .grid .out,.weft .grid .free{display:none}
.weft .grid td{display:block;height:auto;border:0;border-bottom:1px solid var(--weft-hair);padding:2mm 0}
.weft .grid .wd{display:inline}
.weft .grid{font-size:10pt}.weft .grid .it.ga{margin-left:0;margin-right:0}
.weft .it .when,.weft .it .note{display:inline}
.weft .grid .today{outline:0;border-left:4px solid var(--weft-ink);padding-left:2.5mm}}
@media print{.weft .grid{font-size:8.4pt}.weft .grid tr{break-inside:avoid}.weft .grid td{height:auto}.weft .month .body{flex:1 0 auto;display:flex;flex-direction:column}.weft .month .grid{flex:1 0 auto}}
`

const weekStyle = `
.weft .days{border-top:1px solid var(--weft-hair)}
.weft .day{display:grid;grid-template-columns:17mm 1fr;gap:0 4mm;padding:2.6mm 0;border-bottom:1px solid var(--weft-hair);break-inside:avoid;min-height:19mm}
.weft .day h2{margin:0;font-size:8.5pt;font-weight:600;color:var(--weft-soft);line-height:1.15;display:flex;flex-direction:column}
.weft .day .dn{font-size:19pt;font-weight:700;color:var(--weft-ink);line-height:1.05;letter-spacing:-.02em}
.weft .day.today h2{outline:2px solid var(--weft-ink);outline-offset:1.2mm;align-self:start}
.weft .day .none{color:var(--weft-soft);margin:.6mm 0}
.weft .row{display:grid;grid-template-columns:25mm 40mm 1fr 6mm;gap:0 3mm;padding:.6mm 0;color:var(--weft-soft);font-size:10pt;line-height:1.35}
.weft .row .what b{font-weight:400}
.weft .row.se,.weft .row.ga{color:var(--weft-ink)}
.weft .row.se b{font-weight:700;color:var(--weft-lift)}
.weft .row.ga{background:var(--weft-shade);border-left:3px solid var(--weft-game);padding-left:2mm;margin-left:calc(-2mm - 3px)}
.weft .row.ga b{font-weight:700;color:var(--weft-game);letter-spacing:.03em}
.weft .row .why{display:block;color:var(--weft-soft);font-size:9pt}
.weft .row .mark{width:9px;height:14px;vertical-align:-2px;margin-right:1.6mm}
.weft .tickbox{width:5mm;height:5mm;border:1.2px solid var(--weft-ink);justify-self:end}
@media screen and (max-width:640px){.weft .day{grid-template-columns:12mm 1fr;min-height:0}.weft .row{grid-template-columns:1fr 6mm}.weft .row .when,.weft .row .what,.weft .row .note{grid-column:1}.weft .row .tickbox{grid-column:2;grid-row:1/4}}
@media print{.weft .day{min-height:25mm;flex:1 0 auto}.weft .close .day{min-height:17mm;padding:1.6mm 0}.weft .week .body{flex:1 0 auto;display:flex;flex-direction:column}.weft .week .days{flex:1 0 auto;display:flex;flex-direction:column;max-height:235mm}}
`

const cardStyle = `
.weft .facts{display:grid;grid-template-columns:max-content 1fr;gap:.4mm 5mm;margin:0 0 2mm}
.weft .facts dt{color:var(--weft-soft)}
.weft .facts dd{margin:0}
.weft .block{break-inside:avoid;margin-bottom:3.5mm}
.weft .block h2{margin:0;padding:0 0 1mm;border-bottom:1.5px solid var(--weft-ink)}
.weft .facts dd{grid-column:2}
.weft .ex{display:grid;grid-template-columns:47mm 19mm minmax(26mm,1fr) fit-content(84mm);gap:0 3mm;padding:1mm 0;border-bottom:1px solid var(--weft-hair);font-size:10pt;line-height:1.3;break-inside:avoid}
.weft .ex p{margin:0}
.weft .ex .name,.weft .ex .dose{padding-top:.6mm}
.weft .ex .load{padding-top:.6mm;color:var(--weft-soft)}
.weft .ex .why{grid-column:1/-1;margin-top:.7mm;font-size:8pt;color:var(--weft-soft)}
.weft .inline{margin:1.4mm 0 0;font-size:10pt}
.weft .boxes{display:flex;flex-wrap:wrap;gap:1.5mm 2mm}
.weft .setbox{display:flex;border:1.2px solid var(--weft-ink);height:8mm}
.weft .setbox i{font-style:normal;font-size:7pt;color:var(--weft-soft);padding:.2mm .8mm;width:10.5mm;border-left:1px solid var(--weft-hair)}
.weft .close .block{margin-bottom:2.4mm}.weft .close .ex{padding:.6mm 0}.weft .close .setbox{height:7mm}
.weft .setbox i:first-child{width:4.5mm;border-left:0;color:var(--weft-ink);font-weight:700}
.weft .asked{display:flex;flex-wrap:wrap;gap:2mm 8mm;align-items:center}
.weft .asked i{display:inline-block;width:16mm;height:9mm;border:1.2px solid var(--weft-ink);margin-left:2mm;vertical-align:middle}
.weft .after{break-inside:avoid}
@media screen and (max-width:640px){.weft .ex{grid-template-columns:1fr}.weft .boxes{flex-wrap:wrap;margin-top:1mm}.weft .setbox{height:11mm}}
`

const wallStyle = `
.weft .wall{gap:3mm}
.weft .wall .big{font-size:LETTER;line-height:20mm;margin:0;letter-spacing:-.01em}
.weft .wall .big.when{white-space:nowrap;font-weight:700}
.weft .wall .big.what b{color:var(--weft-lift)}
.weft .wall .mark{width:9.4mm;height:15mm;vertical-align:-2mm;margin-right:4mm}
.weft .wall .names{list-style:none;padding:2mm 0 0;display:grid;grid-template-columns:1fr 1fr;border-top:1.5px solid var(--weft-ink)}
.weft .wall .names li{white-space:nowrap;overflow:hidden}
.weft .wall .names li.whole{grid-column:1/-1}
.weft .wall header h1{font-size:13pt}
@media screen and (max-width:900px){.weft .wall .big{font-size:8vw;line-height:1.2}.weft .wall .mark{width:5vw;height:8vw}}
`

const halfStyle = `
@media print,(min-width:641px){.weft .slip td{min-width:42mm}}
.weft .note .body{font-size:14pt;line-height:1.5}
.weft .note .facts{gap:1.5mm 6mm;margin-bottom:4mm}
.weft .slot{margin:0 0 3mm;max-width:110mm;break-inside:avoid}
.weft .slot p{margin:0 0 1mm}
.weft .hall .slot{font-size:9.5pt;display:inline-block;vertical-align:top;width:47%;margin-right:2%}
@media print{.weft .half,.weft .note{min-height:0}.weft .half{font-size:8.8pt;line-height:1.3;gap:1.6mm}.weft .half h1{font-size:15pt}.weft .half header{padding-bottom:1.2mm}.weft .half h2{font-size:10pt;margin:.4em 0 .15em}.weft .half table,.weft .half .key{font-size:8.4pt}.weft .half .key{font-size:7.6pt;margin:1mm 0 0}.weft .half th,.weft .half td{padding-top:.12em;padding-bottom:.12em}.weft .half p,.weft .half ul,.weft .half dl{margin-bottom:.2em}.weft .half footer{font-size:7.4pt;padding-top:1mm}.weft .half .care{margin-bottom:.6mm}}
`

package paper

// style is how the sheets look: black on white whatever the screen's scheme.
// It comes with them, so that none of it weighs on the page's first load. The
// paper's size is left to whoever prints; both A4 and Letter hold what is
// 186 mm wide. The page's number is the browser's, where it can.
const style = `
@page { margin: 12mm 12mm 14mm; @bottom-right { content: "page " counter(page) " of " counter(pages); font: 8pt sans-serif; } }
#sheets { font: 9.5pt/1.35 system-ui, sans-serif; color: #000; background: #fff; }
#sheets .leaf { break-after: page; margin: 0; }
#sheets .said ~ ul { font-size: 8.5pt; line-height: 1.25; }
#sheets .leaf:last-of-type { break-after: auto; }
#sheets .leaf > * > tr > td { padding: 0; border: 0; }
#sheets .head { border: 1.2pt solid #000; margin: 0 0 3mm; }
#sheets .head td { border: 0; padding: 1mm 3mm; vertical-align: middle; }
#sheets .plant { font-size: 9pt; }
[data-print=card] #sheets .leaf:not(.wash) { display: none; }
#sheets .grip { display: none; }
#sheets h2 { font-size: 14pt; margin: 0; }
#sheets h3 { display: block; font-size: 10.5pt; margin: 3mm 0 1mm; break-after: avoid; }
#sheets .when { text-align: right; white-space: nowrap; width: 1%; }
#sheets .blank { display: inline-block; width: 32mm; border-bottom: .5pt solid #000; }
#sheets p { margin: 0 0 1.5mm; }
#sheets .list { margin: 0 0 2mm; font-size: 9pt; line-height: 1.25; }
#sheets .list th, #sheets .list td { padding: .4mm 3mm .4mm 0; border-bottom: .4pt solid #777; font-weight: 400; }
#sheets .list thead th { font-weight: 600; font-size: 8.5pt; color: #000; text-align: left; border-bottom: 1pt solid #000; }
#sheets .list .n { text-align: right; white-space: nowrap; }
#sheets .list caption { font-weight: 600; padding: 1mm 0; }
#sheets .list .group { font-weight: 600; padding-top: 1.6mm; break-after: avoid; }
#sheets .small { font-size: 7.5pt; line-height: 1.25; }
#sheets .care { font-size: 8pt; line-height: 1.25; }
#sheets .tick { width: 7mm; }
#sheets .tick span { display: block; width: 3.2mm; height: 3.2mm; margin-top: .3mm; border: .8pt solid #000; }
#sheets tr, #sheets .figures div, #sheets li, #sheets svg { break-inside: avoid; }
#sheets .leaf > tbody > tr, #sheets .leaf > tbody > tr > td { break-inside: auto; }
#sheets .stop { border: 1.5pt solid #000; padding: 1.5mm 3mm; margin-bottom: 3mm; }
#sheets .stop .first { font-weight: 700; }
#sheets ul { margin: 0 0 2mm; padding-left: 5mm; }
#sheets svg { display: block; max-width: 100%; height: auto; margin: 0 auto; }
#sheets .elevation { max-height: 125mm; width: 100%; }
#sheets .isometric { max-height: 165mm; width: 100%; }
#sheets .tall .isometric { max-height: 230mm; }
#sheets .numbers { columns: 3; column-gap: 5mm; list-style: none; padding: 0; margin: 3mm 0; font-size: 8.5pt; }
#sheets .numbers li { padding-left: 6mm; text-indent: -6mm; }
#sheets .fine { font-size: 8.5pt; text-align: center; }
#sheets .numbers b { text-indent: 0; display: inline-block; width: 6mm; }
#sheets .said dl, #sheets .figures { columns: 2; column-gap: 6mm; font-size: 8pt; line-height: 1.25; margin: 1mm 0 3mm; }
#sheets dl div { break-inside: avoid; }
#sheets dt, #sheets dd { display: inline; margin: 0; }
#sheets dt::after { content: ": "; }
#sheets dd { font-weight: 600; }
#sheets .link { break-inside: avoid; border-top: .4pt solid #000; margin-top: 2.5mm; padding-top: 2mm; font-size: 8.5pt; overflow: hidden; }
#sheets .code { float: left; max-width: none; margin: 0 4mm 0 0; fill: #000; }
#sheets .wash { font-size: 10pt; }
#sheets .wash tbody table :is(th, td) { padding: .7mm 3mm .7mm 0; border-bottom: .4pt solid #777; text-align: left; font-weight: 400; }
#sheets .says { display: block; }
[data-print=card] #sheets .wash { break-after: auto; }
#sheets td small, #sheets th small { display: block; color: #000; font-size: inherit; }
#sheets .address { font: 6.5pt/1.25 ui-monospace, monospace; overflow-wrap: anywhere; }
`

import { fontStack, ink } from '../drawing/index.ts';
import { palette, properties } from './palette.ts';

const mono = 'ui-monospace,DejaVu Sans Mono,Menlo,Consolas,monospace';
/** Style of the report: paper by day, blueprint by night, black on white from the printer, one column on a phone. Pictures
 *  stay on paper. */
export const style = `
:root{${properties(palette.day)};--thin:.25mm solid var(--line);--wide:.7mm solid var(--line)}
@media screen and (prefers-color-scheme:dark){:root{${properties(palette.night)}}}
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);-webkit-text-size-adjust:100%;scroll-behavior:smooth;scroll-padding-top:12mm}
body{margin:0;font:15px/1.42 ${fontStack};font-variant-numeric:tabular-nums;overflow-wrap:break-word}
main{width:min(186mm,100%);margin:0 auto;padding:5mm 0 14mm}
nav{position:sticky;top:0;z-index:1;background:var(--paper);border-bottom:var(--thin);padding:1.6mm 4mm;display:flex;justify-content:center;gap:1mm 6mm;flex-wrap:wrap;font-size:14px}
a{color:var(--accent);text-underline-offset:.15em}
h1{font-size:27px;line-height:1.15;margin:0;font-weight:650;text-wrap:balance;overflow-wrap:anywhere}
h2{break-after:avoid;font-size:18px;line-height:1.25;margin:0 0 2mm;font-weight:650}
h3{break-after:avoid;font-size:15px;line-height:1.3;margin:0;font-weight:650}
p{margin:0;max-width:80ch}
ul,ol{margin:0;padding:0}
.lead{margin-top:1mm}
.note{margin-top:2mm;padding-left:3mm;border-left:.7mm solid var(--rule);white-space:pre-line;overflow-wrap:anywhere}
.tip,.key{font-size:13px;line-height:1.38;color:var(--faint)}
.key{margin-bottom:3mm;max-width:none;break-after:avoid}
code{font-family:${mono};font-size:.92em;overflow-wrap:anywhere}
section{margin-top:9mm}
.number{text-align:right;white-space:nowrap}
.frame{border:var(--wide);margin-top:4mm;display:flex;flex-direction:column}
.frame section{margin:0;padding:3.5mm 4mm;border-top:var(--thin)}
.overview{display:grid;grid-template-columns:1.28fr 1fr}
.frame .verdict{border-top:0;border-left:var(--thin)}
.figures{display:grid;background:${ink.paper};color:${ink.ink};align-content:center}
.figures.count-2,.figures.count-3,.figures.count-4{grid-template-columns:1fr 1fr}
figure{margin:0;min-width:0;break-inside:avoid}
figcaption{font-size:13px;line-height:1.3;text-align:center;padding:0 3mm 2mm;color:#3c4550}
.picture{display:block;width:100%;height:auto}
.picture .leader{fill:none;stroke:${ink.ink};stroke-width:1.6}
.picture .place{fill:${ink.accent};stroke:#fff;stroke-width:1.6}
.picture .balloon{fill:#fff;stroke:${ink.ink};stroke-width:2}
.picture .number{fill:${ink.ink};font-weight:650}
.chance{display:flex;align-items:baseline;gap:2.5mm;margin-bottom:2.5mm;line-height:1.2}
.chance b{font-size:38px;line-height:1;font-weight:650;white-space:nowrap}
.say{display:flex;gap:2mm;margin-bottom:2.5mm;align-items:flex-start}
.next{border-top:.25mm solid var(--rule);padding-top:2mm;margin-top:2.5mm}
.mark{flex:none;width:4.6mm;height:4.6mm;fill:none;stroke:currentColor;stroke-width:2;stroke-linecap:round;stroke-linejoin:round;vertical-align:-.16em}
.mark.fails{color:var(--fails);stroke-width:2.8}
.mark.caution{color:var(--caution)}
.mark.holds{color:var(--holds);stroke-width:2.4}
.shares{width:100%;border-collapse:collapse;margin-top:1mm;font-size:13px;line-height:1.3}
.shares caption{text-align:left;color:var(--faint);padding-bottom:.6mm}
.shares th,.shares td{border:0;padding:.5mm 0;font-weight:400;text-align:left;vertical-align:middle}
.shares td{padding-left:2mm}
.shares .number{text-align:right}
.share{display:block;width:20mm;height:2.4mm;fill:var(--accent)}
.against ul,.mind ul{list-style:none;display:grid;gap:1.6mm}
.against li,.mind li{display:flex;gap:2mm;align-items:flex-start;line-height:1.35}
.against li>span,.mind li>span{min-width:0}
.against .mark,.mind .mark{margin-top:.3mm}
.against .balloon-text{margin-top:-.2mm}
.against .more{padding-left:6.6mm}
.balloon-text{flex:none;display:inline-grid;place-items:center;min-width:6.4mm;height:6.4mm;padding:0 .8mm;border:.25mm solid currentColor;border-radius:3.2mm;font-weight:650;font-size:13px;line-height:1;color:var(--ink);text-decoration:none}
a.balloon-text{border-color:var(--accent)}
.title-block{display:grid;grid-template-columns:1.7fr 1fr 1fr 1fr;break-inside:avoid;border-top:var(--wide);margin:auto 0 0}
.title-block div{padding:.8mm 2mm 1mm;border-left:var(--thin);border-top:var(--thin);min-height:9.5mm;min-width:0}
.title-block div:nth-child(4n+1){border-left:0}
.title-block div:nth-child(-n+4){border-top:0}
.title-block dt{font-size:11px;line-height:1.25;color:var(--faint)}
.title-block dd{margin:0;font-size:13.5px;font-weight:600;line-height:1.25;overflow-wrap:anywhere}
.title-block .name dd{font-size:15.5px;display:-webkit-box;-webkit-box-orient:vertical;-webkit-line-clamp:2;overflow:hidden}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:top;padding:1.7mm 1.6mm;border-top:.25mm solid var(--rule);font-weight:400}
.number,th.number{text-align:right}
th:first-child,td:first-child{padding-left:0}
th:last-child,td:last-child{padding-right:0}
thead{display:table-header-group}
thead th{font-size:12.5px;line-height:1.25;color:var(--faint);border-top:.5mm solid var(--line);vertical-align:bottom;padding-top:1.2mm;padding-bottom:1.2mm}
tr{break-inside:avoid}
tbody tr:last-child>*{border-bottom:.5mm solid var(--line)}
.shares tbody tr:last-child>*{border-bottom:0}
.advice tbody tr:first-child>*,.settings tbody tr:first-child>*{border-top:.5mm solid var(--line)}
td b,th b{font-weight:650}
.what .tip,.readings th .tip{display:block}
.printing{display:grid;grid-template-columns:1fr 58mm;gap:0 6mm;align-items:start}
.advice th{width:27mm;font-weight:650}
.places{display:inline-flex;flex-wrap:wrap;gap:.8mm 1mm;vertical-align:-1.6mm}
.advice .mark{vertical-align:-.9mm}
.printing .figures{border:var(--thin)}
.printing.several{grid-template-columns:1fr;gap:3mm 0}
.several .count-3{grid-template-columns:repeat(3,1fr)}
.several .count-4{grid-template-columns:repeat(4,1fr)}
.sizes{margin:2.5mm 0}
.sizes th:first-child,.fits th:first-child,.holds th:first-child{width:10mm}
.limits{font-weight:650}
.box-cell{width:22mm}
.box{display:inline-block;width:20mm;height:7.5mm;border:.25mm solid var(--accent)}
.put-in ol{padding-left:6mm;margin:1.5mm 0 2.5mm}
.put-in li{margin-bottom:1mm;padding-left:1mm}
.sizes .number,.fits .number,.readings .number,.holds .number{width:1%}
.window{width:38mm}
.window span{display:block;font-size:13px;white-space:nowrap;text-align:center}
.window-bar{display:block;width:35mm;height:auto;margin:0 auto .4mm}
.window-bar path{fill:none;stroke:var(--line);stroke-width:1.2}
.window-bar .hatch{stroke:var(--rule);stroke-width:.8}
.window-bar .zero{stroke-width:1;stroke-dasharray:3 2}
.window-bar .whisker{stroke-width:1.8}
.window-bar .sign{fill:var(--line);stroke:var(--paper);stroke-width:.8}
.window-bar .cross{fill:none;stroke:var(--fails);stroke-width:2.6}
.give{color:var(--faint)}
.typed{display:inline-block;white-space:nowrap;margin-right:2.2mm}
.readings .as-typed{overflow-wrap:anywhere}
.readings .typed{white-space:normal}
.finding{border:var(--thin);border-left:1.4mm solid var(--caution);padding:2.5mm 3.5mm;margin-bottom:3mm;break-inside:avoid}
.finding.fails{border-left:1.4mm double var(--fails);border-left-width:1.8mm}
.finding h3,.holding{display:flex;gap:2mm;align-items:center}
.finding h3 .measured{font-weight:400}
.finding em{font-style:normal;font-weight:400;color:var(--faint)}
.finding.fails em{color:var(--fails)}
.finding.caution em{color:var(--caution)}
.finding dl{margin:1.5mm 0 0}
.finding dl div{display:grid;grid-template-columns:16mm 1fr}
.finding dt{color:var(--faint);font-size:13px}
.finding dd{margin:0;overflow-wrap:anywhere}
.finding .do dd{font-weight:650}
.finding .from dd,.finding .where dd,.finding .besides dd{font-size:13px;color:var(--faint)}
.holding{margin:5mm 0 2mm}
.holds td b{font-weight:600}
.holds .number{white-space:nowrap}
.sources{list-style:none;font-size:13px;line-height:1.38;columns:2;column-gap:7mm;margin-top:1.5mm}
.findings h3:not(:first-child){margin-top:5mm}
.sources li{display:grid;grid-template-columns:9mm 1fr;break-inside:avoid;margin-bottom:.8mm}
.sources span{min-width:0}
.settings{margin-top:3mm}
.settings th{width:56mm}
.readings tbody th{width:46%}
.settings td{overflow-wrap:anywhere}
.again p+p{margin-top:2mm}
.promise ul,.refits ul{padding-left:5mm}
.promise li{margin-bottom:1mm;max-width:86ch}
:target{outline:.5mm solid var(--accent);outline-offset:1mm}
@media (prefers-reduced-motion:reduce){html{scroll-behavior:auto}}
@media screen and (max-width:700px){
.several .count-3,.several .count-4{grid-template-columns:1fr 1fr}
main{padding:3.5mm 3.5mm 10mm}
nav{justify-content:flex-start;padding:1.6mm 3.5mm;gap:1mm 4.5mm}
h1{font-size:23px}
.frame{margin-top:3mm}
.overview{grid-template-columns:1fr}
.frame section{padding:3mm}
.frame .verdict{border-left:0;border-top:var(--thin)}
.share{width:26mm}
.title-block{grid-template-columns:1fr 1fr}
.title-block div,.title-block div:nth-child(4n+1){border-left:var(--thin);border-top:var(--thin)}
.title-block div:nth-child(odd){border-left:0}
.title-block div:nth-child(-n+2){border-top:0}
.printing{grid-template-columns:1fr;gap:3mm 0}
.advice tr{display:block;padding:1.6mm 0;border-top:.25mm solid var(--rule)}
.advice tr>*{display:block;width:auto;border:0!important;padding:0}
.sizes thead,.fits thead,.readings thead,.holds thead,.changes thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.sizes,.fits,.readings,.holds,.changes,.sizes tbody,.fits tbody,.readings tbody,.holds tbody,.changes tbody{display:block}
.sizes tr,.fits tr,.readings tr,.holds tr,.changes tr{display:grid;gap:1mm 3mm;padding:2.4mm 0;border-top:.25mm solid var(--rule);align-items:start}
.sizes tr>*,.fits tr>*,.readings tr>*,.holds tr>*,.changes tr>*{border:0!important;padding:0!important;width:auto!important;text-align:left;min-width:0}
[data-label]::before{content:attr(data-label);display:block;font-size:12px;line-height:1.2;color:var(--faint);font-weight:400}
.sizes tr{grid-template-columns:9mm .8fr .9fr auto auto}
.fits tr{grid-template-columns:9mm 1fr 1fr 1fr}
.sizes .what,.fits .what{grid-column:2/-1}
.sizes [data-label=drawn],.fits [data-label=machine],.fits [data-label=clearance]{grid-column-start:2}
.fits .window{grid-column:2/-1;order:1}
.fits [data-label=clearance]{grid-column:2/4}
.window span{text-align:left}
.window-bar{margin:0 0 .4mm;width:40mm}
.box{width:17mm}
.readings tr{grid-template-columns:1.5fr 1.3fr .8fr .5fr}
.readings th,.readings .as-typed{grid-column:1/-1}
.holds tr{grid-template-columns:9mm 1fr 1.2fr .7fr}
.holds .what{grid-column:2/-1}
.holds [data-label=found]{grid-column-start:2}
.holds .number{white-space:normal}
.changes tr{grid-template-columns:1fr 1fr}
.changes th,.changes td:last-child{grid-column:1/-1}
.finding dl div{grid-template-columns:1fr}
.sources{columns:1}
.settings th{width:42%}
}
@media print{
@page{size:A4;margin:10mm 10mm 11mm 14mm}
:root{--paper:#fff;--ink:#000;--line:#000;--faint:#333;--rule:#777}
nav{display:none}
html{scroll-behavior:auto}
body{font-size:9.8pt;line-height:1.36}
main{width:auto;padding:0}
h1{font-size:18pt}
h2{font-size:12.5pt}
h3{font-size:10pt}
a{color:inherit;text-decoration:none}
a.balloon-text{border-color:currentColor}
.picture image{filter:contrast(1.16)}
.figures{background:#fff}
.sheet{min-height:274mm;display:flex;flex-direction:column}
.frame{flex:1;margin:3mm .4mm 0 0}
.overview{flex:1 1 auto;display:flex;flex-direction:column}
.overview .figures{flex:1 1 44mm;min-height:44mm;padding-top:.5mm;grid-auto-rows:minmax(0,1fr)}
.overview .count-3,.overview .count-4{flex-basis:70mm;min-height:70mm}
.overview figure{display:flex;flex-direction:column;min-height:0}
.overview .picture{flex:1 1 0;min-height:0}
.frame .verdict{border-left:0;border-top:var(--thin);display:grid;grid-template-columns:1fr 1fr;gap:0 8mm}
.verdict h2{grid-column:1/-1}
.title-block{margin:0}
.tip,.key,.shares,.finding .from dd,.finding .where dd,.finding .besides dd,.finding dt,.window span{font-size:8.6pt;line-height:1.32}
.sources{font-size:8.2pt;line-height:1.3}
thead th{font-size:8.4pt}
figcaption{font-size:8.6pt;color:#222}
.title-block dt{font-size:7.5pt}
.title-block dd{font-size:9.5pt}
.title-block .name dd{font-size:11pt}
.balloon-text{font-size:8.8pt;height:5.6mm;min-width:5.6mm}
th,td{padding-top:1mm;padding-bottom:1mm}
.box{height:6.2mm}
.holds{font-size:9pt}
section{margin-top:6.5mm}
.at-the-bench{break-before:page}
.at-the-bench>section:first-child{margin-top:0}
.put-in,.promise,.again{break-inside:avoid}
.bench>p{break-after:avoid}
.say a{text-decoration:none}
}
`.trim();

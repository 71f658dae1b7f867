import { fontStack, ink } from '../drawing/index.ts';

/** Style of the page: paper on the screen, black on white from the printer, one column on a phone. */
export const style = `
*{box-sizing:border-box}
html{background:${ink.paper};color:${ink.ink};-webkit-text-size-adjust:100%}
body{margin:0;font:15px/1.4 ${fontStack};font-variant-numeric:tabular-nums}
main{width:min(186mm,100%);margin:0 auto;padding:6mm 0 10mm}
h1{font-size:26px;line-height:1.15;margin:0;font-weight:650}
h2{break-after:avoid;font-size:16px;margin:0 0 2mm;font-weight:650}
p{margin:0}
.lead{margin-top:1mm;max-width:96ch}
.frame{border:.7mm solid ${ink.ink};margin-top:4mm;display:flex;flex-direction:column}
.figures{display:flex;flex-wrap:wrap;justify-content:space-evenly;align-items:center;gap:3mm 6mm;padding:4mm 2.2mm}
figure{margin:0;text-align:center;max-width:100%;break-inside:avoid}
figure svg{display:block;max-width:100%;height:auto;margin:0 auto}
figcaption{font-size:13px;margin-top:1mm}
figcaption b{font-weight:650}
.title-block{display:grid;grid-template-columns:1.7fr 1.35fr .9fr 1.9fr;break-inside:avoid;border-top:.7mm solid ${ink.ink};margin:auto 0 0}
.title-block div{padding:.8mm 2mm 1mm;border-left:.25mm solid ${ink.ink};border-top:.25mm solid ${ink.ink};min-height:9mm}
.title-block div:nth-child(4n+1){border-left:0}
.title-block div:nth-child(-n+4){border-top:0}
.title-block dt{font-size:10.5px;line-height:1.2;color:#4b535d}
.title-block dd{margin:0;font-size:13.5px;font-weight:600;line-height:1.25;overflow-wrap:anywhere}
.title-block .name dd{font-size:17px}
section{margin-top:7mm}
.first{display:grid;grid-template-columns:1fr 62mm;gap:4mm 8mm;align-items:start;break-inside:avoid}
.field{display:flex;align-items:baseline;gap:2mm;margin:0 0 1.2mm}
.field i{font-style:normal;flex:1}
.field u{text-decoration:none;border-bottom:.25mm solid ${ink.ink};width:24mm;height:7mm;flex:none}
.rule svg{display:block;margin-left:-3mm}
.tip{font-size:13.5px;line-height:1.35;color:#3c4550}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:top;padding:2mm 1.5mm;border-top:.25mm solid ${ink.ink};font-weight:400}
thead th{font-size:12px;line-height:1.25;color:#3c4550;border-top:.5mm solid ${ink.ink};padding:1mm 1.5mm;vertical-align:bottom}
thead{display:table-header-group}
tr{break-inside:avoid}
tbody tr:last-child>*{border-bottom:.5mm solid ${ink.ink}}
.readings th:first-child{width:11mm;padding-left:0}
.balloon-text{display:inline-grid;place-items:center;width:8mm;height:8mm;border:.25mm solid ${ink.ink};border-radius:50%;background:#fff;font-weight:650;font-size:17px}
.what b{display:block;font-size:17px;line-height:1.25;font-weight:650}
.what .tip{display:block;margin-top:.6mm}
.jaws{width:30mm}
.jaws span{display:block;font-size:12.5px;line-height:1.25}
.pictogram{display:block;width:27mm;max-width:100%;height:auto;margin:-.4mm 0 .4mm -1.2mm}
.range{width:20mm;white-space:nowrap}
.boxes{width:61mm;white-space:normal}
.box{display:inline-grid;place-items:center;width:17.5mm;height:9mm;font-size:13px;letter-spacing:-.01em;white-space:nowrap;border:.25mm solid ${ink.accent};background:#fff;margin:0 1mm 1mm 0;font-weight:600;vertical-align:top;overflow:hidden}
.settings th{width:44mm;padding-left:0}
.settings td{width:52mm}
.settings td:last-child{width:auto}
.option{white-space:nowrap;margin-right:2mm}
.end>div{break-inside:avoid;margin-top:5mm}
@media screen and (max-width:640px){
main{padding:4mm 3.5mm 8mm}
.title-block{grid-template-columns:1fr 1fr}
.title-block div,.title-block div:nth-child(4n+1){border-left:.25mm solid ${ink.ink};border-top:.25mm solid ${ink.ink}}
.title-block .name{grid-column:1/-1;border-left:0;border-top:0}
.title-block div:nth-child(even){border-left:0}
.title-block div:last-child{grid-column:1/-1}
.first{grid-template-columns:1fr}
.readings thead{display:none}
.readings,.readings tbody,.settings,.settings tbody{display:block}
.readings tr{display:grid;grid-template-columns:11mm 1fr auto;padding:3mm 0;border-top:.25mm solid ${ink.ink}}
.readings tr>*,.settings tr>*{border:0!important;padding:0;width:auto}
.readings .what{grid-column:2/-1}
.readings .jaws{grid-column:2;margin-top:2mm;width:auto}
.readings .range{grid-column:3;align-self:end;margin-top:2mm}
.readings .range::before{content:"plausible, mm";display:block;font-size:12px;color:#3c4550}
.readings .boxes{grid-column:2/-1;margin-top:2.5mm}
.settings tr{display:block;padding:2.5mm 0;border-top:.25mm solid ${ink.ink}}
.settings tr>*{display:block}
.settings th{font-weight:650}
}
@media print{
@page{size:A4;margin:10mm 10mm 10mm 14mm}
html{background:#fff;color:#000}
main{width:auto;padding:0}
body{font-size:10.5pt}
h1{font-size:19pt}
.drawing{min-height:276mm;display:flex;flex-direction:column}
.frame{flex:1;margin-top:3mm}
.tip{font-size:9.2pt}
th,td{padding:1.5mm}
.settings th,.settings td{padding:1.1mm 1.5mm}
.settings th{padding-left:0}
.end>div{margin-top:3mm}
.figures{flex:1;align-content:space-evenly}
.measure{break-before:page;margin-top:0}
.tip,.title-block dt,thead th{color:#222}
.machine{stroke:#555}
}
`.trim();

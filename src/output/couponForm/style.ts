import { ink } from '../drawing/index.ts';
import { style as sheetStyle } from '../sheet/style.ts';

/** Style of the form: that of the measuring sheet, with rows low enough for thirty readings. */
export const style = `${sheetStyle}
.coupon .plan{padding:2mm 1mm;flex:1;display:grid;place-items:center}
.how{display:grid;grid-template-columns:1fr 1fr;gap:2mm 8mm;padding:2mm 3mm 3mm;border-top:.25mm solid ${ink.ink}}
.how ol{margin:1mm 0 0;padding-left:5mm}
.how li{margin-bottom:.6mm}
code{font-family:ui-monospace,DejaVu Sans Mono,monospace;font-size:.92em;overflow-wrap:anywhere}
.readings tbody{break-inside:auto}
.readings .jaw td{padding-left:0}
.readings .jaw div{display:flex;gap:3mm;align-items:center}
.readings .jaw .pictogram{width:24mm;flex:none;margin:0 0 0 -1mm}
.readings .jaw{break-after:avoid}
.readings .jaw>*{border-top:.5mm solid ${ink.ink};padding-top:3mm}
.readings .jaw b{display:block;font-weight:650}
.readings .drawn{width:16mm;font-weight:600;padding-top:2.6mm}
.coupon .boxes{width:50mm;white-space:nowrap}
.coupon .box{width:15mm}
.coupon .what b{display:inline}
.coupon .what code{color:#4b535d;margin-left:1mm}
.coupon .what b{font-size:15px}
.coupon .what .tip{font-size:12.5px;margin-top:0}
@media screen and (max-width:640px){
.how{grid-template-columns:1fr}
.readings .jaw td{grid-column:1/-1}
.readings .drawn{grid-column:3;grid-row:2;padding:0;width:auto;align-self:center}
.readings .drawn::before{content:"drawn ";font-size:12px;font-weight:400}
.coupon .what{grid-column:2/-1;grid-row:1}
.coupon .boxes{grid-column:2;grid-row:2;width:auto;white-space:normal}
}
.coupon .how .box{height:7mm;vertical-align:middle}
@media print{
.how{font-size:9.2pt;line-height:1.28}
.how h2{font-size:11pt;margin:0}
.coupon .how .box{height:6mm}
.coupon header .lead{font-size:10pt}
.coupon .what b{font-size:10.5pt}
.coupon .what .tip{font-size:8.6pt;line-height:1.25}
.coupon th,.coupon td{padding:1mm 1.2mm}
.coupon .balloon-text{width:7mm;height:7mm;font-size:11pt}
.coupon .box{height:8mm;margin-bottom:0}
}
`.trim();

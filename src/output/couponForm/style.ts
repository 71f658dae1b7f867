import { ink } from '../drawing/index.ts';
import { style as sheetStyle } from '../sheet/style.ts';

/** Style of the form: that of the measuring sheet, with rows low enough for thirty readings. */
export const style = `${sheetStyle}
.coupon .plan{padding:3mm 2mm}
.how{display:grid;grid-template-columns:1fr 1fr;gap:2mm 8mm;margin-top:3mm}
.how ol{margin:1mm 0 0;padding-left:5mm}
.how li{margin-bottom:.6mm}
code{font-family:ui-monospace,DejaVu Sans Mono,monospace;font-size:.92em;overflow-wrap:anywhere}
.readings tbody{break-inside:auto}
.readings .jaw th{padding-left:0;width:28mm;vertical-align:middle}
.readings .jaw td{vertical-align:middle}
.readings .jaw{break-after:avoid}
.readings .jaw>*{border-top:.5mm solid ${ink.ink};padding-top:3mm}
.readings .jaw b{display:block;font-weight:650}
.readings .id{width:26mm;font-family:ui-monospace,DejaVu Sans Mono,monospace;font-size:12px;padding-top:3.4mm}
.readings .drawn{width:16mm;font-weight:600;padding-top:2.6mm}
.coupon .boxes{width:58mm;white-space:nowrap}
.coupon .what b{font-size:15px}
.coupon .what .tip{font-size:12.5px;margin-top:0}
@media screen and (max-width:640px){
.how{grid-template-columns:1fr}
.readings .jaw td{grid-column:1/-1;margin-top:1mm}
.readings .jaw th{grid-column:1/-1}
.readings .id{grid-column:2;padding:0}
.readings .drawn{grid-column:3;padding:0}
.readings .drawn::before{content:"drawn, mm ";font-size:12px;font-weight:400}
.coupon .what{grid-column:2/-1;grid-row:1}
.coupon .boxes{width:auto;white-space:normal}
}
@media print{
.coupon .what b{font-size:10.5pt}
.coupon .what .tip{font-size:8.6pt;line-height:1.25}
.coupon th,.coupon td{padding:1mm 1.2mm}
.coupon .drawing{min-height:0}
.coupon .balloon-text{width:7mm;height:7mm;font-size:11pt}
.coupon .box{height:8mm;margin-bottom:0}
}
`.trim();

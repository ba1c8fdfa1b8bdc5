/** The looks of the page that `compare --html` writes: ink on a shop's paper, and the same in the dark. */
export const STYLE = `
:root{--page:#eef0ee;--sheet:#f8f9f8;--ink:#14191b;--ink2:#434d50;--ink3:#5b6669;--line:#cdd3d1;--dye:#1a4e9e;--touch:#b01219;--short:#dd7a14}
@media (prefers-color-scheme:dark){:root{--page:#15181a;--sheet:#1b1f22;--ink:#f0f3f2;--ink2:#bcc5c7;--ink3:#929da0;--line:#2f3639;--dye:#7fb0ff;--touch:#ff6e5c;--short:#cd7714}}
*{box-sizing:border-box}
body{margin:0 auto;max-width:1080px;padding:28px 20px;background:var(--page);color:var(--ink);font:15px/1.34 Archivo,system-ui,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:break-word}
h1{font-size:clamp(22px,3.4vw,31px);line-height:1.14;letter-spacing:-.018em;font-weight:680;margin:12px 0;max-width:34em}
h2{font-size:18px;font-weight:680;margin:28px 0 8px;padding-top:12px;border-top:1px solid var(--line)}
h3{font-size:15px;font-weight:600;margin:16px 0 4px}
p{margin:4px 0}
.where{font-size:18px;color:var(--ink2);margin-bottom:12px}
.names{color:var(--ink2);font-weight:500}
.mark{display:inline-block;min-width:22px;text-align:center;border-radius:4px;font-weight:680;border:2px solid var(--ink);color:var(--ink)}
.mark.b{border:2px dashed var(--dye);color:var(--dye);margin-left:12px}
.caution,footer{color:var(--ink2);font-size:13px;line-height:16px;max-width:70em}
footer{margin-top:28px;padding-top:12px;border-top:1px solid var(--line)}
ul{margin:4px 0;padding-left:20px}
li{margin:4px 0}
.trade{list-style:none;padding:0}
.trade li{display:grid;grid-template-columns:52px 132px 1fr;gap:12px;align-items:center;padding:6px 0;border-bottom:1px solid var(--line);margin:0}
.trade svg{width:132px;height:16px}
.trade line{stroke:var(--ink);stroke-width:1.5}
.kind{font-weight:600;color:var(--ink2)}
rect.gain{fill:var(--dye)}
rect.cost{fill:var(--short)}
rect.other{fill:var(--ink3)}
strong{font-weight:680;color:var(--touch)}
.table{overflow-x:auto;margin:8px 0}
table{border-collapse:collapse;width:100%;font-size:14px}
th,td{padding:4px 8px;border-bottom:1px solid var(--line);text-align:right;vertical-align:top}
th:first-child{text-align:left;padding-left:0}
tbody th{font-weight:500}
thead th{color:var(--ink2);font-size:13px;font-weight:600}
.range{display:grid;grid-template-columns:minmax(220px,300px) 1fr;gap:20px;align-items:start}
.range svg{width:100%;max-width:300px;height:auto}
.range text{fill:var(--ink2);font-size:13px;font-family:inherit}
.grid{stroke:var(--line);stroke-width:1}
.axis{stroke:var(--ink3);stroke-width:1}
.edgeA{fill:none;stroke:var(--ink);stroke-width:2}
.edgeB{fill:none;stroke:var(--dye);stroke-width:2;stroke-dasharray:6 4}
@media screen and (max-width:720px){.range{grid-template-columns:1fr}.trade li{grid-template-columns:44px 1fr}.trade li span:last-child{grid-column:1/3}}
@media print{
@page{margin:14mm}
:root{--page:#fff;--sheet:#fff;--ink:#000;--ink2:#333;--ink3:#555;--line:#bbb;--dye:#1a4e9e;--touch:#b01219;--short:#dd7a14}
body{max-width:none;padding:0;font-size:10pt;print-color-adjust:exact;-webkit-print-color-adjust:exact}
h1{font-size:17pt}h2{font-size:12pt;break-after:avoid}h3{break-after:avoid}
table{font-size:9pt}thead{display:table-header-group}tr,li,svg{break-inside:avoid}
.table{overflow:visible}
}
`;

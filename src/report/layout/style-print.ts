/** How the page prints on A4 and Letter: nothing cut in two, heads of tables repeated, one mark on every page. */
export const printStyle = `
@media print {
  @page { margin: 17mm 15mm 18mm; }
  html { font-size: 10pt; }
  .page { max-width: none; padding: 0; }
  .columns { display: block; }
  .masthead { padding-top: 0; }
  .skip, .synthetic-banner, .unfold, .contents { display: none; }
  .synthetic .page { padding-right: 9mm; }
  .print-mark {
    display: block;
    position: fixed;
    top: 0;
    right: 0;
    height: 100%;
    width: 6mm;
    margin: 0;
    writing-mode: vertical-rl;
    text-align: center;
    font-weight: 700;
    font-size: 8.5pt;
    line-height: 6mm;
    letter-spacing: 0.06em;
    border: 1px solid #000;
    color: #000;
    background: #fff;
  }
  section { margin-bottom: 1.2rem; }
  h3 { margin-top: 1.2rem; }
  figure { margin: 2mm 0 3mm; }
  h2, h3, caption, tr.group { break-after: avoid; }
  thead { display: table-header-group; break-after: avoid; }
  tr, .whole, figure, dt, .warnings li, .flow > li, .caution { break-inside: avoid; }
  dt { break-after: avoid; }
  .table-box, .figure-box { overflow: visible; }
  table { font-size: 8.5pt; width: 100%; }
  th, td { padding-top: 0.7mm; padding-bottom: 0.7mm; }
  tr.group th { padding-top: 1.5mm; }
  .strip { height: 4mm; }
  .table-box { margin: 3mm 0 1mm; }
  .note { margin-bottom: 1.5mm; }
  .figure-box svg { min-width: 0; width: 100%; max-height: 160mm; }
  h1 { font-size: 18pt; max-width: none; }
  .masthead { padding-bottom: 3mm; margin-bottom: 3mm; }
  p, ul, ol, dl, figcaption, .caution { max-width: none; }
  .plain-words p { font-size: 10pt; line-height: 1.4; margin-bottom: 1.6mm; }
  .behind { margin: 1.5mm 0; border: 0; }
  .behind + .behind { margin-top: 0; }
  .behind > summary { padding: 0; font-size: 8.5pt; }
  figcaption details { display: none; }
  .caution { break-before: avoid; }
  .caution, .flow > li, pre { background: none; border: 1px solid #777; }
  .caution { border-left: 4px solid #000; }
  p { orphans: 3; widows: 3; }
  a { color: inherit; text-decoration: none; }
}
`;

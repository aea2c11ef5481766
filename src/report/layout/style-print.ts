/** How the page prints on A4 and Letter: nothing cut in two, heads of tables repeated, one mark on every page. */
export const printStyle = `
@media print {
  @page { margin: 17mm 15mm 18mm; }
  html { font-size: 10pt; }
  .page { max-width: none; padding: 0; }
  .columns { display: block; }
  .masthead { padding-top: 0; }
  .contents { position: static; max-height: none; padding: 0 0 4mm; font-size: 8.5pt; line-height: 1.4; }
  .contents ol { columns: 2; max-width: none; }
  .skip, .synthetic-banner { display: none; }
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
  section { margin-bottom: 2.2rem; }
  h2, h3, caption, tr.group { break-after: avoid; }
  thead { display: table-header-group; break-after: avoid; }
  tr, .whole, figure, dt, .flow > li, .caution { break-inside: avoid; }
  dt { break-after: avoid; }
  .table-box, .figure-box { overflow: visible; }
  table { font-size: 8.5pt; min-width: 100mm; }
  th, td { padding-top: 1mm; padding-bottom: 1mm; }
  .figure-box svg { min-width: 0; width: 100%; max-height: 160mm; }
  h1 { font-size: 20pt; }
  .masthead { padding-bottom: 5mm; margin-bottom: 3mm; }
  .plain-words p { font-size: 10.5pt; line-height: 1.45; margin-bottom: 2mm; }
  .caution { break-before: avoid; }
  .caution, .flow > li, pre { background: none; border: 1px solid #777; }
  .caution { border-left: 4px solid #000; }
  p { orphans: 3; widows: 3; }
  a { color: inherit; text-decoration: none; }
}
`;

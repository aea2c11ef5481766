/** The page to talk over: on a screen one column on paper or in the dark, in print one A4. */
export const talkStyle = `
:root { --ink: #14202b; --soft: #47545f; --paper: #fff; --line: #c9d1d7; --dot: #0d3f57; color-scheme: light dark; }
* { box-sizing: border-box; }
body {
  margin: 0;
  color: var(--ink);
  background: var(--paper);
  font-family: "Inter", system-ui, sans-serif;
  font-size: 1rem;
  line-height: 1.45;
  font-variant-numeric: tabular-nums;
  overflow-wrap: anywhere;
}
main { max-width: 58rem; margin: 0 auto; padding: 1.5rem 1.25rem 3rem; }
.synthetic-banner {
  margin: 0;
  padding: 0.35rem 1rem;
  text-align: center;
  font-weight: 700;
  color: #1b1200;
  background: #ffd166;
  border-bottom: 2px solid #1b1200;
}
h1 { margin: 0 0 0.7rem; font-size: 1.75rem; line-height: 1.18; letter-spacing: -0.015em; text-wrap: balance; }
h2 { margin: 0 0 0.5rem; font-size: 1.05rem; line-height: 1.3; }
p { margin: 0 0 0.5rem; }
.like { font-size: 1.08rem; font-weight: 700; }
.counted { color: var(--soft); }
section { margin-top: 1.6rem; }
table { border-collapse: collapse; width: 100%; }
thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
tbody th, tbody td { padding: 0.4rem 0; border-top: 1px solid var(--line); vertical-align: middle; text-align: left; }
tbody tr:last-child > * { border-bottom: 1px solid var(--line); }
tbody th { white-space: nowrap; padding-right: 1.1rem; }
td.said { padding-left: 1.1rem; }
td.unsaid { color: var(--soft); }
td.said strong { display: block; white-space: nowrap; }
td.said span { color: var(--soft); }
.dots { display: block; width: 100%; max-width: 27.5rem; height: auto; }
.sample { width: 1.1rem; height: 1.1rem; vertical-align: -0.2rem; }
.dot { stroke: var(--dot); stroke-width: 1.4; fill: var(--paper); }
.dot.back, .dot.back-in-range { fill: var(--dot); }
.stripes { fill: none; stroke: var(--dot); stroke-width: 1.3; }
.stripes.back-in-range { stroke: var(--paper); stroke-width: 1.7; }
.signs { list-style: none; display: flex; flex-wrap: wrap; gap: 0.2rem 1.4rem; margin: 0.7rem 0 0.3rem; padding: 0; }
.signs-words { color: var(--soft); }
.two { display: grid; grid-template-columns: minmax(0, 1.2fr) minmax(0, 1fr); gap: 0 2rem; }
.two > :only-child { grid-column: 1 / -1; }
ul { margin: 0; padding-left: 1.1rem; }
li + li { margin-top: 0.3rem; }
.signs li + li { margin-top: 0; }
.else tbody th, .else tbody td { padding: 0.22rem 0 0.22rem 0.8rem; vertical-align: baseline; font-weight: 400; white-space: nowrap; }
.else tbody th { padding-left: 0; white-space: normal; }
.else tbody tr:last-child > * { border-bottom: 0; }
.else .when th { padding-top: 0.5rem; color: var(--soft); border-top: 0; }
.else .when + tr > * { border-top: 0; padding-top: 0; }
.else td.of-all { color: var(--soft); }
.else caption { text-align: left; padding: 0.5rem 0 0.2rem; }
.else p { margin-top: 0.4rem; }
.cautions { padding: 0.8rem 1rem; border: 2px solid var(--ink); }
.cautions p { margin: 0; }
.notes { display: none; }
footer { margin-top: 1.2rem; color: var(--soft); font-size: 0.85rem; }
@media screen and (max-width: 40rem) {
  h1 { font-size: 1.4rem; }
  .two { display: block; }
  .weeks tbody tr { display: grid; grid-template-columns: auto 1fr; border-top: 1px solid var(--line); padding: 0.4rem 0; }
  .weeks tbody tr > * { border: 0; padding: 0.1rem 0; }
  .weeks tbody tr:last-child > * { border: 0; }
  .weeks tbody th { order: 1; padding-right: 0.8rem; }
  td.said { order: 2; text-align: right; }
  td.row { order: 3; grid-column: 1 / -1; }
  td.unsaid { order: 2; text-align: right; }
  .else tbody td { padding-left: 0.5rem; white-space: normal; }
}
@media screen and (prefers-color-scheme: dark) {
  :root { --ink: #eef3f6; --soft: #b3c0c9; --paper: #10181f; --line: #3a4853; --dot: #9fd3ea; }
}
@media print {
  @page { size: A4; margin: 11mm 15mm 10mm; }
  html { font-size: 9.3pt; }
  body { display: flex; flex-direction: column; min-height: 274mm; line-height: 1.34; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .synthetic-banner { border: 1.5pt solid #000; padding: 0.6mm; font-size: 9pt; margin-bottom: 3.5mm; }
  main { flex: 1; display: flex; flex-direction: column; width: 100%; max-width: none; padding: 0; }
  h1 { font-size: 16.5pt; margin-bottom: 2mm; }
  p { margin-bottom: 1mm; }
  section { margin-top: 3.4mm; }
  h2 { margin-bottom: 1.2mm; }
  .like { font-size: 10.2pt; }
  .weeks tbody th, .weeks tbody td { padding: 1.3mm 0; }
  .weeks tbody th { padding-right: 2.5mm; }
  .weeks tbody td.said { padding-left: 4mm; }
  .weeks tbody th, td.said strong { font-size: 10.2pt; }
  .dots { max-width: none; width: 112mm; }
  .many .dots { width: 100mm; }
  .many td.said { padding-top: 0.6mm; padding-bottom: 0.6mm; white-space: nowrap; }
  .many td.said strong { display: inline; }
  .signs { margin: 1.6mm 0 0.8mm; }
  .two { gap: 0 7mm; }
  .else tbody th, .else tbody td { padding-top: 0.5mm; padding-bottom: 0.5mm; }
  .else .when th { padding-top: 1.2mm; }
  li + li { margin-top: 0.7mm; }
  .cautions { padding: 2mm 3mm; border-width: 1.2pt; }
  .notes { display: block; flex: 1 1 0; min-height: 11mm; border: 0.75pt solid var(--line); padding: 1.5mm 3mm; }
  .notes h2 { font-size: 8.5pt; font-weight: 400; color: var(--soft); }
  .many .notes { display: none; }
  footer { margin-top: 2mm; font-size: 7.5pt; }
  footer p { margin: 0; }
}
`;

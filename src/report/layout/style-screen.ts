/** How the page looks on a screen: dark ink on white, one column to read, contents beside it where there is room. */
export const screenStyle = `
:root {
  --ink: #1b2733;
  --soft: #51606d;
  --line: #d5dce1;
  --accent: #0f566b;
  --wash: #f2f6f7;
  --sand: #f8f3e8;
  --ochre: #9a5b00;
}
* { box-sizing: border-box; }
html { scroll-padding-top: 3.5rem; }
body {
  margin: 0;
  color: var(--ink);
  background: #fff;
  font-family: "Inter", system-ui, sans-serif;
  font-size: 1rem;
  line-height: 1.6;
  overflow-wrap: break-word;
  font-variant-numeric: tabular-nums;
}
a { color: var(--accent); text-underline-offset: 0.15em; }
a:focus-visible, [tabindex]:focus-visible, summary:focus-visible { outline: 3px solid var(--ochre); outline-offset: 2px; }
.skip { position: absolute; left: -100rem; }
.skip:focus { left: 1rem; top: 1rem; background: #fff; padding: 0.5rem 1rem; z-index: 3; }
.synthetic-banner {
  position: sticky;
  top: 0;
  z-index: 2;
  margin: 0;
  padding: 0.4rem 1rem;
  text-align: center;
  font-weight: 700;
  letter-spacing: 0.04em;
  color: #1b1200;
  background: #ffd166;
  border-bottom: 2px solid #1b1200;
}
.page { max-width: 78rem; margin: 0 auto; padding: 0 1.5rem 5rem; }
.masthead { padding: 3.5rem 0 2rem; border-bottom: 3px solid var(--accent); margin-bottom: 2rem; }
.masthead .kind { margin: 0; color: var(--accent); font-weight: 700; }
h1 { margin: 0.4rem 0 0.8rem; font-size: clamp(1.7rem, 4vw, 2.6rem); line-height: 1.15; letter-spacing: -0.015em; max-width: 26ch; overflow-wrap: anywhere; }
.masthead .asked { margin: 0; color: var(--soft); max-width: 44rem; }
.contents { padding: 1.2rem 0; }
.contents h2 { margin: 0 0 0.6rem; font-size: 0.95rem; color: var(--soft); font-weight: 700; }
.contents summary h2 { display: inline; }
.contents ol { margin: 0.6rem 0 0; padding-left: 1.6rem; }
.contents li { padding: 0.15rem 0; }
.contents li::marker { color: var(--soft); }
.contents a { text-decoration: none; }
.contents a:hover { text-decoration: underline; }
main { counter-reset: part; min-width: 0; }
section { margin-bottom: 4rem; }
section > h2 { counter-increment: part; margin: 0 0 1.2rem; font-size: 1.55rem; line-height: 1.25; letter-spacing: -0.01em; }
section > h2::before { content: counter(part); color: var(--accent); margin-right: 0.7rem; font-weight: 400; }
h3 { margin: 2.4rem 0 0.6rem; font-size: 1.1rem; line-height: 1.3; }
p, ul, ol, dl { max-width: 44rem; }
.synthetic-banner, .print-mark { max-width: none; }
p { margin: 0 0 1rem; }
.plain-words p { font-size: 1.2rem; line-height: 1.55; }
.plain-words ~ .plain-words p { font-size: 1rem; line-height: 1.6; }
.caution {
  max-width: 44rem;
  margin: 1rem 0;
  padding: 0.7rem 1rem;
  font-size: 0.92rem;
  line-height: 1.5;
  background: var(--sand);
  border-left: 5px solid var(--ochre);
}
.table-box { overflow-x: auto; margin: 1.4rem 0 0.6rem; }
table { border-collapse: collapse; min-width: min(100%, 30rem); font-size: 0.9rem; line-height: 1.4; }
caption { text-align: left; font-weight: 700; font-size: 1rem; padding: 0 0 0.5rem; }
th, td { padding: 0.42rem 0.9rem 0.42rem 0; text-align: left; vertical-align: top; border-bottom: 1px solid var(--line); overflow-wrap: break-word; }
thead :is(th, td) { vertical-align: bottom; font-weight: 700; color: var(--soft); border-bottom: 2px solid var(--ink); }
tbody th { font-weight: 400; min-width: 6.5rem; }
tr.group th { font-weight: 700; padding-top: 1rem; border-bottom-color: var(--soft); }
th.number, td.number { text-align: right; padding-right: 0; padding-left: 0.9rem; }
.number + :not(.number) { padding-left: 1.6rem; }
td.short, th.short { white-space: nowrap; }
th em { white-space: nowrap; }
td small { color: var(--soft); }
.note { font-size: 0.88rem; color: var(--soft); }
.strip { display: block; width: 12.5rem; height: 1.5rem; }
.strip-axis { stroke: #8a98a3; stroke-width: 1; }
.strip-interval { stroke: var(--accent); stroke-width: 4; stroke-linecap: round; opacity: 0.55; }
.strip-value { fill: var(--accent); stroke: #fff; stroke-width: 1.5; }
figure { margin: 1.6rem 0 2rem; }
.figure-box { overflow-x: auto; }
.figure-box svg { display: block; max-width: 100%; min-width: 32rem; height: auto; }
figcaption { max-width: 44rem; margin-top: 0.8rem; font-size: 0.92rem; color: var(--soft); }
figcaption summary { font-weight: 400; }
figcaption .caution { color: var(--ink); }
.warnings { list-style: none; padding: 0; }
.warnings li { margin-top: 0.8rem; padding-left: 1rem; border-left: 3px solid var(--accent); }
.meanings dt { font-weight: 700; margin-top: 1rem; }
.meanings dd { margin: 0; }
.figure-of { font-size: 0.85em; text-decoration: none; white-space: nowrap; }
.figure-of + .figure-of { margin-left: 0.2em; }
.figure-of:hover { text-decoration: underline; }
.figures-of li { margin-bottom: 0.5rem; scroll-margin-top: 3.5rem; }
.figures-of li:target { background: var(--sand); }
.plain-list { margin: 0; padding-left: 1rem; }
.plain-list li + li { margin-top: 0.3rem; }
.flow { list-style: none; padding: 0; }
.flow > li { padding: 0.7rem 1rem; background: var(--wash); border: 1px solid var(--line); margin-bottom: 1.5rem; position: relative; }
.flow > li:not(:last-child)::after { content: ""; position: absolute; left: 2rem; bottom: -1.5rem; height: 1.5rem; border-left: 2px solid var(--soft); }
.apart { margin: 0.4rem 0 0; padding-left: 1.2rem; font-size: 0.92rem; color: var(--soft); }
details summary { cursor: pointer; font-weight: 700; }
.behind { border-top: 1px solid var(--line); border-bottom: 1px solid var(--line); margin: 1rem 0; }
.behind + .behind { border-top: 0; margin-top: -1rem; }
.behind > summary { padding: 0.6rem 0; color: var(--accent); font-weight: 400; }
.behind[open] > summary { font-weight: 700; }
.unfold { display: none; }
@supports selector(::details-content) and selector(:has(a)) {
  .unfold { display: block; }
  body:has(#unfold:checked) .behind::details-content { content-visibility: visible; block-size: auto; }
}
pre { white-space: pre-wrap; overflow-wrap: anywhere; font-size: 0.85rem; line-height: 1.5; padding: 1rem; background: var(--wash); border: 1px solid var(--line); }
code { font-family: ui-monospace, monospace; }
.print-mark { display: none; }
@media (min-width: 64rem) {
  .columns { display: grid; grid-template-columns: 14rem minmax(0, 1fr); gap: 3.5rem; }
  .contents details::details-content { content-visibility: visible; block-size: auto; }
  .contents summary { list-style: none; cursor: default; pointer-events: none; }
  .contents { position: sticky; top: 3rem; align-self: start; max-height: calc(100vh - 4rem); overflow-y: auto; font-size: 0.92rem; }
}
@media (max-width: 40rem) {
  .page { padding: 0 1rem 3rem; }
  .masthead { padding-top: 2rem; }
  .plain-words p { font-size: 1.08rem; }
  .contents { padding-bottom: 2.5rem; }
}
`;

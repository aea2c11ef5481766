import type { Results } from "../../study/results.js";
import { cautionsToClimber, syntheticLine } from "../../words/cautions.js";
import { intervalName } from "../../words/estimates.js";
import { capital, shortened } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { clockWords, milestoneWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { html, type Safe, trusted } from "../escape.js";
import { pageHead } from "../layout/head.js";
import { type Digest, policyOf } from "../layout/policy.js";
import { talkStyle } from "../layout/style-talk.js";
import { cannotSay } from "./cannot-say.js";
import { type Dots, dotsInRow, dotsOf, fewestInjuries, isNarrowEnough } from "./dots.js";
import { dotsRow, sampleDot } from "./dots-row.js";
import type { TalkGroup } from "./groups.js";
import { countedWords, likeYou } from "./of-whom.js";
import { weeksShown } from "./weeks-shown.js";
import { type Happenings, whatElse } from "./what-else.js";

export interface TalkInput {
  readonly results: Results;
  readonly group: TalkGroup;
  /** Version of the toolkit. */
  readonly version: string;
  /** Style rules that bring the fonts as `data:`; may be empty. */
  readonly fontCss: string;
  readonly sha256: Digest;
}

/** A page to talk over, as one file that stands alone and prints on one A4. */
export async function talkPage(input: TalkInput): Promise<string> {
  const style = input.fontCss + talkStyle;
  const policy = await policyOf(style, input.sha256);
  return documentOf(input, { policy, style: trusted(style) }).markup;
}

/** By this a page is known as one of this toolkit. */
export const talkMark = '<meta name="application-name" content="pulley-outcomes talk">';

const questionOf = ({ plan }: Results): string =>
  `Of ${dotsInRow} climbers like you, how many were ${milestoneWords[plan.question.milestone].back}?`;

function documentOf(
  { results, group, version }: TalkInput,
  { policy, style }: { readonly policy: string; readonly style: Safe },
): Safe {
  const { synthetic } = results.plan;
  const question = questionOf(results);
  const rows = rowsShown(group, results);
  const title = `${synthetic ? "SYNTHETIC: " : ""}${question} (${shortened(group.name)})`;
  return html`<!doctype html>
<html lang="en">
${pageHead({ title, policy, style, mark: trusted(talkMark) })}
<body>
${synthetic ? html`<header class="synthetic-banner">${syntheticLine}</header>\n` : null}<main${rows.length > roomyRows ? html` class="many"` : null}>
<header>
<h1>${question}</h1>
<p class="like">${likeYou(group, results)}</p>
<p class="counted">${countedOf(group, results)}</p>
</header>
<section class="weeks" aria-labelledby="weeks">
<h2 id="weeks">Week by week</h2>
${rowsOf(rows)}${signs(results)}</section>
<div class="two">
${elseSection(group, results)}<section aria-labelledby="cannot">
<h2 id="cannot">What this page cannot say</h2>
<ul>
${cannotSay(group, results).map((one) => html`<li>${one}</li>\n`)}</ul>
</section>
</div>
<section class="cautions" aria-labelledby="cautions">
<h2 id="cautions">Before you climb</h2>
<p>${cautionsToClimber.join(" ")}</p>
</section>
<section class="notes" aria-labelledby="notes">
<h2 id="notes">What we talked about</h2>
</section>
<footer>
<p>${source(results, version)}</p>
</footer>
</main>
</body>
</html>
`;
}

function countedOf(group: TalkGroup, results: Results): string {
  const { milestone, clock } = results.plan.question;
  const { back, state } = milestoneWords[milestone];
  return `Counted: ${countedWords(group, results)} “${capital(back)}” means that ${state}. Weeks are counted from ${clockWords[clock]}.`;
}

/** More rows than this are set closer together in print, and leave no room for notes. */
const roomyRows = 4;

function rowsShown({ landmarks }: TalkGroup, { plan }: Results): TalkGroup["landmarks"] {
  const shown = weeksShown(
    landmarks.map(({ week }) => week),
    plan.main_landmark_weeks,
  );
  return landmarks.filter(({ week }) => shown.includes(week)).toSorted((one, other) => one.week - other.week);
}

/** Heads of columns, for the ear alone. Roles are written out, since a table that is laid out otherwise on a narrow screen is none to some readers. */
const headOf = (heads: readonly string[]): Safe =>
  html`<thead role="rowgroup"><tr role="row">${heads.map((head) => html`<th scope="col" role="columnheader">${head}</th>`)}</tr></thead>
`;

const rowsOf = (landmarks: TalkGroup["landmarks"]): Safe => html`<table role="table">
${headOf(["Time", "Dots", "How many were back"])}<tbody role="rowgroup">
${landmarks.map(rowOf)}</tbody>
</table>
`;

function rowOf({ week, returned }: TalkGroup["landmarks"][number]): Safe {
  const dots = dotsOf(returned);
  const head = html`<th scope="row" role="rowheader">By ${weeks(week)}</th>`;
  if (dots === null)
    return html`<tr role="row">${head}<td role="cell" class="unsaid" colspan="2">cannot be said: ${reasonWords(returned.reason)}</td></tr>\n`;
  if (!isNarrowEnough(dots))
    return html`<tr role="row">${head}<td role="cell" class="unsaid" colspan="2">cannot be said: anything between ${dots.from} and ${dots.to} of ${dotsInRow}</td></tr>\n`;
  return html`<tr role="row">${head}<td role="cell" class="row">${dotsRow(dots)}</td><td role="cell" class="said"><strong>${aboutWords(dots)}</strong> <span>${rangeWords(dots)}</span></td></tr>\n`;
}

function aboutWords({ back, nearly }: Dots): string {
  if (nearly === "none") return `fewer than 1 of ${dotsInRow}`;
  if (nearly === "all") return `nearly all ${dotsInRow}`;
  if (back === 0) return `none of ${dotsInRow}`;
  return back === dotsInRow ? `all ${dotsInRow}` : `about ${back} of ${dotsInRow}`;
}

const rangeWords = ({ from, to }: Dots): string => `between ${from} and ${to}`;

/** What the signs mean. */
const signs = ({ plan }: Results): Safe => html`<ul class="signs">
<li>${sampleDot("back")} back</li>
<li>${sampleDot("not")} not back</li>
<li>${sampleDot("back-in-range")} ${sampleDot("not-in-range")} striped: the range</li>
</ul>
<p class="signs-words">Each dot is one of ${dotsInRow} climbers. The filled ones, plain or striped, are the best estimate. Chance plays a part: the true number is probably in the range (for your clinician: the ${intervalName(plan.confidence_level)}, rounded outwards to whole dots).</p>
`;

function elseSection(group: TalkGroup, results: Results): Safe {
  const { ofGroup, ofAll, notes } = whatElse(group, results);
  if (ofGroup.length + ofAll.length === 0) return trusted("");
  const { analysed } = results.accounting.analysis;
  return html`<section class="else" aria-labelledby="else">
<h2 id="else">What else happened</h2>
${tableOf(ofGroup, null)}${tableOf(ofAll, `Of all ${analysed} injuries, not of this group alone:`)}<p>${notes.join(" ")}</p>
</section>
`;
}

const tableOf = (parts: readonly Happenings[], caption: string | null): Safe =>
  parts.length === 0
    ? trusted("")
    : html`<table role="table">${caption === null ? null : html`<caption>${caption}</caption>`}
${headOf(["What", `How many of ${dotsInRow}`, "How many were counted"])}${parts.map(
  ({ when, those }) => html`<tbody role="rowgroup">
<tr class="when" role="row"><th scope="rowgroup" role="rowheader" colspan="3">${when}</th></tr>
${those.map(({ what, ofTwenty, counted }) => html`<tr role="row"><th scope="row" role="rowheader">${what}</th><td role="cell">${ofTwenty}</td><td role="cell" class="of-all">${counted}</td></tr>\n`)}</tbody>
`,
)}</table>
`;

const source = ({ plan }: Results, version: string): string =>
  `Made by pulley-outcomes ${version} from the results of the study “${shortened(plan.title, 80)}”. Never made for fewer than ${fewestInjuries} injuries.`;

import { curveName } from "../../words/curve-families.js";
import { isKeptApart } from "../../words/definitions.js";
import { intervalName, intervalWords } from "../../words/estimates.js";
import { share } from "../../words/numbers.js";
import { reasonWords } from "../../words/reasons.js";
import { milestoneWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { caution } from "../layout/blocks.js";
import { estimandLine, estimandMarks } from "../layout/estimand-mark.js";
import { leadingFigureBlock } from "../layout/figure.js";
import { shareStrip } from "../layout/strip.js";
import { table } from "../layout/table.js";
import { ofShares } from "../plain/figures-of.js";
import { type Paragraph, plainParagraphs } from "../plain/plain-words.js";
import { curvesTold } from "../plain/story.js";
import { definitionsTable } from "./definitions.js";
import { withinTable } from "./within.js";

/** The answer first, in words that a patient could read, with the caution directly beneath. */
export function answerSection(context: ReportContext): Section {
  const { results } = context;
  const all = plainParagraphs(results);
  const [first, further] = [false, true].map((isFurther) =>
    paragraphsOf(
      all.filter((one) => one.isFurther === isFurther),
      results,
    ),
  );
  return section(
    "answer",
    html`${first ?? null}${caution()}${withinTable(results)}${leadingFigureBlock(context)}${isKeptApart(results) ? null : sharesAtAGlance(results)}${definitionsTable(results)}${further ?? null}`,
  );
}

const paragraphsOf = (paragraphs: readonly Paragraph[], results: ReportContext["results"]): Safe | null =>
  paragraphs.length === 0
    ? null
    : html`<div class="plain-words">
${paragraphs.map(({ sentences, figuresOf }) => html`<p>${sentences.join(" ")}${marksAfter(figuresOf, results)}</p>\n`)}</div>
`;

/** The marks of a paragraph, after its last sentence. */
function marksAfter(ids: readonly string[], results: ReportContext["results"]): Safe | null {
  const marks = estimandMarks(ids, results);
  return marks === null ? null : html` ${marks}`;
}

function sharesAtAGlance(results: ReportContext["results"]): Safe | null {
  const { plan } = results;
  const told = curvesTold(results);
  if (told.length === 0) return null;
  const week = plan.main_landmark_weeks;
  const rows = told.map(({ curve }) => {
    const returned = curve.landmarks.find((landmark) => landmark.week === week)?.returned;
    if (returned === undefined)
      return [curveName(curve, plan.compare.by), curve.n, "not among the landmarks", null, null];
    const value = returned.value === null ? reasonWords(returned.reason) : share(returned.value);
    return [
      curveName(curve, plan.compare.by),
      curve.n,
      html`<strong>${value}</strong>`,
      intervalWords(returned, "share"),
      shareStrip(returned),
    ];
  });
  return html`${table({
    caption: `Share ${milestoneWords[plan.question.milestone].back} by ${weeks(week)}${results.within === null ? "" : ", all together as they are"}`,
    columns: [
      { head: "Group" },
      { head: "Injuries", align: "numbers" },
      { head: "Share back", align: "numbers" },
      { head: intervalName(plan.confidence_level), align: "numbers" },
      { head: "From 0 to 100\u00a0%" },
    ],
    groups: [{ heading: null, rows }],
  })}${estimandLine(ofShares(results), results)}`;
}

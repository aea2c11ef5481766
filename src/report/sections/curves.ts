import { counted } from "../../schema/counted.js";
import { estimandOfFamily } from "../../study/index.js";
import type { Plan } from "../../study/plan.js";
import type { CurveFamily, CurveResult, Estimate, TestResult } from "../../study/results.js";
import { isSome, returnedOf } from "../../words/counts.js";
import { curveName, familyTitles } from "../../words/curve-families.js";
import { intervalName, intervalWords, valueWords } from "../../words/estimates.js";
import { aloneNote, modelWords, timeRatioWords } from "../../words/known-returns.js";
import type { MeasuredFigure } from "../../words/measured-coverage.js";
import { plainNumber, pValue, rounded, share } from "../../words/numbers.js";
import { listed } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { meanTimeNote, shareBackNote } from "../../words/share-back.js";
import {
  adjustedMeasured,
  shareMeasured,
  shortIntervalWords,
  shownTest,
} from "../../words/short-intervals.js";
import { competingHead, entryWords, fieldWords, milestoneWords } from "../../words/terms.js";
import { testWords } from "../../words/tests.js";
import { days, weeks } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, cautionAgain, heading } from "../layout/blocks.js";
import { estimandLine } from "../layout/estimand-mark.js";
import { figuresOfKind } from "../layout/figure.js";
import { aloneCell, shareCell } from "../layout/share-cell.js";
import { type Column, noteOf, type Row, table } from "../layout/table.js";
import { usualWindows } from "./usual-windows.js";
import { cellRow, groupColumns } from "./within.js";

/** Return curves with their landmarks, quantiles, restricted means and tests, family by family. */
export function curvesSection(context: ReportContext): Section {
  const { results } = context;
  const families = results.curves.map(
    (one) => html`${heading(familyTitles[one.family])}${familyBlock(one, context)}`,
  );
  return section("curves", html`${families}${cautionAgain()}`);
}

function familyBlock(one: CurveFamily, context: ReportContext): Safe {
  const { family, entry, curves } = one;
  const { results } = context;
  const name = familyTitles[family].toLowerCase();
  const tests = results.tests.filter((test) => test.family === family);
  const labels = curves.map(({ label }) => label);
  const isShown = shownFirst.has(family);
  const drawn = figuresOfKind(context, { family, groups: family === "standardised" ? labels : null });
  const counting = html`${entry === "clock" ? null : html`<p>${entryWords[entry]}</p>\n`}${heldEqualWords(one)}${modelParagraph(one, context)}`;
  return html`${estimandLine([estimandOfFamily(one)], results)}${isShown ? html`${counting}${drawn}` : null}${atAGlance(curves, { name, context })}${behind(
    isShown ? `More numbers: ${name}` : `The curves and more numbers: ${name}`,
    html`${isShown ? null : html`${counting}${drawn}`}${landmarks(curves, { name, context })}${otherEnds(curves, { name, context })}${otherEndsFigures(one, context)}${times(curves, { name, context })}${family === "grade" ? usualWindows(results.plan) : null}${tests.length > 0 ? testsTable(tests, { name, context }) : null}`,
  )}`;
}

/** Curves that a reader looks at first; those of everybody and of the groups as they are stand behind the adjusted ones. */
const shownFirst: ReadonlySet<CurveFamily["family"]> = new Set(["grade", "standardised", "definition"]);

/** Of each curve the share back by the main landmark, and the day by which half were back. */
function atAGlance(curves: readonly CurveResult[], { name, context }: Around): Safe | null {
  const { plan } = context.results;
  const rows = curves.flatMap((curve): Row[] => {
    const returned = curve.landmarks.find(({ week }) => week === plan.main_landmark_weeks)?.returned;
    const halfBack = curve.quantiles.find((quantile) => quantile.share === 0.5)?.days;
    return returned === undefined || halfBack === undefined
      ? []
      : [cellRow(curveName(curve, plan.compare.by), { n: curve.n, returned, half_back: halfBack })];
  });
  if (rows.length === 0) return null;
  return table({
    caption: `Share ${milestoneWords[plan.question.milestone].back} by ${weeks(plan.main_landmark_weeks)}: ${name}`,
    columns: groupColumns(plan),
    groups: [{ heading: null, rows }],
  });
}

/** By which model, where the curves are not steps. */
const modelParagraph = (family: CurveFamily, { results }: ReportContext): Safe | null =>
  family.model === null
    ? null
    : html`<p>${`${modelWords(family.model)} ${timeRatioWords(family, results.plan)}`.trimEnd()}</p>\n`;

/** What an adjusted family rests on. */
function heldEqualWords({ held_equal, strata_used, model }: CurveFamily): Safe | null {
  if (held_equal.length === 0) return null;
  if (model !== null)
    return html`<p>Adjusted for ${listed(fieldWords(held_equal))}: the model's shares of both groups, each with these fields as they are in the injuries of both groups together${strata_used.length > 0 ? ` (${strata_used.join("; ")})` : ""}, up to the horizon.</p>\n`;
  return html`<p>Adjusted for ${listed(fieldWords(held_equal))}: a curve of each group in each stratum, averaged over ${strata_used.join("; ")}, in the same proportions for both groups, up to the horizon. Numbers at risk are those of these strata together.</p>\n`;
}

interface Around {
  readonly name: string;
  readonly context: ReportContext;
}

function landmarks(curves: readonly CurveResult[], { name, context }: Around): Safe {
  const { plan } = context.results;
  const fromSpans = curves.some(({ alone }) => alone !== null);
  return table({
    caption: `Share back at the landmarks: ${name}`,
    columns: [
      { head: "By" },
      { head: "At risk", align: "numbers" },
      { head: "Share back", align: "numbers" },
      { head: intervalName(plan.confidence_level), align: "numbers" },
      ...(fromSpans ? [{ head: "Without a model", align: "numbers" as const }] : []),
    ],
    groups: curves.map((curve) => ({
      heading: curveHeading(curve, plan),
      rows: curve.landmarks.map(
        ({ week, at_risk, returned }, i): Row => [
          weeks(week),
          at_risk,
          returned.value === null ? reasonWords(returned.reason) : share(returned.value),
          intervalWords(returned, "share"),
          ...(fromSpans ? [aloneCell(curve.alone?.landmarks[i])] : []),
        ],
      ),
    })),
    ...noteOf(
      [
        ...(fromSpans ? [`At risk: known not to be back yet. ${aloneNote}`] : []),
        ...(curves.some(({ competing }) => isSome(competing)) ? [shareBackNote(plan.question)] : []),
        ...shortOf(curves, [shareMeasured(plan.question)], context),
      ].join(" "),
    ),
  });
}

const curveHeading = (curve: CurveResult, { compare }: Plan): string =>
  `${curveName(curve, compare.by)}: ${counted(curve.n, "injury", "injuries")}, ${returnedOf(curve.events)}`;

/** What became of those who are not back: each other end with the share of all that came to it. */
function otherEnds(curves: readonly CurveResult[], { name, context }: Around): Safe | null {
  const { plan } = context.results;
  const occurred = plan.question.competing_ends.filter((end) =>
    curves.some(({ other_ends }) => other_ends.some((one) => one.end === end)),
  );
  if (occurred.length === 0) return null;
  return table({
    caption: `Other ends than a return, by the landmarks: ${name}`,
    columns: [
      { head: "By" },
      ...occurred.map((end): Column => ({ head: competingHead(end), align: "numbers" })),
    ],
    groups: curves.map((curve) => ({
      heading: curveHeading(curve, plan),
      rows: curve.landmarks.map(
        ({ week }): Row => [
          weeks(week),
          ...occurred.map((end) => shareWords(endAt(curve, { end, week }), curve)),
        ],
      ),
    })),
    note: `Share of all that had come to the end, not being back before, with its ${intervalName(plan.confidence_level)} in square brackets.`,
  });
}

/** The figure of the other ends stands with the family it shows. */
const otherEndsFigures = ({ family, curves }: CurveFamily, context: ReportContext): Safe[] | null =>
  family === "all" || family === "compared"
    ? figuresOfKind(context, { family: "ends", groups: curves.map(({ label }) => label) })
    : null;

const endAt = (
  { other_ends }: CurveResult,
  { end, week }: { readonly end: string; readonly week: number },
): Estimate | undefined =>
  other_ends.find((one) => one.end === end)?.landmarks.find((landmark) => landmark.week === week)?.share;

/** A share with its interval; nobody came to an end that is not listed, or not by that day. */
function shareWords(estimate: Estimate | undefined, { coarse }: CurveResult): Safe | string {
  if (estimate?.reason === "no-events") return "none";
  if (estimate === undefined) return coarse === true ? reasonWords("small-cell") : "none";
  return shareCell(estimate);
}

function times(curves: readonly CurveResult[], { name, context }: Around): Safe {
  const { plan } = context.results;
  const shares = [...new Set(curves.flatMap(({ quantiles }) => quantiles.map((one) => one.share)))];
  return table({
    caption: `Times to return: ${name}`,
    columns: [
      { head: "Group" },
      { head: "Injuries, people, returns during follow-up", align: "numbers" },
      ...shares.map((one) => ({ head: `${share(one)} back by`, align: "numbers" as const })),
      { head: `Restricted mean time up to ${weeks(plan.horizon_weeks)}`, align: "numbers" },
      { head: "Last day of follow-up", align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: curves.map((curve): Row => {
          const { days: mean } = curve.restricted_mean;
          return [
            curveName(curve, plan.compare.by),
            `${curve.n}, ${curve.persons}, ${curve.events}`,
            ...shares.map((one) =>
              timeCell(curve.quantiles.find((quantile) => quantile.share === one)?.days),
            ),
            timeCell(mean),
            plainNumber(curve.last_day),
          ];
        }),
      },
    ],
    note: [
      `In square brackets: ${intervalName(plan.confidence_level)}s. Restricted mean time: mean number of days before the return, of which at most ${weeks(plan.horizon_weeks)} are counted. ${curves.some(({ competing }) => isSome(competing)) ? meanTimeNote(plan.question) : ""}`.trimEnd(),
      ...shortOf(curves, ["day by which half are back", "mean time"], context),
    ].join(" "),
  });
}

/** Which intervals of these curves were found too narrow, and of adjusted ones what was measured. */
function shortOf(
  curves: readonly CurveResult[],
  figures: readonly MeasuredFigure[],
  { results }: ReportContext,
): readonly string[] {
  const isAdjusted = curves[0]?.family === "standardised";
  const shown = figures.flatMap((figure) => curves.map(({ n }) => ({ figure, n })));
  const words = isAdjusted ? adjustedMeasured(figures, results) : shortIntervalWords(shown, results);
  return words === "" ? [] : [words];
}

function timeCell(estimate: CurveResult["restricted_mean"]["days"] | undefined): Safe | string {
  if (estimate === undefined) return "\u2013";
  if (estimate.value === null) return valueWords(estimate, "time");
  const interval = intervalWords(estimate, "time");
  return html`${days(estimate.value).replace(" days)", "\u00a0days)")}${interval === "" ? null : html`<br><small>[${interval}]</small>`}`;
}

function testsTable(tests: readonly TestResult[], { name, context }: Around): Safe {
  const told = tests.filter(({ p }) => p !== null).map(shownTest);
  return table({
    caption: `Tests: ${name}`,
    columns: [
      { head: "Test" },
      { head: "Observed and expected returns" },
      { head: "Statistic", align: "numbers" },
      { head: "Degrees of freedom", align: "numbers" },
      { head: "p", align: "numbers" },
    ],
    groups: [{ heading: null, rows: tests.map((test) => testRow(test, context.results.plan.compare.by)) }],
    ...noteOf(shortIntervalWords(told, context.results)),
  });
}

function testRow(test: TestResult, by: string): Row {
  const strata = test.strata.length > 0 ? `, stratified by ${fieldWords(test.strata).join(", ")}` : "";
  const returns = test.groups.map((group) => {
    const name = curveName({ family: test.family, label: group.label }, by);
    return group.observed === null || group.expected === null
      ? `${name} (${group.n})`
      : `${name} ${plainNumber(group.observed, 1)} and ${plainNumber(group.expected, 1)}`;
  });
  const blank = test.reason === null ? "\u2013" : reasonWords(test.reason);
  return [
    `${testWords[test.method].name}${strata}: ${testWords[test.method].asks}`,
    returns.join("; "),
    test.statistic === null ? blank : rounded(test.statistic, { decimals: 2 }),
    test.degrees_of_freedom === null ? "\u2013" : plainNumber(test.degrees_of_freedom, 1),
    test.p === null ? blank : pValue(test.p),
  ];
}

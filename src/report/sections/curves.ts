import { backOf, isSome } from "../../charts/counts.js";
import type { CurveFamily, CurveResult, TestResult } from "../../study/results.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { days, level, plainNumber, pValue, rounded, share, weeks } from "../format.js";
import { caution, heading } from "../layout/blocks.js";
import { figuresOf } from "../layout/figure.js";
import { type Column, noteOf, type Row, table } from "../layout/table.js";
import { intervalWords, valueWords } from "../words/estimates.js";
import type { MeasuredFigure } from "../words/measured-coverage.js";
import { sayReason } from "../words/reasons.js";
import { shortIntervalWords, shownTest } from "../words/short-intervals.js";
import { curveName, fieldWords, testWords } from "../words/terms.js";
import { usualWindows } from "./usual-windows.js";

const titles: Readonly<Record<CurveFamily["family"], string>> = {
  all: "Everybody",
  grade: "By grade",
  compared: "The groups compared, as they are",
  standardised: "The groups compared, like for like",
};

/** Return curves with their landmarks, quantiles, restricted means and tests, family by family. */
export function curvesSection(context: ReportContext): Section {
  const { results } = context;
  const families = results.curves.map(
    (one) => html`${heading(titles[one.family])}${familyBlock(one, context)}`,
  );
  return section("curves", html`${families}${caution()}`);
}

function familyBlock(one: CurveFamily, context: ReportContext): Safe {
  const { family, entry, curves } = one;
  const { results } = context;
  const name = titles[family].toLowerCase();
  const tests = results.tests.filter((test) => test.family === family);
  const labels = curves.map(({ label }) => label);
  return html`${entry === "clock" ? null : html`<p>${entryWords[entry]}</p>\n`}${heldEqualWords(one)}${figuresOf(context, [family], family === "standardised" ? labels : null)}${landmarks(curves, { name, context })}${times(curves, { name, context })}${family === "grade" ? usualWindows(results.plan) : null}${tests.length > 0 ? testsTable(tests, { name, context }) : null}`;
}

/** What a family like for like rests on. */
function heldEqualWords({ held_equal, strata_used }: CurveFamily): Safe | null {
  if (held_equal.length === 0) return null;
  return html`<p>Both groups at the same mix of ${fieldWords(held_equal).join(", ")}: in each stratum a curve of each group, averaged over ${strata_used.join("; ")}, up to the horizon. Numbers at risk are those of these strata together.</p>\n`;
}

const entryWords: Readonly<Record<Exclude<CurveFamily["entry"], "clock">, string>> = {
  first_visit: "At risk from the first visit on: a return before it could not have been seen.",
  treatment:
    "At risk from the start of the first treatment on: whoever is in a treatment\u2019s group was, by that, not back before it began.",
};

interface Around {
  readonly name: string;
  readonly context: ReportContext;
}

function landmarks(curves: readonly CurveResult[], { name, context }: Around): Safe {
  const { plan, follow_up } = context.results;
  const interval = `${level(plan.confidence_level)} interval`;
  const standardised = curves[0]?.family === "standardised";
  const hasCompeting = !standardised && follow_up.competing.some(({ n }) => isSome(n));
  const competingColumns: Column[] = hasCompeting
    ? [
        { head: html`Share back,<br>counting competing ends`, align: "numbers" },
        { head: interval, align: "numbers" },
      ]
    : [];
  return table({
    caption: `Share back at the landmarks: ${name}`,
    columns: [
      { head: "By" },
      { head: "At risk", align: "numbers" },
      { head: "Share back", align: "numbers" },
      { head: interval, align: "numbers" },
      ...competingColumns,
    ],
    groups: curves.map((curve) => ({
      heading: `${curveName(curve, plan.compare.by)}: ${curve.n} injuries, ${backOf(curve.events)}`,
      rows: curve.landmarks.map(
        ({ week, at_risk, returned, returned_beside_competing: beside }): Row => [
          weeks(week),
          at_risk,
          returned.value === null ? sayReason(returned.reason) : share(returned.value),
          intervalWords(returned, "share"),
          ...(hasCompeting
            ? [
                beside.value === null ? sayReason(beside.reason) : share(beside.value),
                intervalWords(beside, "share"),
              ]
            : []),
        ],
      ),
    })),
    ...noteOf(
      [
        ...(hasCompeting ? [competingNote] : []),
        ...shortOf(
          curves,
          ["share back", ...(hasCompeting ? (["share back counting competing ends"] as const) : [])],
          context,
        ),
      ].join(" "),
    ),
  });
}

const competingNote =
  "Share back: a competing end is taken as the end of follow-up. Counting competing ends: the share of all who are back, those with such an end not among them.";

function times(curves: readonly CurveResult[], { name, context }: Around): Safe {
  const { plan } = context.results;
  const shares = [...new Set(curves.flatMap(({ quantiles }) => quantiles.map((one) => one.share)))];
  return table({
    caption: `Times to return: ${name}`,
    columns: [
      { head: "Group" },
      { head: "Injuries, people, back", align: "numbers" },
      ...shares.map((one) => ({ head: `${share(one)} back by`, align: "numbers" as const })),
      { head: `Mean time up to ${weeks(plan.horizon_weeks)}`, align: "numbers" },
      { head: "Last day seen", align: "numbers" },
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
      `In brackets ${level(plan.confidence_level)} intervals. The mean time counts days not yet back, up to ${weeks(plan.horizon_weeks)} at most.`,
      ...shortOf(curves, ["day by which half are back", "mean time"], context),
    ].join(" "),
  });
}

/** Which intervals of these curves are known to be short; of curves like for like nothing was measured. */
function shortOf(
  curves: readonly CurveResult[],
  figures: readonly MeasuredFigure[],
  { results }: ReportContext,
): readonly string[] {
  if (curves[0]?.family === "standardised") return [];
  const words = shortIntervalWords(
    figures.flatMap((figure) => curves.map(({ n }) => ({ figure, n }))),
    results,
  );
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
      { head: "Seen and expected returns" },
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
  const seen = test.groups.map((group) => {
    const name = curveName({ family: test.family, label: group.label }, by);
    return group.observed === null || group.expected === null
      ? `${name} (${group.n})`
      : `${name} ${plainNumber(group.observed, 1)} and ${plainNumber(group.expected, 1)}`;
  });
  const blank = test.reason === null ? "\u2013" : sayReason(test.reason);
  return [
    `${testWords[test.method].name}${strata}: ${testWords[test.method].asks}`,
    seen.join("; "),
    test.statistic === null ? blank : rounded(test.statistic, { decimals: 2 }),
    test.degrees_of_freedom === null ? "\u2013" : plainNumber(test.degrees_of_freedom, 1),
    test.p === null ? blank : pValue(test.p),
  ];
}

import type { KnownReturnsGroup, Results } from "../../study/results.js";
import { intervalName, intervalWords } from "../../words/estimates.js";
import { knownWords, pathWords } from "../../words/known-returns.js";
import { plainNumber, pValue, share } from "../../words/numbers.js";
import { capital } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { competingVerb, groupName, milestoneWords, sayKnown } from "../../words/terms.js";
import { days, weeks } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, cautionAgain } from "../layout/blocks.js";
import { aloneCell } from "../layout/share-cell.js";
import { type Row, table } from "../layout/table.js";

/** What day 0 is, after "first and last". */
const dayZeroNoun: Readonly<Record<ReportContext["results"]["plan"]["question"]["clock"], string>> = {
  injury: "injury",
  first_visit: "first visit",
  treatment_start: "start of a first treatment",
};

/** How long, how completely, how it ended, and how exactly the returns are known. */
export function followUpSection({ results }: ReportContext): Section {
  const { follow_up, known_returns, plan } = results;
  const { median_days: median, completeness, whole_weeks } = follow_up;
  const interval = intervalWords(median, "time");
  const medianWords =
    median.value !== null
      ? days(median.value)
      : median.reason === "not-reached"
        ? "not reached: most returned before their follow-up could end"
        : reasonWords(median.reason);
  const { recruited, not_back_days: notBack, person_months: months } = follow_up;
  const long: Row[] = [
    ...(recruited === null
      ? []
      : [[`First and last ${dayZeroNoun[plan.question.clock]}`, `${recruited.from} to ${recruited.to}`]]),
    ["Person-months at risk", months === null ? reasonWords(null) : plainNumber(months, 1)],
    ...(notBack === null
      ? []
      : [["Days followed, of those not back", `${notBack.shortest} to ${notBack.longest}`]]),
    ["Median follow-up", medianWords],
    [`${capital(intervalName(plan.confidence_level))} of the median`, interval === "" ? "\u2013" : interval],
    [
      `Completeness up to ${weeks(plan.horizon_weeks)} (observed over possible time)`,
      completeness === null ? reasonWords(null) : share(completeness),
    ],
  ];
  const ended: Row[] = [
    [`Observed ${milestoneWords[plan.question.milestone].back}`, follow_up.milestones],
    ["Not back at the last contact", follow_up.censored],
    ...follow_up.competing.map(({ code, n }): Row => [capital(competingVerb(code)), n]),
    ["All", follow_up.n],
  ];
  const known: Row[] = follow_up.known.map(({ code, n }) => [capital(sayKnown(code)), n]);
  const heaping: Row = [
    "Returns known to the day that fall on a whole week",
    html`${whole_weeks.on_whole_weeks} of ${whole_weeks.milestones}`,
  ];
  return section(
    "follow-up",
    html`<p>${followedWords(results)} ${knownWords(known_returns)}</p>
${behind(
  "Follow-up in numbers, and how exactly returns are known",
  html`${table({
    caption: "Follow-up of the analysed injuries",
    columns: [{ head: "" }, { head: "Value", align: "numbers" }],
    groups: [
      { heading: "Duration", rows: long },
      { heading: "End of follow-up", rows: ended },
      { heading: "Precision of the date of return", rows: [...known, heaping] },
    ],
    note: "By chance one date in seven would lie a whole number of weeks after day 0. Many more than that suggest rounded dates.",
  })}${knownTable(results)}${readingsTable(results)}${cautionAgain()}`,
)}`,
  );
}

/** How long and how completely the injuries were followed, in a sentence each. */
function followedWords({ follow_up, plan }: Results): string {
  const { recruited, person_months: months, completeness, median_days: median } = follow_up;
  const interval = intervalWords(median, "time");
  return [
    ...(recruited === null
      ? []
      : [
          `The first ${dayZeroNoun[plan.question.clock]} falls in ${recruited.from}, the last in ${recruited.to}.`,
        ]),
    ...(months === null ? [] : [`They were at risk for ${plainNumber(months, 1)} person-months in all.`]),
    ...(median.value === null
      ? []
      : [
          `Median follow-up: ${days(median.value)}${interval === "" ? "" : ` (${intervalName(plan.confidence_level)} ${interval})`}.`,
        ]),
    ...(completeness === null
      ? []
      : [`Up to ${weeks(plan.horizon_weeks)}, ${share(completeness)} of the possible time was observed.`]),
  ].join(" ");
}

/** How exactly returns are known, by group, and which way the figures took. */
function knownTable({ known_returns: known, plan }: Results): Safe {
  const name = ({ family, label }: KnownReturnsGroup) =>
    family === "all" ? label : groupName(label, plan.compare.by);
  const { p } = known.comparison;
  return html`<p>${pathWords(known)}</p>
${table({
  caption: "How exactly returns are known",
  columns: [
    { head: "Group" },
    { head: "Returns", align: "numbers" },
    { head: "To the day", align: "numbers" },
    { head: "Up to 14 days", align: "numbers" },
    { head: "Wider", align: "numbers" },
    { head: "Share wider", align: "numbers" },
    { head: "Days of wide spans a return", align: "numbers" },
    { head: "Widest, days", align: "numbers" },
  ],
  groups: [
    {
      heading: null,
      rows: known.groups.map(
        (group): Row => [
          name(group),
          group.n,
          group.to_the_day,
          group.narrow,
          group.wide,
          group.wide_share === null ? "\u2013" : share(group.wide_share),
          group.mean_wide_days === null ? "\u2013" : plainNumber(group.mean_wide_days, 1),
          group.largest_days === null ? "\u2013" : plainNumber(group.largest_days),
        ],
      ),
    },
  ],
  note:
    p === null
      ? `Whether widths differ between the compared groups cannot be tested: ${reasonWords(known.comparison.reason)}.`
      : `Whether widths differ between the compared groups (rank test): p ${pValue(p)}. Groups seen on unlike days can differ by that alone.`,
})}`;
}

/** What each share would be with the returns as early and as late as they can have been. */
function readingsTable({ known_returns: { readings }, plan }: Results): Safe | null {
  if (readings.length === 0) return null;
  return table({
    caption:
      "Share back with each return on the first, the middle and the last day on which it can have been",
    columns: [
      { head: "By" },
      { head: "First day", align: "numbers" },
      { head: "Middle", align: "numbers" },
      { head: "Last day", align: "numbers" },
      { head: "Without placing it", align: "numbers" },
    ],
    groups: readings.map(({ family, label, landmarks }) => ({
      heading: family === "all" ? label : groupName(label, plan.compare.by),
      rows: landmarks.map(
        ({ week, earliest, midpoint, latest, alone }): Row => [
          weeks(week),
          ...[earliest, midpoint, latest].map((one) =>
            one.value === null ? reasonWords(one.reason) : share(one.value),
          ),
          aloneCell(alone),
        ],
      ),
    })),
    note: `The last column is the estimate from the spans without a model; two shares where they leave part of it open.`,
  });
}

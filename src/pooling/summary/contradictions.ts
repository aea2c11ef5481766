import { wholeDays } from "../../cohort/whole-days.js";
import type { Count } from "../../study/results-parts.js";
import { adjustersOf } from "../../study/strata.js";
import { tableProblems } from "../tables/index.js";
import type { SiteSummary, SummaryComparison, SummaryFigures, SummaryGroup } from "./site-summary.js";

interface Problem {
  readonly at: string;
  readonly what: string;
}

type Figure = SummaryFigures["figures"][number];

/** What a schema cannot say: parts of a summary that contradict each other, which no summary of this toolkit does. */
export function contradictionsIn(summary: SiteSummary): readonly Problem[] {
  const { groups, comparisons, agreed, description, site } = summary;
  const { compare } = agreed.file;
  const names = groups.map(({ family, label }) => `${family} ${label}`);
  const pairs = comparisons.map((one) => [one.compared, one.reference, one.adjusted_for.join(" ")].join(" "));
  return [
    ...(description.site === site ? [] : [{ at: "description.site", what: `is not "${site}".` }]),
    ...twiceIn(names, "groups"),
    ...twiceIn(pairs, "comparisons"),
    ...(groups.filter(({ family }) => family === "all").length > 1
      ? [{ at: "groups", what: "holds more than one group of all injuries." }]
      : []),
    ...groups.flatMap((group, i) => inGroup(group, { at: `groups.${i}`, summary })),
    ...comparisons.flatMap((one, i) => inComparison(one, { at: `comparisons.${i}`, summary })),
    ...inRiskSets(summary),
    ...groups.flatMap(({ family, label }, i) =>
      family === "compared" && !compare.groups.includes(label)
        ? [{ at: `groups.${i}.label`, what: "is none of the groups of the agreed study file." }]
        : [],
    ),
  ];
}

function inRiskSets({ risk_sets, agreed, small_cells }: SiteSummary): readonly Problem[] {
  if (risk_sets === undefined || !risk_sets.leaves) return [];
  const { table } = risk_sets;
  const { compare } = agreed.file;
  const { strata, numbers } = adjustersOf(compare.adjust_for);
  const smallest = small_cells.choice === "written" ? 1 : small_cells.smallest;
  const wanted = { by: compare.by, strata, not_held_equal: numbers, smallest_cell: smallest } as const;
  return [
    ...(Object.keys(wanted) as (keyof typeof wanted)[])
      .filter((key) => JSON.stringify(table[key]) !== JSON.stringify(wanted[key]))
      .map((key) => ({ at: `risk_sets.table.${key}`, what: "is not that of the study or of the summary." })),
    ...tableProblems(table, compare.groups).map(({ at, what }) => ({ at: `risk_sets.table.${at}`, what })),
  ];
}

function twiceIn(names: readonly string[], at: string): readonly Problem[] {
  const again = names.findIndex((name, i) => names.indexOf(name) !== i);
  return again < 0 ? [] : [{ at: `${at}.${again}`, what: "is there twice." }];
}

interface Where {
  readonly at: string;
  readonly summary: SiteSummary;
}

const isMore = (part: Count, whole: Count): boolean =>
  typeof part === "number" && typeof whole === "number" && part > whole;

function inGroup(group: SummaryGroup, { at, summary }: Where): readonly Problem[] {
  const { n, persons, events, other_ends } = group;
  return [
    ...(isMore(persons, n) ? [{ at: `${at}.persons`, what: "is more than the injuries." }] : []),
    ...(isMore(events, n) ? [{ at: `${at}.events`, what: "is more than the injuries." }] : []),
    ...inFigures(group, { at, summary, scale: "logit" }),
    ...other_ends.flatMap((end, i) =>
      inFigures(end, { at: `${at}.other_ends.${i}`, summary, scale: "logit", ofEnd: true }),
    ),
  ];
}

function inComparison(one: SummaryComparison, { at, summary }: Where): readonly Problem[] {
  const { groups, reference } = summary.agreed.file.compare;
  return [
    ...(one.reference === reference
      ? []
      : [{ at: `${at}.reference`, what: "is not the reference of the agreed study file." }]),
    ...(groups.includes(one.compared) && one.compared !== reference
      ? []
      : [{ at: `${at}.compared`, what: "is none of the other groups of the agreed study file." }]),
    ...inFigures(one, { at, summary, scale: "share" }),
  ];
}

interface OfFigures extends Where {
  /** Of shares: the logit of a share, or a difference of shares. */
  readonly scale: "logit" | "share";
  readonly ofEnd?: boolean;
}

function inFigures({ figures, variance }: SummaryFigures, of: OfFigures): readonly Problem[] {
  const { at, summary, scale, ofEnd = false } = of;
  const { landmarks_weeks, horizon_weeks } = summary.agreed.file;
  const wanted = [
    ...landmarks_weeks.map((week) => ({ week, day: wholeDays(week), ofDays: false })),
    ...(ofEnd ? [] : [{ week: null, day: wholeDays(horizon_weeks), ofDays: true }]),
  ];
  if (figures.length !== wanted.length)
    return [{ at: `${at}.figures`, what: "are not those of the landmarks and the horizon agreed on." }];
  const wrong = wanted.flatMap(({ week, day, ofDays }, i) => {
    const figure = figures[i]!;
    const measure = ofDays ? "mean_days" : ofEnd ? "other_end" : "share_back";
    const fits =
      figure.week === week &&
      figure.day === day &&
      figure.measure === measure &&
      figure.scale === (ofDays ? "days" : scale);
    const here = `${at}.figures.${i}`;
    return [
      ...(fits ? [] : [{ at: here, what: "is not the figure agreed on for this place." }]),
      ...ofOneFigure(figure, { at: here, differs: scale === "share" }),
    ];
  });
  return [...wrong, ...inMatrix({ figures, variance }, at)];
}

/** Rounding of what was computed in another order. */
const rounding = 1e-9;

function ofOneFigure(
  { measure, scale, day, value, standard_error, estimate, variance, reason }: Figure,
  { at, differs }: { readonly at: string; readonly differs: boolean },
): readonly Problem[] {
  const isThere = estimate !== null;
  const least = differs ? -1 : 0;
  const isShare = measure !== "mean_days";
  return [
    ...((variance !== null) === isThere && (reason === null) === isThere && (!isThere || value !== null)
      ? []
      : [
          {
            at,
            what: "holds an estimate without its variance, a variance without its estimate, or neither and no reason.",
          },
        ]),
    ...(isShare && value !== null && (value < least - rounding || value > 1 + rounding)
      ? [{ at: `${at}.value`, what: `is no ${differs ? "difference of shares" : "share"}.` }]
      : []),
    ...(isPossible({ scale, day, estimate, variance })
      ? []
      : [{ at, what: "holds an estimate or a variance that no such figure can have." }]),
    ...(standard_error !== null && standard_error < 0
      ? [{ at: `${at}.standard_error`, what: "is negative." }]
      : []),
  ];
}

/** Beyond this a logit is of a share that no site has seen; smaller and larger variances would be lost to rounding. */
const furthestLogit = 100;
const variances = [1e-12, 1e12] as const;

/** Whether an estimate lies where a logit, a difference of shares or a number of days can, and its variance can be computed with. */
function isPossible({
  scale,
  day,
  estimate,
  variance,
}: Pick<Figure, "scale" | "day" | "estimate" | "variance">) {
  if (estimate === null || variance === null) return true;
  const furthest = { logit: furthestLogit, share: 1, days: day }[scale] * (1 + rounding);
  return Math.abs(estimate) <= furthest && variance >= variances[0] && variance <= variances[1];
}

function inMatrix({ figures, variance }: SummaryFigures, at: string): readonly Problem[] {
  if (variance.length !== figures.length || variance.some((row) => row.length !== figures.length))
    return [{ at: `${at}.variance`, what: "has not as many rows and columns as there are figures." }];
  for (let i = 0; i < figures.length; i++)
    for (let j = 0; j < figures.length; j++) {
      const [own, one, other] = [variance[i]![j]!, figures[i]!.variance, figures[j]!.variance];
      const here = `${at}.variance.${i}.${j}`;
      if ((own === null) !== (one === null || other === null))
        return [{ at: here, what: "is there without both figures, or missing where both are there." }];
      if (own === null || one === null || other === null) continue;
      const largest = Math.sqrt(one * other) * (1 + rounding);
      if (
        own !== variance[j]![i] ||
        Math.abs(own) > largest ||
        (i === j && Math.abs(own - one) > rounding * one)
      )
        return [{ at: here, what: "cannot be the covariance of these figures." }];
    }
  return [];
}

import type { SiteSummary, SummaryFigure } from "../../pooling/summary/index.js";
import { correlationsOf, limitsOfFigure } from "../../pooling/summary/shown-scale.js";
import { intervalName } from "../../words/estimates.js";
import { plainNumber, rounded } from "../../words/numbers.js";
import { capital, listed } from "../../words/phrases.js";
import {
  pooledComparisonWords,
  pooledGroupName,
  pooledReasonWords,
  pooledUnit,
} from "../../words/pooling/pooled-answers.js";
import { competingPast, fieldWords, labelOf, milestoneWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { digitsOf, limits, unitAfter } from "../../words/units.js";
import { type Content, html, type Safe } from "../escape.js";
import { type Row, table } from "../layout/table.js";

type Of = "group" | "comparison";

const landmarkHeads = ({ agreed: { file } }: Pick<SiteSummary, "agreed">): string[] => [
  ...file.landmarks_weeks.map((week) => `By ${weeks(week)}`),
  `Mean days not back within ${weeks(file.horizon_weeks)}`,
];

const columnsOf = ({ agreed }: SiteSummary) => [
  { head: "Figure" },
  { head: "As shown", align: "numbers" as const },
  { head: intervalName(agreed.file.confidence_level), align: "numbers" as const },
  { head: "On the scale of pooling", align: "numbers" as const },
  { head: "Its variance", align: "numbers" as const },
];

/** The figures of a group or a comparison: as they are shown, and as they are pooled. */
function rowsOf(
  figures: readonly SummaryFigure[],
  { of, summary }: { readonly of: Of; readonly summary: SiteSummary },
): Row[] {
  const heads = landmarkHeads(summary);
  return figures.map((figure, i): Row => {
    const { value, estimate, variance, reason, measure } = figure;
    const between = limitsOfFigure(figure, summary.agreed.file.confidence_level);
    if (value === null || between === null) return [heads[i]!, "\u2013", pooledReasonWords(reason), "", ""];
    const unit = pooledUnit({ measure, of });
    const digits = digitsOf(value, { unit });
    return [
      heads[i]!,
      digits + unitAfter(digits, unit),
      limits(between, unit),
      rounded(estimate!, { decimals: 3 }),
      plainNumber(variance!, 5),
    ];
  });
}

const countsOf = (injuries: Content, people: Content, back: Content): string =>
  `${injuries} injuries, ${people} people, ${back} came back`;

/** The shares back and the mean days of every group. */
export function groupsTable(summary: SiteSummary): Safe {
  const { groups, agreed } = summary;
  const { compare, question } = agreed.file;
  return table({
    caption: `Share ${milestoneWords[question.milestone].back}, and mean days, by group`,
    columns: columnsOf(summary),
    groups: groups.map((group) => ({
      heading: `${capital(pooledGroupName(group, compare.by))}: ${countsOf(group.n, group.persons, group.events)}`,
      rows: rowsOf(group.figures, { of: "group", summary }),
    })),
    note: "[left out] stands for a count behind which there are too few people, or that would give such a count away.",
  });
}

/** Differences of the groups. */
export function comparisonsTable(summary: SiteSummary): Safe {
  const { comparisons, agreed } = summary;
  return table({
    caption: "Differences between groups: percentage points, and days",
    columns: columnsOf(summary),
    groups: comparisons.map((one) => ({
      heading: `${capital(pooledComparisonWords({ ...one, ...ofComparison }, agreed.file))}: ${one.n.compared} and ${one.n.reference} injuries${one.strata_used.length === 0 ? "" : ` in ${listed(one.strata_used)}`}`,
      rows: rowsOf(one.figures, { of: "comparison", summary }),
    })),
    note: "With something held equal, only the strata with enough injuries of both groups are compared.",
  });
}

const ofComparison = { of: "comparison", family: null, label: null } as const;

/** Shares that came to another end; nothing where none is told. */
export function endsTable(summary: SiteSummary): Safe | null {
  const { groups, agreed } = summary;
  const ends = groups.flatMap((group) =>
    group.other_ends.map((end) => ({
      heading: `${capital(pooledGroupName(group, agreed.file.compare.by))}: ${competingPast(end.end)} (${end.events})`,
      rows: rowsOf(end.figures, { of: "group", summary }),
    })),
  );
  if (ends.length === 0) return null;
  return table({ caption: "Share that came to another end", columns: columnsOf(summary), groups: ends });
}

/** The correlations of the figures of each group and each comparison. */
export function matrixTables(summary: SiteSummary): Safe {
  const heads = landmarkHeads(summary);
  const { groups, comparisons, agreed } = summary;
  const sets = [
    ...groups.map((group) => ({ name: pooledGroupName(group, agreed.file.compare.by), set: group })),
    ...comparisons.map((one) => ({
      name: pooledComparisonWords({ ...one, ...ofComparison }, agreed.file),
      set: one,
    })),
  ];
  return html`<p>With the figures leaves their variance matrix: the variance of each, and how much two of them go together because they are about the same people. It is made of sums over all people of the group. It is shown here as correlations.</p>
${table({
  caption: "Correlations between the figures",
  columns: [{ head: "Figure" }, ...heads.map((head) => ({ head, align: "numbers" as const }))],
  groups: sets.map(({ name, set }) => ({
    heading: name,
    rows: correlationsOf(set.variance).map(
      (row, i): Row => [heads[i]!, ...row.map((one) => (one === null ? "" : rounded(one, { decimals: 2 })))],
    ),
  })),
})}`;
}

/** The agreed study file, which leaves with the figures. */
export function agreedTable({ agreed }: Pick<SiteSummary, "agreed">): Safe {
  const { question, compare, who, landmarks_weeks, horizon_weeks, confidence_level } = agreed.file;
  const asked: readonly (readonly [string, unknown])[] = [
    ...Object.entries(question),
    ...Object.entries(compare).map(([key, value]) => [`compare: ${key}`, value] as const),
    ...Object.entries(who).map(([key, value]) => [`who: ${key}`, value] as const),
    ["landmarks, weeks", landmarks_weeks],
    ["horizon, weeks", horizon_weeks],
    ["confidence level", confidence_level],
  ];
  return html`<p>The part of the study file that all sites share leaves with the figures, so that nobody pools answers to different questions. Its fingerprint (SHA-256) is ${agreed.sha256}. The title, the short name and the files of the study do not leave.</p>
${table({
  caption: "What is asked",
  columns: [{ head: "Setting" }, { head: "Value" }],
  groups: [
    { heading: null, rows: asked.map(([key, value]): Row => [key.replaceAll("_", " "), valueWords(value)]) },
  ],
  note: "The file holds the other settings (distance, usual windows) as well, as they are in the study file.",
})}`;
}

function valueWords(value: unknown): string {
  if (Array.isArray(value)) return value.length === 0 ? "none" : fieldWords(value.map(String)).join(", ");
  if (typeof value === "number") return plainNumber(value);
  if (typeof value === "object" && value !== null)
    return Object.entries(value)
      .map(([key, each]) => `${key} ${each}`)
      .join(", ");
  return value === null ? "none" : labelOf(String(value));
}

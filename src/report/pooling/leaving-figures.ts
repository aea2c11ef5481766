import type { SiteSummary, SummaryFigure } from "../../pooling/summary/index.js";
import { correlationsOf, limitsOfFigure } from "../../pooling/summary/shown-scale.js";
import { plainNumber, rounded } from "../../words/numbers.js";
import { capital } from "../../words/phrases.js";
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

/** A figure with the normal interval of its estimate, on one line; or why it is not there. */
export function figureCell(
  figure: SummaryFigure,
  { of, level }: { readonly of: Of; readonly level: number },
): string {
  const { value, reason } = figure;
  const between = limitsOfFigure(figure, level);
  if (value === null || between === null) return pooledReasonWords(reason);
  const unit = pooledUnit({ measure: figure.measure, of });
  const digits = digitsOf(value, { unit });
  return `${digits}${unitAfter(digits, unit)} (${limits(between, unit)})`;
}

const landmarkHeads = ({ agreed: { file } }: SiteSummary): string[] => [
  ...file.landmarks_weeks.map((week) => `By ${weeks(week)}`),
  `Mean days not back within ${weeks(file.horizon_weeks)}`,
];

const figureColumns = (summary: SiteSummary) =>
  landmarkHeads(summary).map((head) => ({ head, align: "numbers" as const }));

/** The shares back and the mean days of every group. */
export function groupsTable(summary: SiteSummary): Safe {
  const { groups, agreed } = summary;
  const { compare, question } = agreed.file;
  return table({
    caption: `Share ${milestoneWords[question.milestone].back}, and mean days`,
    columns: [
      { head: "Group" },
      { head: "Injuries", align: "numbers" },
      { head: "People", align: "numbers" },
      { head: "Came back", align: "numbers" },
      ...figureColumns(summary),
    ],
    groups: [
      {
        heading: null,
        rows: groups.map(
          (group): Row => [
            pooledGroupName(group, compare.by),
            group.n,
            group.persons,
            group.events,
            ...cellsOf(group.figures, { of: "group", summary }),
          ],
        ),
      },
    ],
  });
}

const cellsOf = (
  figures: readonly SummaryFigure[],
  { of, summary }: { readonly of: Of; readonly summary: SiteSummary },
): Content[] =>
  figures.map((figure) => figureCell(figure, { of, level: summary.agreed.file.confidence_level }));

/** Differences of the groups. */
export function comparisonsTable(summary: SiteSummary): Safe {
  const { comparisons, agreed } = summary;
  return table({
    caption: "Differences between groups: percentage points, and days",
    columns: [{ head: "Difference" }, { head: "Injuries", align: "numbers" }, ...figureColumns(summary)],
    groups: [
      {
        heading: null,
        rows: comparisons.map(
          (one): Row => [
            capital(
              pooledComparisonWords({ ...one, of: "comparison", family: null, label: null }, agreed.file),
            ),
            `${one.n.compared} and ${one.n.reference}`,
            ...cellsOf(one.figures, { of: "comparison", summary }),
          ],
        ),
      },
    ],
    note: "With something held equal, only the strata with enough injuries of both groups are compared.",
  });
}

/** Shares that came to another end; nothing where none is told. */
export function endsTable(summary: SiteSummary): Safe | null {
  const { groups, agreed } = summary;
  const rows = groups.flatMap((group) =>
    group.other_ends.map(
      (end): Row => [
        `${pooledGroupName(group, agreed.file.compare.by)}: ${competingPast(end.end)}`,
        end.events,
        ...cellsOf(end.figures, { of: "group", summary }),
      ],
    ),
  );
  if (rows.length === 0) return null;
  return table({
    caption: "Share that came to another end",
    columns: [
      { head: "Group and end" },
      { head: "Came to it", align: "numbers" },
      ...figureColumns(summary).slice(0, -1),
    ],
    groups: [{ heading: null, rows }],
  });
}

/** The correlations of the figures of each group and each comparison. */
export function matrixTables(summary: SiteSummary): Safe {
  const heads = landmarkHeads(summary);
  const { groups, comparisons, agreed } = summary;
  const sets = [
    ...groups.map((group) => ({ name: pooledGroupName(group, agreed.file.compare.by), set: group })),
    ...comparisons.map((one) => ({
      name: pooledComparisonWords({ ...one, of: "comparison", family: null, label: null }, agreed.file),
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
  note: "The other settings of the file (distance, usual windows) stand in it as they are in the study file.",
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

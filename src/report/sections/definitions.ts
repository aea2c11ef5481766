import type { CurveResult, DefinitionRow, Results } from "../../study/results.js";
import { definitionHeading } from "../../words/definitions.js";
import { groupName, milestoneWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { html, type Safe } from "../escape.js";
import { estimandLine } from "../layout/estimand-mark.js";
import { type Row, type RowGroup, table } from "../layout/table.js";
import { cellRow, groupColumns } from "./within.js";

/** The share back by what the sites mean by it, all injuries and the compared groups; null where they mean the same. */
export function definitionsTable(results: Results): Safe | null {
  const { curves, definitions, plan } = results;
  if (definitions === null) return null;
  const own = curves.find(({ family }) => family === "definition")?.curves ?? [];
  const { back, name } = milestoneWords[plan.question.milestone];
  return html`${table({
    caption: `Share ${back} by ${weeks(plan.main_landmark_weeks)}, by what the sites call ${name}`,
    columns: groupColumns(plan),
    groups: definitions.rows.map((row) =>
      rowsOf(row, { plan, curve: own.find(({ label }) => label === row.label) }),
    ),
    note: `Each site in its own words. Definitions that differ only in letter case, spaces and punctuation stand together. Groups of fewer than ${plan.compare.smallest_group} injuries are counted and not described.`,
  })}${estimandLine(["curves:definition"], results)}`;
}

function rowsOf(
  row: DefinitionRow,
  { plan, curve }: Pick<Results, "plan"> & { readonly curve: CurveResult | undefined },
): RowGroup {
  const returned = curve?.landmarks.find(({ week }) => week === plan.main_landmark_weeks)?.returned;
  const half_back = curve?.quantiles.find(({ share }) => share === 0.5)?.days;
  const all: Row =
    returned === undefined || half_back === undefined
      ? ["all injuries", row.n, null, null, null, null]
      : cellRow("all injuries", { n: row.n, returned, half_back });
  return {
    heading: definitionHeading(row),
    rows: [all, ...row.cells.map((cell) => cellRow(groupName(cell.label, plan.compare.by), cell))],
  };
}

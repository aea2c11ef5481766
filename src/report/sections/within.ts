import { labelOf } from "../../schema/labels.js";
import type { Count, Results, Within, WithinCell, WithinRow } from "../../study/results.js";
import { gradeName } from "../../words/curve-families.js";
import { intervalName, intervalWords, valueWords } from "../../words/estimates.js";
import { comparisonName } from "../../words/measures.js";
import { share } from "../../words/numbers.js";
import { reasonWords } from "../../words/reasons.js";
import { groupName, milestoneWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { html, type Safe } from "../escape.js";
import { estimandLine } from "../layout/estimand-mark.js";
import { shareStrip } from "../layout/strip.js";
import { type Column, type Row, type RowGroup, table } from "../layout/table.js";

/** The groups side by side among injuries that are alike: who had what, how many, and when they were back. */
export function withinTable(results: Results): Safe | null {
  const { within, plan } = results;
  if (within === null || within.rows.length === 0) return null;
  const described = within.rows.filter((row) => row.cells.some(isDescribed));
  const note = noteOf(within, plan);
  if (described.length === 0) return html`<p class="note">${note}</p>\n`;
  return html`${table({
    caption: `Share ${milestoneWords[plan.question.milestone].back} by ${weeks(plan.main_landmark_weeks)}, ${labelOf(within.field)} by ${labelOf(within.field)}`,
    columns: groupColumns(plan),
    groups: described.map((row) => rowsOf(row, { within, plan })),
    note,
  })}${estimandLine([`within:${within.field}`], results)}`;
}

const isDescribed = ({ returned }: WithinCell): boolean => returned.reason !== "too-few-rows";

function rowsOf(
  row: WithinRow,
  { within, plan }: Pick<Results, "plan"> & { readonly within: Within },
): RowGroup {
  const nameOf = (label: string) => groupName(label, plan.compare.by);
  const cells = row.cells.map((cell) => cellRow(nameOf(cell.label), cell));
  const differences = row.differences.flatMap(({ compared, reference, returned }): Row[] =>
    returned.value === null
      ? []
      : [
          [
            html`<em>${comparisonName(nameOf(compared), nameOf(reference))}</em>`,
            null,
            valueWords(returned, "percentage points"),
            intervalWords(returned, "percentage points"),
            null,
            null,
          ],
        ],
  );
  return { heading: rowName(row, within), rows: [...cells, ...differences] };
}

const rowName = ({ value }: WithinRow, { field }: Within): string =>
  field === "grade" ? gradeName(labelOf(value)) : groupName(value, field);

/** The columns of a table of groups within something. */
export const groupColumns = ({ confidence_level }: Results["plan"]): readonly Column[] => {
  const interval = intervalName(confidence_level);
  return [
    { head: "Group" },
    { head: "Injuries", align: "numbers" },
    { head: "Share back", align: "numbers" },
    { head: interval, align: "numbers" },
    { head: "From 0 to 100\u00a0%" },
    { head: `Half back by, ${interval}`, align: "numbers" },
  ];
};

/** A group under these columns; one that is too small is counted and not described. */
export function cellRow(
  name: string,
  { n, returned, half_back }: Pick<WithinCell, "n" | "returned" | "half_back">,
): Row {
  if (returned.reason === "too-few-rows") return [name, n, tooFew(n), null, null, null];
  return [
    name,
    n,
    returned.value === null ? reasonWords(returned.reason) : html`<strong>${share(returned.value)}</strong>`,
    intervalWords(returned, "share"),
    shareStrip(returned),
    half_back.value === null
      ? reasonWords(half_back.reason)
      : html`${valueWords(half_back, "time")} <small>[${intervalWords(half_back, "time")}]</small>`,
  ];
}

const tooFew = (n: Count): string => (n === 0 ? "none" : "too few to describe");

const noteOf = (within: Within, { compare }: Results["plan"]): string => {
  const { field, not_recorded, rows } = within;
  const counts = ({ cells }: WithinRow) =>
    cells.map(({ label, n }) => `${groupName(label, compare.by)} ${n === 0 ? "none" : n}`).join(", ");
  const apart = rows.filter(({ cells }) => !cells.some(isDescribed));
  return [
    `Groups of fewer than ${compare.smallest_group} injuries are counted and not described.`,
    ...(apart.length === 0
      ? []
      : [
          `Not in the table, with too few in every group: ${apart.map((row) => `${rowName(row, within)} (${counts(row)})`).join("; ")}.`,
        ]),
    ...(not_recorded === 0
      ? []
      : [`Without ${labelOf(field)}: ${not_recorded} compared injuries, in no row.`]),
  ].join(" ");
};

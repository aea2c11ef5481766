import { periodOf } from "../../../schema/cells/period.js";
import type { Field } from "../../../schema/field.js";
import { labelOf } from "../../../schema/labels.js";
import type { endStatuses } from "../../../schema/terms.js";
import { oneTerm } from "../cell-words.js";
import type { ColumnRule } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import type { MappedCell } from "./mapped-column.js";
import { treatmentsInTurn } from "./treatments-in-turn.js";

/** A cell that says more than its column holds: our columns that it fills, and how that is said. */
export interface InParts {
  readonly cells: Readonly<Record<string, string>>;
  readonly what: string;
}

/** A cell as it was read, with what the mapping says of its column. */
interface ReadCell {
  readonly field: Field;
  readonly rule: ColumnRule;
  readonly cell: MappedCell;
}

/** Ends that leave a dated thing undone. */
const endsWithout: ReadonlySet<string> = new Set<(typeof endStatuses)[number]>([
  "gave_up",
  "died",
  "lost",
  "in_follow_up",
]);

/**
 * What a cell says that its own column cannot hold: how follow-up ended, in the column of a date, or two treatments one
 * after the other. A cell that the mapping lists is read as it says. A column of the file that is filled otherwise is never overruled: the cell then stays as it is written,
 * and is asked about.
 *
 * @param others the cells of the row in our columns
 */
export function readInParts(read: ReadCell, others: Readonly<Record<string, string>>): InParts | null {
  const parts = endInDateColumn(read) ?? inTurn(read, others);
  if (parts === null) return null;
  const fits = Object.entries(parts.cells).every(
    ([name, text]) => name === read.field.name || (others[name] ?? "") === "" || others[name] === text,
  );
  return fits ? parts : null;
}

function endInDateColumn({ field, rule, cell }: ReadCell): InParts | null {
  const { name, kind, blankSays } = field;
  const isDated = kind === "period" || kind === "date";
  if (!isDated || blankSays === undefined || cell.problem === null || isListed(rule, cell.found)) return null;
  if (oneTerm(cell.found, { kind: "not_yet" }) !== null) return { cells: { [name]: "" }, what: blankSays };
  const end = oneTerm(cell.found, { kind: "end_status" });
  if (end === null || !endsWithout.has(end)) return null;
  return { cells: { [name]: "", end_status: end }, what: `${blankSays}, follow-up ended: ${labelOf(end)}` };
}

const isListed = ({ values = {} }: ColumnRule, found: string): boolean =>
  Object.keys(values).some((cell) => comparedText(cell) === comparedText(found));

function inTurn({ field, rule, cell }: ReadCell, others: Readonly<Record<string, string>>): InParts | null {
  if (field.name !== "treatment" || isListed(rule, cell.found)) return null;
  if (cell.text !== cell.found) return null;
  const start = periodOf(others.treatment_start ?? "");
  const turn = treatmentsInTurn(cell.found, { field, start: start?.form === "day" ? start.first : null });
  if (turn === null) return null;
  const { first, second, change } = turn;
  return {
    cells: {
      treatment: first,
      second_treatment: second,
      ...(change === null ? {} : { treatment_end: change, second_start: change }),
    },
    what: `first ${labelOf(first)}, then ${labelOf(second)}${change === null ? "" : ` from about ${change}`}`,
  };
}

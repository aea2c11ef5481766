import { laterThan } from "../../../schema/cells/later-than.js";
import { periodOf } from "../../../schema/cells/period.js";
import type { Field } from "../../../schema/field.js";
import { labelOf } from "../../../schema/labels.js";
import type { endStatuses } from "../../../schema/terms.js";
import { injuryDay, isTooWide, milestoneOf } from "../../cohort/unfold-period.js";
import { oneTerm } from "../cell-words.js";
import type { ColumnRule, Mapping } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { tableOf } from "../table-of.js";
import { dateReaderOf } from "./cell-reader.js";
import type { MappedCell } from "./mapped-column.js";
import { treatmentsInTurn } from "./treatments-in-turn.js";

/** A cell that says more than its column holds: our columns that it fills, and how that is said. */
export interface InParts {
  readonly cells: Readonly<Record<string, string>>;
  readonly what: string;
  /** What a second row says in place of the first, where the table has one row for each. */
  readonly second?: Readonly<Record<string, string>>;
}

/** A cell as it was read, with what the mapping says of its column. */
interface ReadCell {
  readonly field: Field;
  readonly rule: ColumnRule;
  readonly cell: MappedCell;
}

/** The end of follow-up that a cell names, where it leaves a dated thing undone. */
export function endWithout(cell: string): string | null {
  const end = oneTerm(cell, { kind: "end_status" });
  return end !== null && endsWithout.has(end) ? end : null;
}

type Cells = Readonly<Record<string, string>>;

/** Ends that leave a dated thing undone. */
const endsWithout: ReadonlySet<string> = new Set<(typeof endStatuses)[number]>([
  "gave_up",
  "died",
  "lost",
  "in_follow_up",
]);

/**
 * What a cell says that its own column cannot hold: how follow-up ended, in the column of a return; a return that is known
 * between two days only, where the table has a column for each; two treatments one after the other, or how long one was. A
 * cell that the mapping lists is read as it says. A column of the file that is filled otherwise is never overruled: the cell
 * then stays as it is written, and is asked about.
 *
 * @param others the cells of the row in our columns
 */
export function readInParts(
  read: ReadCell,
  { others, mapping }: { readonly others: Cells; readonly mapping: Mapping },
): InParts | null {
  if (isListed(read.rule, read.cell.found)) return null;
  const parts =
    endInColumnOfReturn(read, mapping) ??
    betweenDays(read, { others, mapping }) ??
    treatmentsIn(read, { others, mapping });
  if (parts === null) return null;
  const fits = Object.entries(parts.cells).every(
    ([name, text]) => name === read.field.name || (others[name] ?? "") === "" || others[name] === text,
  );
  return fits ? parts : null;
}

const isListed = ({ values = {} }: ColumnRule, found: string): boolean =>
  Object.keys(values).some((cell) => comparedText(cell) === comparedText(found));

/** Of a date that is blank as long as something has not happened, or of a visit that says whether it has. */
function endInColumnOfReturn({ field, cell }: ReadCell, mapping: Mapping): InParts | null {
  const { name, kind, blankSays, cells } = field;
  const isDated = (kind === "period" || kind === "date") && blankSays !== undefined && cell.problem !== null;
  const isOfVisit = cells === "yes_no" && cell.text === cell.found;
  if (!isDated && !isOfVisit) return null;
  const undone = isDated ? "" : "no";
  const said = isDated ? blankSays : `${labelOf(name)}: no`;
  if (isDated && oneTerm(cell.found, { kind: "not_yet" }) !== null)
    return { cells: { [name]: undone }, what: said };
  if (!tableOf(mapping).fields.some((other) => other.name === "end_status")) return null;
  const end = endWithout(cell.found);
  if (end === null) return null;
  return {
    cells: { [name]: undone, end_status: end },
    what: `${said}, follow-up ended: ${labelOf(end)}`,
  };
}

/** A date of the injuries table that is not known to the day, in the columns that say how exactly it is. */
function betweenDays(
  { field, rule, cell }: ReadCell,
  { others, mapping }: { readonly others: Cells; readonly mapping: Mapping },
): InParts | null {
  const { name, kind, precision } = field;
  if (kind !== "date" || precision === undefined || cell.problem === null) return null;
  const reading = dateReaderOf({ rule, mapping, periods: "taken" })(cell.found, others.injury_date ?? "");
  const text = "value" in reading ? String(reading.value ?? "") : "";
  if (periodOf(text) === null && laterThan(text) === null) return null;
  const what = `the period ${text}`;
  if (field.when === "injury") {
    if (laterThan(text) !== null || isTooWide(text)) return null;
    const { injury_date, injury_date_precision } = injuryDay(text);
    return { cells: { [name]: injury_date, [precision]: injury_date_precision ?? "" }, what };
  }
  const milestone = name.replace(/_date$/, "");
  const told = Object.entries(milestoneOf(text)).map(([part, value]) => [
    `${milestone}_${part}`,
    value ?? "",
  ]);
  return { cells: Object.fromEntries(told), what };
}

/** By table, the columns of a treatment, its start and its end; of the single sheet those of the second as well. */
const columnsOfTreatment: Readonly<Record<string, readonly (readonly [string, string, string])[]>> = {
  single_sheet: [
    ["treatment", "treatment_start", "treatment_end"],
    ["second_treatment", "second_start", "second_end"],
  ],
  treatments: [["treatment", "start_date", "end_date"]],
};

function treatmentsIn(
  { field, rule, cell }: ReadCell,
  { others, mapping }: { readonly others: Cells; readonly mapping: Mapping },
): InParts | null {
  const places = columnsOfTreatment[mapping.table] ?? [];
  const own = places.findIndex(([name]) => name === field.name);
  if (own === -1 || cell.text !== cell.found) return null;
  const [name, startColumn, endColumn] = places[own]!;
  const start = periodOf(others[startColumn] ?? "");
  const told = treatmentsInTurn(cell.found, {
    field,
    rule,
    start: start?.form === "day" ? start.first : null,
  });
  if (told === null) return null;
  const [first, second] = [told[0]!, told[1] ?? null];
  const isEndGiven = (others[endColumn] ?? "") !== "";
  const cells = {
    [name]: first.treatment,
    ...(first.end === null || isEndGiven ? {} : { [endColumn]: first.end }),
  };
  const until = first.end === null ? "" : ` until about ${first.end}`;
  if (second === null) return { cells, what: `${labelOf(first.treatment)}${isEndGiven ? "" : until}` };
  const from = first.end === null ? "" : ` from about ${first.end}`;
  const what = `first ${labelOf(first.treatment)}, then ${labelOf(second.treatment)}${from}`;
  const after = (names: readonly [string, string, string]) => ({
    [names[0]]: second.treatment,
    [names[1]]: first.end ?? "",
    [names[2]]: second.end ?? "",
  });
  if (mapping.table === "treatments")
    return { cells: { ...cells, order: "1" }, second: { ...after(places[0]!), order: "2" }, what };
  return own > 0 ? null : { cells: { ...cells, ...withoutBlanks(after(places[1]!)) }, what };
}

const withoutBlanks = (cells: Cells): Cells =>
  Object.fromEntries(Object.entries(cells).filter(([, text]) => text !== ""));

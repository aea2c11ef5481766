import { type LinkedTableName, linkedTableNames } from "../schema/table-names.js";
import { tables as schemas, type Table } from "../schema/tables.js";
import { milestones } from "../schema/terms.js";
import { type CopyRows, wordsOf } from "./beside-words.js";
import type { SharedRow } from "./de-identify.js";
import type { Disclosure } from "./disclosure.js";
import { commonestTruth, type Guessed, readBack } from "./guess.js";
import type { Values } from "./persons.js";
import { cellOf, fieldLabel } from "./quasi-fields.js";

/** A copy in which what was left out is not read back from what stands beside it, and what that took. */
export interface WithoutLinks {
  readonly rows: CopyRows;
  readonly readBack: Disclosure["read_back"];
  /** The injuries as somebody knows them who reads back what still can be. */
  readonly asKnown: readonly SharedRow[];
}

/** What was hidden in one column of the injuries. */
interface Hidden {
  readonly field: string;
  /** Places of the rows in which it was. */
  readonly places: ReadonlySet<number>;
}

/** What the study times or compares stays, whatever it tells: without it the row would answer nothing. */
const staying: ReadonlySet<string> = new Set(
  linkedTableNames.flatMap((table) =>
    (schemas[table] as Table).fields.filter(({ timed }) => timed).map(({ name }) => `${table}.${name}`),
  ),
);

/**
 * Reads back what was left out or made coarser, as somebody would who knows the rest, and leaves out beside it what tells
 * it: the columns that tell most go first, until all that is left together tells no more than the commonest value does
 * (by one standard deviation of such a guess). A column that every row of its table must fill takes its rows with it.
 * What the study times or compares stays; where that tells it still, the copy says so, and the value counts as known.
 *
 * @param before the injuries before rare combinations were lessened
 * @param options rows of the copy after that, the injuries in the same order; fields: those counted
 */
export function withoutLinks(
  before: readonly SharedRow[],
  {
    rows,
    fields,
    needed,
  }: { readonly rows: CopyRows; readonly fields: readonly string[]; readonly needed: readonly string[] },
): WithoutLinks {
  let copy = rows;
  let asKnown = rows.get("injuries") ?? [];
  const said: Disclosure["read_back"][number][] = [];
  for (const hidden of hiddenIn(before, { after: asKnown, fields })) {
    const { columns, counted } = columnsToLeaveOut(before, { copy, hidden, needed });
    copy = leftOutBeside(copy, { columns, places: hidden.places });
    said.push({ ...counted, columns });
    if (counted.read_back > counted.allowed) {
      asKnown = asKnown.map((row, i) => withTruth(row, { hidden, truth: before[i]!, place: i }));
    }
  }
  return { rows: copy, readBack: said, asKnown };
}

function withTruth(
  row: SharedRow,
  { hidden, truth, place }: { readonly hidden: Hidden; readonly truth: SharedRow; readonly place: number },
): SharedRow {
  if (!hidden.places.has(place)) return row;
  return { ...row, values: { ...row.values, [hidden.field]: truth.values[hidden.field] } };
}

function hiddenIn(
  before: readonly SharedRow[],
  { after, fields }: { readonly after: readonly SharedRow[]; readonly fields: readonly string[] },
): readonly Hidden[] {
  return fields
    .map((field) => ({
      field,
      places: new Set(
        before.flatMap(({ values }, i) =>
          cellOf(values, field) === cellOf(after[i]!.values, field) ? [] : [i],
        ),
      ),
    }))
    .filter(({ places }) => places.size > 0);
}

type Counted = Omit<Disclosure["read_back"][number], "columns">;

function columnsToLeaveOut(
  original: readonly SharedRow[],
  {
    copy,
    hidden,
    needed,
  }: { readonly copy: CopyRows; readonly hidden: Hidden; readonly needed: readonly string[] },
): { readonly columns: readonly string[]; readonly counted: Counted } {
  const after = copy.get("injuries") ?? [];
  const rows = guessedRows(original, { copy, field: hidden.field });
  const visible = after.map(({ values }) => cellOf(values, hidden.field));
  const isWanted = (place: number) => hidden.places.has(place);
  const hits = (columns: readonly string[]) => readBack(rows, { columns, isWanted });
  const cells = hidden.places.size;
  const base = commonestTruth(rows, { visible, isWanted });
  const allowed = base + Math.sqrt((base * (cells - base)) / cells);
  const all = [...new Set(rows.flatMap(({ beside }) => [...beside.keys()]))].sort();
  const before = hits(all);
  const free = before > allowed ? all.filter((column) => !stays(column, needed)) : [];
  const fixed = all.filter((column) => !free.includes(column));
  const worth = new Map(free.map((column) => [column, hits([column])]));
  const order = [...free].sort((one, other) => worth.get(other)! - worth.get(one)! || (one < other ? -1 : 1));
  const bound = free.length === 0 ? before : Math.max(allowed, hits(fixed));
  let [gone, left] = [0, before];
  while (left > bound && gone < order.length) {
    gone += 1;
    left = hits([...fixed, ...order.slice(gone)]);
  }
  return {
    columns: order.slice(0, gone).sort(),
    counted: {
      field: fieldLabel(hidden.field),
      cells,
      commonest: base,
      allowed: Math.floor(allowed),
      read_back_before: before,
      read_back: left,
    },
  };
}

/** Whether a column stays whatever it tells: outcomes, what the study needs, and what every injury must fill. */
function stays(column: string, needed: readonly string[]): boolean {
  if (staying.has(column)) return true;
  const [table, name] = column.split(".") as [LinkedTableName, string];
  if (precisionOfReturn.test(name)) return false;
  return table === "injuries" && (needed.includes(name) || isRequired(table, name));
}

/** Whether a cell of the column cannot be blank, or would say something if it were. */
function isRequired(table: LinkedTableName, name: string): boolean {
  const field = (schemas[table] as Table).fields.find((each) => each.name === name);
  return field === undefined || field.required || field.blankSays !== undefined;
}

function guessedRows(
  before: readonly SharedRow[],
  { copy, field }: { readonly copy: CopyRows; readonly field: string },
): readonly Guessed[] {
  const words = wordsOf(copy);
  return (copy.get("injuries") ?? []).map(({ values, person }, i) => {
    const beside = new Map(words.get(String(values.injury_id)));
    beside.delete(`injuries.${field}`);
    return { person: person ?? "", truth: cellOf(before[i]!.values, field), beside };
  });
}

/** Leaves out the columns beside the injuries at the places; a required one takes the rows of its table with it. */
function leftOutBeside(
  copy: CopyRows,
  { columns, places }: { readonly columns: readonly string[]; readonly places: ReadonlySet<number> },
): CopyRows {
  const injuries = copy.get("injuries") ?? [];
  const of = new Set(injuries.flatMap(({ values }, i) => (places.has(i) ? [String(values.injury_id)] : [])));
  const byTable = new Map<LinkedTableName, string[]>();
  for (const column of columns) {
    const [table, name] = column.split(".") as [LinkedTableName, string];
    byTable.set(table, [...(byTable.get(table) ?? []), name]);
  }
  const result = new Map(copy);
  for (const [table, names] of byTable) {
    const rows = result.get(table) ?? [];
    const isOf = ({ values }: SharedRow) => of.has(String(values.injury_id));
    if (table !== "injuries" && names.some((name) => isRequired(table, name))) {
      if (table === "visits")
        result.set("injuries", withContactsAsBounds(result.get("injuries")!, rows.filter(isOf)));
      result.set(
        table,
        rows.filter((row) => !isOf(row)),
      );
    } else {
      const blanks = (values: Values) =>
        Object.fromEntries(names.map((name) => [name, coarsest(values, name)]));
      result.set(
        table,
        rows.map((row) => (isOf(row) ? { ...row, values: { ...row.values, ...blanks(row.values) } } : row)),
      );
    }
  }
  return result;
}

const precisionOfReturn = /^(\w+)_precision$/;

/** Blank; a return that was dated to the day is dated to the week about that day, since a blank would say: to the day. */
function coarsest(values: Values, name: string): string | null {
  const [, milestone] = precisionOfReturn.exec(name) ?? [];
  return milestone !== undefined && (values[`${milestone}_date`] ?? null) !== null ? "week" : null;
}

/** What visits that are left out said about a return without a date, as its bounds. */
function withContactsAsBounds(
  injuries: readonly SharedRow[],
  visits: readonly SharedRow[],
): readonly SharedRow[] {
  const byInjury = new Map<string, Values[]>();
  for (const { values } of visits) {
    const injury = String(values.injury_id);
    byInjury.set(injury, [...(byInjury.get(injury) ?? []), values]);
  }
  return injuries.map((row) => {
    const own = byInjury.get(String(row.values.injury_id));
    if (own === undefined) return row;
    const values: Record<string, unknown> = { ...row.values };
    for (const milestone of milestones) {
      if (values[`${milestone}_date`] !== null || values[`${milestone}_not_after`] !== null) continue;
      const saying = (answer: string) =>
        own
          .filter((visit) => visit[milestone] === answer)
          .map(({ date }) => String(date))
          .sort();
      const from = values[`${milestone}_not_before`] as string | null;
      const by = saying("yes").find((date) => from === null || date > from);
      if (by === undefined) continue;
      values[`${milestone}_not_after`] = by;
      values[`${milestone}_not_before`] = from ?? saying("no").findLast((date) => date < by) ?? null;
    }
    return { ...row, values };
  });
}

import type { LinkedTableName } from "../../../schema/table-names.js";
import {
  type Cells,
  type ClinicRecord,
  cell,
  type RecordRow,
  rowsOf,
  type TableOfInjury,
  tablesOfInjury,
} from "./record.js";

// What somebody is writing: one row, or several that belong together, until they are kept in the record.

/** A row that is being written. */
export interface DraftPart {
  readonly table: LinkedTableName;
  readonly key: number;
  readonly isNew: boolean;
  /** The section of the form that is shown; null for all of it. */
  readonly section: string | null;
  readonly cells: Cells;
  /** Columns that follow the day of the visit until somebody writes into them. */
  readonly following: readonly string[];
  /** The name that was proposed for a new injury: it changes with the person as long as nobody writes another. */
  readonly proposedName: string;
}

export interface Draft {
  readonly kind: "new-injury" | "visit" | "correction";
  /** The injury, as its row is named in the record; null for a new one. */
  readonly injury: number | null;
  readonly parts: readonly DraftPart[];
}

/** The section of the injuries in which stands what became of it. */
export const courseSection = "course";

const newPart = (record: ClinicRecord, table: LinkedTableName, place = 0): DraftPart => ({
  table,
  key: record.nextKey + place,
  isNew: true,
  section: null,
  cells: {},
  following: [],
  proposedName: "",
});

const partOf = (table: LinkedTableName, row: RecordRow): DraftPart => ({
  ...row,
  table,
  isNew: false,
  section: null,
  following: [],
  proposedName: "",
});

export const newInjury = (record: ClinicRecord): Draft => ({
  kind: "new-injury",
  injury: null,
  parts: [newPart(record, "injuries")],
});

/** The next visit of an injury, with what became of the injury until then. */
export function nextVisit(record: ClinicRecord, key: number): Draft {
  const injury = record.rows.injuries.find((row) => row.key === key)!;
  const course = { ...partOf("injuries", injury), section: courseSection, following: ["last_contact_date"] };
  return { kind: "visit", injury: key, parts: [newPart(record, "visits"), course] };
}

/** A row of the record to be corrected. */
export function correction(
  record: ClinicRecord,
  { table, key }: { readonly table: LinkedTableName; readonly key: number },
): Draft {
  const row = record.rows[table].find((one) => one.key === key)!;
  const owner = record.rows.injuries.find(
    ({ cells }) => cell(cells, "injury_id") === cell(row.cells, "injury_id"),
  );
  return {
    kind: "correction",
    injury: table === "injuries" ? key : (owner?.key ?? null),
    parts: [partOf(table, row)],
  };
}

/** The column of each table that holds the day on which something was done or seen. */
const dayColumn: Readonly<Record<TableOfInjury, string>> = {
  treatments: "start_date",
  imaging: "date",
  visits: "date",
};

/** A further row, such as a treatment that began; its day is that of the visit, until another is written. */
export function withPart(record: ClinicRecord, draft: Draft, table: TableOfInjury): Draft {
  const places = draft.parts.filter(({ isNew }) => isNew).map(({ key }) => key - record.nextKey);
  const part = newPart(record, table, Math.max(-1, ...places) + 1);
  const day = dayOfDraft(draft);
  const column = dayColumn[table];
  const cells: Cells = day === "" ? {} : { [column]: day };
  return { ...draft, parts: [...draft.parts, { ...part, cells, following: [column] }] };
}

/** A row of the record that changes with the visit, such as a treatment that has ended. */
export function withRow(
  record: ClinicRecord,
  draft: Draft,
  { table, key }: { readonly table: TableOfInjury; readonly key: number },
): Draft {
  const row = record.rows[table].find((one) => one.key === key)!;
  return { ...draft, parts: [...draft.parts, partOf(table, row)] };
}

/** Treatments of the injury of a draft that have not ended, and are not in the draft yet. */
export function runningTreatments(record: ClinicRecord, draft: Draft): readonly RecordRow[] {
  if (draft.injury === null) return [];
  const injury = cell(record.rows.injuries.find(({ key }) => key === draft.injury)?.cells ?? {}, nameColumn);
  return rowsOf(record, { table: "treatments", injury }).filter(
    ({ key, cells }) => cell(cells, "end_date") === "" && !draft.parts.some((part) => part.key === key),
  );
}

/** Takes a row out of a draft; one of the record stays in the record as it was. */
export const withoutPart = (draft: Draft, key: number): Draft => ({
  ...draft,
  parts: draft.parts.filter((part) => part.key !== key),
});

/** The day of the visit; of a new injury the day of the first visit. */
function dayOfDraft({ parts }: Draft): string {
  const visit = parts.find(({ table, isNew }) => table === "visits" && isNew);
  if (visit !== undefined) return cell(visit.cells, "date");
  const injury = parts.find(({ table }) => table === "injuries");
  return injury === undefined ? "" : cell(injury.cells, "first_visit_date");
}

export interface WrittenCell {
  readonly key: number;
  readonly column: string;
  readonly text: string;
}

/**
 * Writes a cell. What follows the day of the visit goes with it, the last contact only to a later day; a new injury of a
 * person is named by the person and a number, until somebody names it otherwise.
 */
export function withCell(record: ClinicRecord, draft: Draft, { key, column, text }: WrittenCell): Draft {
  const before = dayOfDraft(draft);
  const parts = draft.parts.map((part) => {
    if (part.key !== key) return part;
    const following = part.following.filter((name) => name !== column);
    return { ...part, following, cells: { ...part.cells, [column]: text } };
  });
  const written = withName(record, { ...draft, parts });
  const day = dayOfDraft(written);
  if (day === before) return written;
  return { ...written, parts: written.parts.map((part) => followed(part, { day, before })) };
}

const isWholeDay = (text: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(text);

function followed(
  part: DraftPart,
  { day, before }: { readonly day: string; readonly before: string },
): DraftPart {
  const changed = part.following.map((column) => {
    const now = cell(part.cells, column);
    if (column !== "last_contact_date") return [column, now === before || now === "" ? day : now] as const;
    return [column, isWholeDay(day) && day > now ? day : now] as const;
  });
  return { ...part, cells: { ...part.cells, ...Object.fromEntries(changed) } };
}

const nameColumn = "injury_id";

function withName(record: ClinicRecord, draft: Draft): Draft {
  if (draft.kind !== "new-injury") return draft;
  const parts = draft.parts.map((part) => {
    const [name, person] = [cell(part.cells, nameColumn), cell(part.cells, "person_id")];
    if (part.table !== "injuries" || (name !== "" && name !== part.proposedName)) return part;
    const proposedName = person === "" ? "" : freeName(record, person);
    return { ...part, proposedName, cells: { ...part.cells, [nameColumn]: proposedName } };
  });
  return { ...draft, parts };
}

function freeName({ rows }: ClinicRecord, person: string): string {
  const taken = new Set(rows.injuries.map(({ cells }) => cell(cells, nameColumn)));
  for (let i = 1; ; i++) if (!taken.has(`${person}-${i}`)) return `${person}-${i}`;
}

/** Whether anything was written into a new row besides what stands there by itself. */
const isWritten = ({ cells, following }: DraftPart): boolean =>
  Object.entries(cells).some(
    ([column, text]) => text.trim() !== "" && column !== nameColumn && !following.includes(column),
  );

/** Whether a draft holds anything that would be lost. */
export const isChanged = (record: ClinicRecord, { parts }: Draft): boolean =>
  parts.some((part) => {
    if (part.isNew) return isWritten(part);
    const before = record.rows[part.table].find(({ key }) => key === part.key)?.cells ?? {};
    const columns = [...Object.keys(before), ...Object.keys(part.cells)];
    return columns.some((column) => cell(before, column) !== cell(part.cells, column));
  });

/** The name of the injury that a draft is about, as it will stand in the record. */
export function injuryNameOf({ rows }: ClinicRecord, draft: Draft): string {
  const part = draft.parts.find(({ table }) => table === "injuries");
  const kept = rows.injuries.find(({ key }) => key === draft.injury);
  return cell(part?.cells ?? kept?.cells ?? {}, nameColumn);
}

/** The parts that would become rows: all that stand in the record already, and new ones into which something was written. */
export const partsKept = ({ parts }: Draft): readonly DraftPart[] =>
  parts.filter((part) => !part.isNew || part.table === "injuries" || isWritten(part));

/** The record with what a draft says. A name that an injury had before is changed in the rows that name it too. */
export function withDraft(record: ClinicRecord, draft: Draft): ClinicRecord {
  const name = injuryNameOf(record, draft);
  const before = cell(record.rows.injuries.find(({ key }) => key === draft.injury)?.cells ?? {}, nameColumn);
  const rows = { ...record.rows };
  if (before !== "" && before !== name)
    for (const table of tablesOfInjury)
      rows[table] = rows[table].map((row) =>
        cell(row.cells, nameColumn) === before
          ? { ...row, cells: { ...row.cells, [nameColumn]: name } }
          : row,
      );
  const kept = partsKept(draft);
  // a row that names no injury keeps the name that was written
  const isNamed = draft.kind === "new-injury" || draft.injury !== null;
  for (const { table, key, isNew, cells: written } of kept) {
    const cells = table === "injuries" || !isNamed ? written : { ...written, [nameColumn]: name };
    rows[table] = isNew
      ? [...rows[table], { key, cells }]
      : rows[table].map((row) => (row.key === key ? { key, cells } : row));
  }
  const nextKey = Math.max(record.nextKey, ...kept.map(({ key }) => key + 1));
  return { ...record, rows, nextKey };
}

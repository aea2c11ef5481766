import { foundText } from "../../schema/ask.js";
import { tidy } from "../../schema/cells/reading.js";
import type { CellRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { Field } from "../../schema/field.js";
import type { PersonIds } from "../../schema/person-key.js";
import { isOfVisit, visitSheet } from "../../schema/visit-sheet.js";
import { type GroupedRows, groupVisits } from "./group-visits.js";

/** The rows of one injury in a sheet with one row a visit. */
export interface FoldedInjury {
  /** What the rows say of the injury, as one row of the single sheet, under the number of the first. */
  readonly injury: CellRow;
  readonly rows: readonly CellRow[];
  /** By column, the row that a cell of the injury is read from. */
  readonly origins: ReadonlyMap<string, number>;
  /** Entries that contradict each other. */
  readonly queries: readonly DataQuery[];
  /** How many blank cells of its rows are read from another row, by column. */
  readonly carried: ReadonlyMap<string, number>;
}

const ofInjury: readonly Field[] = visitSheet.fields.filter((field) => !isOfVisit(field));
const isoDay = /^\d{4}-\d{2}-\d{2}$/;

/**
 * Rows of visits as injuries.
 *
 * What is written of an injury in some of its rows holds for all of them; two different entries are asked about. Of the
 * last contact the latest day stands, that of the last visit included. What is the same for a person whatever the injury
 * is also read from the person's other injuries. Treatments that follow each other become the first and the second.
 */
export function foldVisits(rows: readonly CellRow[], personIds: PersonIds): readonly FoldedInjury[] {
  const persons = groupVisits(rows, personIds);
  return persons.flatMap((injuries) => {
    const ofPerson = lastingCells(injuries);
    return injuries.map((own) => foldedInjury(own, ofPerson));
  });
}

interface Entry {
  readonly text: string;
  readonly row: number;
}

/** The different filled cells of a column, each with the first row in which it stands. */
function entriesOf(rows: readonly CellRow[], column: string): readonly Entry[] {
  const entries = new Map<string, number>();
  for (const { row, cells } of rows) {
    const text = tidy(cells[column] ?? "");
    if (text !== "" && !entries.has(text)) entries.set(text, row);
  }
  return [...entries].map(([text, row]) => ({ text, row }));
}

/** What is the same in all rows of a person: sex, the dominant hand. */
function lastingCells(injuries: readonly GroupedRows[]): ReadonlyMap<string, Entry> {
  const all = injuries.flat();
  return new Map(
    ofInjury
      .filter(({ ofPerson }) => ofPerson === true)
      .flatMap(({ name }): [string, Entry][] => {
        const [only, ...others] = entriesOf(all, name);
        return only === undefined || others.length > 0 ? [] : [[name, only]];
      }),
  );
}

function foldedInjury(rows: GroupedRows, ofPerson: ReadonlyMap<string, Entry>): FoldedInjury {
  const first = rows[0]!;
  const treatments = treatmentsIn(rows);
  const left = ofInjury.filter((field) => treatments === null || !isOfTreatment(field));
  const read = left.map((field) => ({ field, ...columnRead(field, { rows, ofPerson }) }));
  const entries: readonly (readonly [string, Entry])[] = [
    ...(treatments ?? []),
    ...read.flatMap(({ field, entry }) => (entry === null ? [] : [[field.name, entry] as const])),
  ];
  const carried = read.flatMap(({ field, entry }): [string, number][] => {
    const blank = rows.filter(({ cells }) => tidy(cells[field.name] ?? "") === "").length;
    return entry === null || blank === 0 || field.when === "last-contact" ? [] : [[field.name, blank]];
  });
  return {
    injury: { ...first, cells: Object.fromEntries(entries.map(([column, { text }]) => [column, text])) },
    rows,
    origins: new Map(entries.map(([column, { row }]) => [column, row])),
    queries: read.flatMap(({ field, others, first: entry }) =>
      others.map((other) => differs(first, { field, entry: entry!, other })),
    ),
    carried: new Map(carried),
  };
}

/** What the rows of an injury say in a column: the entry that is used, and those that contradict the first. */
function columnRead(
  field: Field,
  { rows, ofPerson }: { readonly rows: GroupedRows; readonly ofPerson: ReadonlyMap<string, Entry> },
): { readonly entry: Entry | null; readonly first: Entry | null; readonly others: readonly Entry[] } {
  if (field.when === "last-contact") return { entry: lastContact(rows, field.name), first: null, others: [] };
  const [first = ofPerson.get(field.name) ?? null, ...others] = entriesOf(rows, field.name);
  if (first === null || others.length === 0) return { entry: first, first, others: [] };
  if (field.kind === "text") return { entry: joined([first, ...others]), first, others: [] };
  return { entry: isNeeded(field) ? first : null, first, others };
}

const joined = (entries: readonly Entry[]): Entry => ({
  text: entries.map(({ text }) => text).join("; "),
  row: entries[0]!.row,
});

/** What sets the injury aside where it is not known which entry is right; of any other column neither is used. */
const isNeeded = ({ required, blankSays, name }: Field): boolean =>
  required || blankSays !== undefined || isOfTreatment({ name });

const differs = (
  { file }: CellRow,
  { field, entry, other }: { readonly field: Field; readonly entry: Entry; readonly other: Entry },
): DataQuery => ({
  code: "visits-differ",
  severity: isNeeded(field) ? "set-aside" : "look-at",
  file,
  row: other.row,
  column: field.name,
  found: foundText(other.text),
  facts: { other_row: entry.row, other: foundText(entry.text) },
  injury: null,
});

/** The latest of the days of contact and of the visits; what is no day is left for typing to ask about. */
function lastContact(rows: GroupedRows, column: string): Entry | null {
  const contacts = entriesOf(rows, column);
  const unreadable = contacts.find(({ text }) => !isoDay.test(text));
  if (unreadable !== undefined) return unreadable;
  const days = [...contacts, ...entriesOf(rows, "date").filter(({ text }) => isoDay.test(text))];
  return days.reduce<Entry | null>(
    (latest, day) => (latest === null || day.text > latest.text ? day : latest),
    null,
  );
}

const episode = ["treatment", "treatment_start", "treatment_end"] as const;
const second = ["second_treatment", "second_start", "second_end"] as const;
const isOfTreatment = ({ name }: Pick<Field, "name">): boolean =>
  [...episode, ...second].some((column) => column === name);

/**
 * Two treatments that follow each other in the rows, each with its own start, as the first and the second; null where
 * there is one, or more than the sheet has room for.
 */
function treatmentsIn(rows: GroupedRows): readonly (readonly [string, Entry])[] | null {
  if (rows.some(({ cells }) => second.some((column) => tidy(cells[column] ?? "") !== ""))) return null;
  const told = rows.filter(({ cells }) =>
    episode.every((column, i) => i === 2 || tidy(cells[column] ?? "") !== ""),
  );
  const starts = entriesOf(told, "treatment_start");
  const isUneven = rows.some(
    (row) => !told.includes(row) && episode.some((column) => tidy(row.cells[column] ?? "") !== ""),
  );
  if (isUneven || starts.length !== 2) return null;
  const inOrder = [...starts].sort((one, other) => (one.text < other.text ? -1 : 1));
  const episodes = inOrder.map(({ text }) =>
    told.filter(({ cells }) => tidy(cells.treatment_start ?? "") === text),
  );
  const parts = episodes.map((own) => episode.map((column) => entriesOf(own, column)));
  if (parts.flat().some((entries) => entries.length > 1)) return null;
  return parts.flatMap((entries, place) =>
    entries.flatMap((of, i): [string, Entry][] => {
      const column = (place === 0 ? episode : second)[i]!;
      return of[0] === undefined ? [] : [[column, of[0]]];
    }),
  );
}

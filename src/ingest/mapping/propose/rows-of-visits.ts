import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import type { TableName } from "../../../schema/table-names.js";
import { tables } from "../../../schema/tables.js";
import type { Mapping, Undecided } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import type { Settled } from "./match-columns.js";
import { countPassing, type Profile } from "./profile.js";
import { nameScore } from "./read-name.js";

/** A sheet in which the rows look like visits: persons, injuries and rows, and the columns of dates that go on. */
export interface RowsOfVisits {
  readonly persons: number;
  readonly injuries: number;
  readonly rows: number;
  readonly dates: readonly string[];
}

/** A column is taken for what it is called from here on. */
const leastName = 0.6;
/** Fewer further rows of an injury are copies rather than visits. */
const leastFurther = { rows: 2, share: 0.2 } as const;
const leastShare = 0.8;

/**
 * Whether the rows of a sheet look like visits: the same person and injury (its date, hand and finger; without these its
 * pulleys and grade) stand on several rows, and in these a column of dates differs from row to row.
 */
export function rowsOfVisits(profiles: readonly Profile[]): RowsOfVisits | null {
  const called = (name: string): Profile | null => bestNamed(profiles, fieldOf(name));
  const person = called("person");
  if (person === null) return null;
  const named = ["injury_date", "hand", "finger"].flatMap((name) => called(name) ?? []);
  const telling =
    named.length > 0 ? [...new Set(named)] : ["pulleys", "grade"].flatMap((name) => called(name) ?? []);
  if (telling.length === 0 || telling.includes(person)) return null;
  const injuries = injuriesIn(person, telling);
  const rows = person.filled.length;
  const further = rows - injuries.length;
  if (further < Math.max(leastFurther.rows, rows * leastFurther.share)) return null;
  const several = injuries.filter((each) => each.length > 1);
  const dates = profiles.filter((profile) => !telling.includes(profile) && goesOn(profile, several));
  if (dates.length === 0) return null;
  return {
    persons: person.distinct.size,
    injuries: injuries.length,
    rows,
    dates: dates.map(({ name }) => name),
  };
}

const fieldOf = (name: string): Field =>
  tables.single_sheet.fields.find((field) => field.name === name) as Field;

function bestNamed(profiles: readonly Profile[], field: Field): Profile | null {
  const scored = profiles.map((profile) => ({ profile, score: nameScore(profile.read, field) }));
  const best = scored.sort((one, other) => other.score - one.score)[0];
  return best === undefined || best.score < leastName ? null : best.profile;
}

/** The rows of each injury: those of a person whose filled cells do not contradict each other, the nearest above first. */
function injuriesIn(person: Profile, telling: readonly Profile[]): readonly (readonly number[])[] {
  const ofPersons = new Map<string, { readonly parts: string[]; readonly rows: number[] }[]>();
  for (const [row, cell] of person.cells.entries()) {
    if (cell === "") continue;
    const name = comparedText(cell);
    const own = ofPersons.get(name) ?? [];
    ofPersons.set(name, own);
    const parts = telling.map(({ cells }) => comparedText(cells[row]!));
    const same = own.findLast((each) =>
      parts.every((part, i) => part === "" || each.parts[i] === "" || part === each.parts[i]),
    );
    if (same === undefined) own.push({ parts, rows: [row] });
    else {
      same.rows.push(row);
      for (const [i, part] of parts.entries()) if (part !== "") same.parts[i] = part;
    }
  }
  return [...ofPersons.values()].flatMap((own) => own.map(({ rows }) => rows));
}

/** Whether a column of dates differs between the rows of nearly every injury. */
function goesOn(profile: Profile, injuries: readonly (readonly number[])[]): boolean {
  const { filled, dates, cells } = profile;
  if (filled.length === 0) return false;
  if (countPassing(profile, (cell) => dates.has(cell)) < filled.length * leastShare) return false;
  const dated = injuries.map((rows) => rows.map((row) => cells[row]!).filter((cell) => cell !== ""));
  const going = dated.filter((own) => own.length > 1 && new Set(own).size > own.length / 2);
  return going.length >= injuries.length * leastShare;
}

/** What is asked where the rows look like visits. */
export const questionAboutRows = ({ persons, injuries, rows }: RowsOfVisits): Undecided => ({
  question: `There are ${counted(persons, "person", "people")} in ${counted(rows, "row", "rows")}, and the same injury is in several rows with dates that go on. Is each row a visit?`,
  decides: [["one_row"]],
  choices: {
    visit: `yes: ${counted(rows, "row is a visit", "rows are visits")} of ${counted(injuries, "injury", "injuries")}; a blank cell about the injury is read from the other rows of the same injury`,
    injury: `no: each row is an injury of its own, ${rows} in all; rows with the same person, finger and day are then set aside`,
  },
});

/** What a row of a sheet is, and what is asked about it. */
export interface FormOfRows extends Pick<Mapping, "table" | "one_row"> {
  readonly found: RowsOfVisits | null;
  /** The same where nobody has said yet what a row is. */
  readonly asked: RowsOfVisits | null;
}

/** What a row is: as a person has said, or an earlier mapping; else as the rows look. */
export function formOfRows(
  profiles: readonly Profile[],
  {
    table,
    earlier,
    oneRow = saidIn(earlier),
  }: {
    readonly table: TableName;
    readonly earlier?: Mapping;
    readonly oneRow?: "injury" | "visit" | undefined;
  },
): FormOfRows {
  const found = table === "single_sheet" && oneRow !== "injury" ? rowsOfVisits(profiles) : null;
  const one_row = oneRow ?? (found === null ? undefined : "visit");
  return { table, ...(one_row && { one_row }), found, asked: oneRow === undefined ? found : null };
}

const saidIn = (earlier: Mapping | undefined): Mapping["one_row"] =>
  earlier?.undecided.some(({ decides }) => decides[0]?.[0] === "one_row") === true
    ? undefined
    : earlier?.one_row;

/** Of the one column of dates that goes on it is known that it holds the days of the visits. */
export function withDayOfVisit(settled: Settled, { one_row, found }: FormOfRows): Settled {
  const [day, ...others] = found?.dates ?? [];
  if (one_row !== "visit" || day === undefined || others.length > 0) return settled;
  if (settled.has("date") || [...settled.values()].includes(day)) return settled;
  return new Map([...settled, ["date", day]]);
}

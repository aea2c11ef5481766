import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { tables } from "../../../schema/tables.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import { type Groups, unfoldGroups } from "../injuries-in-row.js";
import type { Mapping, Undecided } from "../mapping.js";
import { wordsOfName } from "../plain-words.js";
import { contentReader } from "./content.js";
import { profilesOf } from "./profile.js";
import { nameScore, readName } from "./read-name.js";

/** A column name without its number, the number, and where the column stands. */
interface Numbered {
  readonly stem: string;
  readonly number: number | null;
  readonly name: string;
  readonly place: number;
}

const leastName = 0.6;
const leastShare = 0.5;
const mostGroups = 9;

/**
 * Columns that come again with a number (Finger 1, Grade 1, Finger 2, Grade 2): the groups, where the fingers are among
 * them. What else is numbered belongs to the groups if it stands between their fingers, or is of the injury itself.
 */
export function groupsInRow(sheet: Pick<ShapedSheet, "columns" | "records">): Groups | null {
  const byStem = new Map<string, Numbered[]>();
  for (const { name, place } of sheet.columns) {
    const numbered = { ...numberIn(name), name, place };
    byStem.set(numbered.stem, [...(byStem.get(numbered.stem) ?? []), numbered]);
  }
  const series = [...byStem.values()].flatMap((columns) => {
    const found = seriesOf(columns);
    return found === null ? [] : [found];
  });
  const fingers = series.find((each) => isCalled(each[0]!, "finger") && holdFingers(sheet, each));
  if (fingers === undefined) return null;
  const count = fingers.length;
  const own = series.filter((each) => each === fingers || belongs(each, fingers));
  const groups = Array.from({ length: count }, (_, k) => own.map((each) => each[k]?.name ?? ""));
  return groups.every((group) => group.every((name) => name !== "__proto__")) ? groups : null;
}

const roman: Readonly<Record<string, number>> = { i: 1, ii: 2, iii: 3, iv: 4, v: 5 };
const aNumber = /^([1-9])(?:st|nd|rd|th|er|e|ere|eme)?$/;

/** The number of a column: the only word of its name that is one. */
function numberIn(name: string): Pick<Numbered, "stem" | "number"> {
  const words = wordsOfName(name);
  const numbers = words.flatMap((word, i) => {
    const digit = aNumber.exec(word)?.[1];
    const number = digit === undefined ? roman[word] : Number(digit);
    return number === undefined ? [] : [{ i, number }];
  });
  const [only, ...others] = numbers;
  if (only === undefined || others.length > 0 || words.length === 1)
    return { stem: words.join(" "), number: null };
  return { stem: words.filter((_, i) => i !== only.i).join(" "), number: only.number };
}

/** Columns 1, 2 and so on of one name, in order; the first may be without a number. */
function seriesOf(columns: readonly Numbered[]): readonly Numbered[] | null {
  const first = columns.find(({ number }) => number === 1) ?? columns.find(({ number }) => number === null);
  if (first === undefined) return null;
  const series = [first];
  for (let number = 2; number <= mostGroups; number++) {
    const next = columns.find((column) => column.number === number);
    if (next === undefined) break;
    series.push(next);
  }
  return series.length > 1 ? series : null;
}

const fieldOf = (name: string): Field =>
  tables.single_sheet.fields.find((field) => field.name === name) as Field;

const isCalled = ({ stem }: Numbered, name: string): boolean =>
  nameScore(readName(stem), fieldOf(name)) >= leastName;

/** Not ticks in a column for each finger. */
function holdFingers(sheet: Pick<ShapedSheet, "columns" | "records">, series: readonly Numbered[]): boolean {
  const columns = sheet.columns.filter(({ place }) => series.some((each) => each.place === place));
  const read = contentReader(fieldOf("finger"));
  return profilesOf({ ...sheet, columns }).every((profile) => (read(profile).share ?? 1) >= leastShare);
}

const ofTheInjury = ["hand", "pulleys", "pulley_extents", "grade", "bowstringing", "injury_date"] as const;

function belongs(series: readonly Numbered[], fingers: readonly Numbered[]): boolean {
  if (ofTheInjury.some((name) => isCalled(series[0]!, name))) return true;
  const [one, two] = [series[0]!.place, series[1]!.place];
  return one > fingers[0]!.place && one < fingers[1]!.place && two > fingers[1]!.place;
}

/** What a row holds, and what is asked about it. */
export interface InjuriesInRow {
  readonly told: Mapping["injuries_in_row"];
  readonly questions: readonly Undecided[];
}

/** Groups in the rows of a sheet, read as a person has said; by default each as an injury, which is asked. */
export function injuriesInRow(
  sheet: Pick<ShapedSheet, "columns" | "records">,
  said: "each" | "first" | undefined,
): InjuriesInRow {
  const groups = groupsInRow(sheet);
  if (groups === null) return { told: undefined, questions: [] };
  const told = { groups: groups.map((group) => [...group]), read: said ?? "each" };
  return { told, questions: said === undefined ? [questionAboutGroups(sheet, groups)] : [] };
}

function questionAboutGroups(sheet: Pick<ShapedSheet, "columns" | "records">, groups: Groups): Undecided {
  const rows = sheet.records.length;
  const injuries = unfoldGroups(sheet, groups).records.length;
  const names = groups.map((group) => group.filter((name) => name !== "").join(", ")).join("; ");
  return {
    question: `Columns come again with a number (${names}). Does a row hold several injuries?`,
    decides: [["injuries_in_row", "read"]],
    choices: {
      each: `yes: ${counted(rows, "row holds", "rows hold")} ${counted(injuries, "injury", "injuries")}; the other columns hold for each injury of the row`,
      first: `no: only the first group is read, and the others are counted as not used`,
    },
  };
}

import { saysNothing } from "../../../schema/cells/reading.js";
import type { Field } from "../../../schema/field.js";
import { labelOf } from "../../../schema/labels.js";
import { endWithout } from "../apply/cells-in-parts.js";
import { codedReader } from "../apply/coded-text.js";
import { partReader, partsInTurn, treatmentsInTurn } from "../apply/treatments-in-turn.js";
import { oneTerm } from "../cell-words.js";
import { askAnswer, blankAnswer, isKey } from "../mapping.js";
import { type FingerCount, fingerNumber } from "../read-finger.js";
import { looksLikeDate } from "./date-shapes.js";
import type { Profile } from "./profile.js";

/** Columns with more different cells than this are not written out cell by cell. */
const mostListed = 60;
/** More questions than this about one column are left to the rows. */
const mostQuestions = 12;

/** A cell of which the vocabulary does not say what it means. */
export interface OpenValue {
  readonly cell: string;
  readonly times: number;
  readonly choices: Readonly<Record<string, string>>;
}

/** The cells of a coded column with their meanings, and those without one. */
export interface ValuesFound {
  readonly values: Readonly<Record<string, string>>;
  readonly open: readonly OpenValue[];
  /** Whether the site's way of counting fingers has to be asked. */
  readonly numbered: FingerCount | "ask" | null;
}

/** Reads the different cells of a coded column by the vocabulary. */
export function valuesOf({ distinct }: Profile, field: Field): ValuesFound {
  const numbered = field.cells === "finger" ? fingerCountOf([...distinct.keys()]) : null;
  const read = codedReader(field, { numbered: numbered === "ask" ? undefined : (numbered ?? undefined) });
  const values: [string, string][] = [];
  const unread: [string, number][] = [];
  for (const [cell, times] of distinct) {
    if (!isKey(cell)) continue;
    const meaning = read(cell);
    if (meaning !== null) values.push([cell, meaning === "" ? blankAnswer : meaning]);
    else if (isReadInParts(cell, field)) continue;
    else if (!saysNothing(cell) && !(numbered === "ask" && fingerNumber(cell) !== null)) {
      unread.push([cell, times]);
    }
  }
  return {
    values: distinct.size > mostListed ? {} : Object.fromEntries(values),
    open: toBeAsked(unread, field).slice(0, mostQuestions),
    numbered,
  };
}

/** What is not known, cell by cell; of cells in parts the parts, with the rows of all cells that have them. */
function toBeAsked(unread: readonly (readonly [string, number])[], field: Field): readonly OpenValue[] {
  const times = new Map<string, number>();
  for (const [cell, rows] of unread)
    for (const part of unknownParts(cell, field) ?? [cell]) times.set(part, (times.get(part) ?? 0) + rows);
  return [...times].map(([cell, rows]) => ({ cell, times: rows, choices: choicesFor(cell, field) }));
}

/** Treatments with their times, and an end where a visit says whether somebody was back, go to columns of their own. */
function isReadInParts(cell: string, field: Field): boolean {
  if (field.cells === "yes_no") return endWithout(cell) !== null;
  return field.cells === "treatment" && treatmentsInTurn(cell, { field, rule: {}, start: null }) !== null;
}

/**
 * Of treatments one after the other, or with a time, the words that are not known, each asked about once for all cells;
 * null where the cell must be asked about as a whole.
 */
function unknownParts(cell: string, field: Field): readonly string[] | null {
  if (field.cells !== "treatment") return null;
  const parts = partsInTurn(cell);
  const isWhole = parts.length === 1 && parts[0]!.days === null;
  if (isWhole || parts.length > 2 || parts.some(({ isReadable, name }) => !isReadable || name === ""))
    return null;
  const read = partReader(field, {});
  return parts.map(({ name }) => name).filter((name) => read(name) === null);
}

/** A fifth finger is only counted where the thumb is the first. */
function fingerCountOf(cells: readonly string[]): FingerCount | "ask" | null {
  const numbers = cells.map(fingerNumber).filter((number) => number !== null);
  if (numbers.length === 0) return null;
  return numbers.includes(5) ? "with_thumb" : "ask";
}

const leaveOpen: Readonly<Record<string, string>> = {
  [blankAnswer]: "not known: the cell counts as blank",
  [askAnswer]: "not clear: raise a query about each row",
};

function choicesFor(cell: string, { cells, terms = [], kind }: Field): Readonly<Record<string, string>> {
  if (kind === "list") return { ...rangeChoices(cell, terms), ...leaveOpen };
  const fitting = cells === "grade" ? gradesFor(cell, terms) : terms;
  return { ...Object.fromEntries(fitting.map((term) => [term, `means ${labelOf(term)}`])), ...leaveOpen };
}

/** A 4 without its letter is one of the fourth grade; of "2-3" one is meant, or none is known. */
function gradesFor(cell: string, terms: readonly string[]): readonly string[] {
  const [, from, to] = /^\D*([1-4])[ab]?\s*[-–/]\s*([1-4])[ab]?$/i.exec(cell) ?? [];
  if (from !== undefined && to !== undefined) {
    return terms.filter((term) => (term[0]! >= from && term[0]! <= to) || term === "unknown");
  }
  return /4|iv/i.test(cell) ? terms.filter((term) => term.startsWith("4")) : terms;
}

/** "A2-A4" is two pulleys or all between. */
function rangeChoices(cell: string, terms: readonly string[]): Readonly<Record<string, string>> {
  const [, first = "", last = ""] = /^\s*([ac]\d)\s*[-–—]\s*([ac]?\d)\s*$/i.exec(cell) ?? [];
  const from = first.toUpperCase();
  const to = last.length === 1 ? `${from[0]}${last}` : last.toUpperCase();
  const [start, end] = [terms.indexOf(from), terms.indexOf(to)];
  if (start === -1 || end <= start || from[0] !== to[0]) return {};
  const all = terms.slice(start, end + 1).join("|");
  return {
    [`${from}|${to}`]: "these two pulleys",
    ...(end > start + 1 ? { [all]: "these two and everything between them" } : {}),
  };
}

/** Cells of a dated column that say in words that the thing has not happened, or say nothing. */
export function wordsInDates(
  { distinct }: Profile,
  { blankSays }: Field,
): Pick<ValuesFound, "values" | "open"> {
  const values: [string, string][] = [];
  const open: OpenValue[] = [];
  for (const [cell, times] of distinct) {
    if (blankSays === undefined || looksLikeDate(cell) || !isKey(cell)) continue;
    if (oneTerm(cell, { kind: "not_yet" }) !== null) values.push([cell, blankAnswer]);
    else if (saysNothing(cell)) {
      open.push({
        cell,
        times,
        choices: {
          [blankAnswer]: `it means "${blankSays}"`,
          [askAnswer]: "not clear: raise a query about each row",
        },
      });
    }
  }
  return { values: Object.fromEntries(values), open };
}

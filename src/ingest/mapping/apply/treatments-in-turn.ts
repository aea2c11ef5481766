import { type ElapsedDays, elapsedDays } from "../../../schema/cells/dates/elapsed-time.js";
import { dateOfDay, dayNumber, type IsoDate } from "../../../schema/dates.js";
import type { Field } from "../../../schema/field.js";
import { alternatives, phrasesOfAll } from "../../../schema/languages/alternatives.js";
import { plainLetters } from "../../../schema/plain-letters.js";
import type { ColumnRule } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { codedReader } from "./coded-text.js";

/** A treatment of a cell, and its last day where the cell tells how long it was. */
export interface TreatmentInCell {
  readonly treatment: string;
  readonly end: IsoDate | null;
}

const then = new RegExp(
  String.raw`\s*(?:→|⇒|->|=>|>|[,;]?\s+(?:${alternatives(phrasesOfAll(({ dates }) => dates.afterwards))})\s)\s*`,
  "u",
);
/** A treatment, and how long it was. */
const withTime = /^([^\d~≈]*?)[\s,(:]*([\d~≈].*?)?\)?$/;

interface Part {
  /** The words for the treatment alone. */
  readonly name: string;
  /** How long it was; null where that is not said, or cannot be read. */
  readonly days: number | null;
  readonly isReadable: boolean;
}

/** The treatments that a cell names one after the other, without a look at what their words mean. */
export const partsInTurn = (cell: string): readonly Part[] =>
  plainLetters(cell.trim()).split(then).map(partOf);

function partOf(text: string): Part {
  const first = timeFirst(text.trim());
  if (first !== null) return first;
  const [, name = "", time] = withTime.exec(text.trim()) ?? [];
  const lasted = time === undefined ? null : elapsedDays(time);
  const days = lasted === null ? null : midway(lasted);
  return { name: name.trim(), days, isReadable: time === undefined || lasted !== null };
}

/** "6 wks tape": the longest beginning that is a time, and a name without figures. */
function timeFirst(text: string): Part | null {
  const words = text.split(" ");
  for (let i = words.length - 1; i > 0; i--) {
    const lasted = elapsedDays(words.slice(0, i).join(" "));
    const name = words.slice(i).join(" ");
    if (lasted !== null && !/\d/.test(name)) return { name, days: midway(lasted), isReadable: true };
  }
  return null;
}

const midway = ({ least, most }: ElapsedDays): number => Math.round((least + most) / 2);

/**
 * Reads "tape 6 wks then ring", "splint 4/52 → tape" and "tape 6 wks"; null for one treatment without a time, for three and
 * for what is not known. Nothing is supposed about a treatment that has no time: when the second began is then not known.
 *
 * @param options rule: of the column, whose words go before the general ones; start: the first day of the first treatment
 */
export function treatmentsInTurn(
  cell: string,
  {
    field,
    rule,
    start,
  }: { readonly field: Field; readonly rule: Pick<ColumnRule, "values">; readonly start: IsoDate | null },
): readonly TreatmentInCell[] | null {
  const parts = partsInTurn(cell);
  const read = partReader(field, rule);
  const named = parts.map(({ name }) => read(name));
  const isAlone = parts.length === 1 && parts[0]!.days === null;
  if (isAlone || parts.length > 2 || parts.some(({ isReadable }) => !isReadable)) return null;
  if (named.some((treatment) => treatment === null) || new Set(named).size < named.length) return null;
  let from = start;
  return parts.map(({ days }, i) => {
    const end = from === null || days === null ? null : dateOfDay(dayNumber(from) + days);
    from = end;
    return { treatment: named[i]!, end };
  });
}

/** Reads the words for one treatment, first as the mapping has them. */
export function partReader(
  field: Field,
  { values = {} }: Pick<ColumnRule, "values">,
): (name: string) => string | null {
  const listed = new Map(Object.entries(values).map(([cell, term]) => [comparedText(cell), term]));
  const read = codedReader(field);
  return (name) => {
    const term = listed.get(comparedText(name)) ?? read(name);
    return term !== null && field.terms?.includes(term) ? term : null;
  };
}

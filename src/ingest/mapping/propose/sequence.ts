import type { DateOrder } from "../../../schema/cells/read-date.js";
import type { When } from "../../../schema/said-of-field.js";
import { dayReader } from "../apply/date-text.js";
import type { Guess } from "./guess.js";
import type { Profile } from "./profile.js";

/** A dated field and the column it is taken from. */
export interface Dated {
  /** Where its days stand in the course of an injury. */
  readonly when: When;
  readonly profile: Profile;
}

function daysOf({ profile }: Dated, order: DateOrder): readonly (string | null)[] {
  const read = dayReader({ order, twoDigitYearsUntil: 69, dayNumbersFrom: 1900 });
  return profile.cells.map((cell) => (cell === "" ? null : read(cell)));
}

/** In how many rows a date lies before the injury or after the last contact, were the dates read in an order. */
export function countReversals(dated: readonly Dated[], order: DateOrder): number {
  const injury = dated.find(({ when }) => when === "injury");
  const contact = dated.find(({ when }) => when === "last-contact");
  const days = dated.map((each) => daysOf(each, order));
  const at = (each: Dated | undefined, row: number) =>
    each === undefined ? null : (days[dated.indexOf(each)]![row] ?? null);
  const rows = dated[0]?.profile.cells.length ?? 0;
  let reversed = 0;
  for (let row = 0; row < rows; row++) {
    const [first, last] = [at(injury, row), at(contact, row)];
    const isReversed = days.some((column) => {
      const day = column[row] ?? null;
      return day !== null && ((first !== null && day < first) || (last !== null && day > last));
    });
    if (isReversed) reversed++;
  }
  return reversed;
}

/** How the dates of a column lie to those of the injury or the last contact, in words, and whether that speaks for it. */
export function sequenceEvidence(
  dated: Dated,
  context: SequenceContext,
): { readonly words: string; readonly fits: boolean } | null {
  const found = inSequence(dated, context);
  if (found === null) return null;
  const { fitting, rows, against } = found;
  const relation = dated.when === "injury" ? "on or before" : "on or after";
  const share = fitting === rows ? "all" : `${fitting} of ${rows}`;
  return { words: `${share} ${relation} "${against}"`, fits: fitting >= rows * 0.8 };
}

/** In words, where dates of the course often lie after the last contact, as those of a later contact do. */
export function afterLastContact(
  { when, profile }: Dated,
  { others, order }: SequenceContext,
): string | null {
  const contact = others.find((other) => other.when === "last-contact");
  if (contact === undefined || when === "injury" || when === "last-contact") return null;
  const [own, theirs] = [daysOf({ when, profile }, order), daysOf(contact, order)];
  const rows = own.flatMap((day, row) => (day === null || !theirs[row] ? [] : [[day, theirs[row]] as const]));
  const later = rows.filter(([day, last]) => day > last).length;
  return later > rows.length * mostAfter
    ? `${later} of ${rows.length} after "${contact.profile.name}"`
    : null;
}

const mostAfter = 0.2;

interface SequenceContext {
  readonly others: readonly Dated[];
  readonly order: DateOrder;
}

/** The share of the rows in which the dates of a column lie where they should; null where nothing tells. */
export function shareInSequence(dated: Dated, context: SequenceContext): number | null {
  const found = inSequence(dated, context);
  return found === null ? null : found.fitting / found.rows;
}

function inSequence(
  { when, profile }: Dated,
  { others, order }: SequenceContext,
): { readonly fitting: number; readonly rows: number; readonly against: string } | null {
  const isFirst = when === "injury";
  const against = others.find((other) => other.when === (isFirst ? "last-contact" : "injury"));
  if (against === undefined) return null;
  const [own, theirs] = [daysOf({ when, profile }, order), daysOf(against, order)];
  const rows = own.flatMap((day, row) => (day === null || !theirs[row] ? [] : [[day, theirs[row]] as const]));
  if (rows.length === 0) return null;
  const fitting = rows.filter(([day, other]) => (isFirst ? day <= other : day >= other)).length;
  return { fitting, rows: rows.length, against: against.profile.name };
}

/** The dated guesses among all, with their columns. */
export const datedOf = (guesses: readonly Guess[], profiles: readonly Profile[]): readonly Dated[] =>
  guesses.flatMap(({ field, sources }) => {
    const profile = profiles.find(({ name }) => name === sources[0]);
    const { when } = field;
    return when !== undefined && profile !== undefined ? [{ when, profile }] : [];
  });

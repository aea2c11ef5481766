import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { ageReader, type BirthColumn, isAge } from "../apply/age-text.js";
import { dateTextReader } from "../apply/date-text.js";
import type { ColumnRule } from "../mapping.js";
import type { FileOrder } from "./date-orders.js";
import type { Guess } from "./guess.js";
import type { Settled } from "./match-columns.js";
import { countPassing, type Profile, speaksOf } from "./profile.js";
import type { Dated } from "./sequence.js";

/** What the cells of a column say about births. */
export interface BirthEvidence {
  readonly births: BirthColumn;
  readonly passing: number;
  /** Ages on the day of the injury, where both days can be read. */
  readonly ages: readonly number[];
  /** Whether nearly all of them are ages of climbers. */
  readonly isOfBirths: boolean;
}

const leastShare = 0.8;
const yearOfBirth = /^(?:19|20)\d{2}$/;
const climbers = { from: 10, to: 90 } as const;

/** Looks at a column as one of dates or years of birth; null where its cells are neither. */
export function birthEvidence(
  profile: Profile,
  { order, injury }: { readonly order: FileOrder; readonly injury: Dated | undefined },
): BirthEvidence | null {
  const found = birthsIn(profile);
  if (found === null) return null;
  const { births, passing } = found;
  const ages = agesOf(profile, { births, order, injury });
  const fitting = ages.filter((age) => age >= climbers.from && age <= climbers.to).length;
  return {
    births,
    passing,
    ages,
    isOfBirths: ages.length > 0 && fitting >= ages.length * leastShare,
  };
}

/** Whether the cells of a column are dates or years, as births could be; null for neither. */
function birthsIn(profile: Profile): { readonly births: BirthColumn; readonly passing: number } | null {
  const { filled, dates } = profile;
  const counts = {
    dates: countPassing(profile, (cell) => dates.has(cell)),
    years: countPassing(profile, (cell) => yearOfBirth.test(cell)),
  };
  const births = (["dates", "years"] as const).find((each) => counts[each] >= filled.length * leastShare);
  return births === undefined || filled.length === 0 ? null : { births, passing: counts[births] };
}

/** How an age is read from a column of births; null where its cells are none. */
export function birthRule(profile: Profile): Pick<ColumnRule, "born_on" | "born_in"> | null {
  const found = birthsIn(profile);
  if (found === null) return null;
  return found.births === "dates" ? { born_on: profile.name } : { born_in: profile.name };
}

function agesOf(
  { cells }: Profile,
  {
    births,
    order,
    injury,
  }: { readonly births: BirthColumn; readonly order: FileOrder; readonly injury: Dated | undefined },
): readonly number[] {
  const form = { order: order.order ?? "year-first", dayNumbersFrom: 1900 } as const;
  const age = ageReader(form, births);
  const day = dateTextReader({ ...form, twoDigitYearsUntil: 69, periods: "taken" });
  return cells.flatMap((cell, row) => {
    const hurt = injury === undefined || cell === "" ? "" : (injury.profile.cells[row] ?? "");
    const reading = day(hurt, "");
    const years = "value" in reading && hurt !== "" ? age(cell, String(reading.value)) : "";
    return /^-?\d+$/.test(years) ? [Number(years)] : [];
  });
}

/**
 * The age from a column of births, where no column gives the age: exact from dates of birth, one year off at most from
 * years of birth.
 */
export function guessFromBirths(
  guesses: readonly Guess[],
  {
    fields,
    profiles,
    settled,
    order,
    dated,
  }: {
    readonly fields: readonly Field[];
    readonly profiles: readonly Profile[];
    readonly settled: Settled;
    readonly order: FileOrder;
    readonly dated: readonly Dated[];
  },
): Guess | null {
  const field = fields.find(isAge);
  if (field === undefined || settled.get(field.name) === null) return null;
  const stated = settled.get(field.name);
  const own = guesses.find((guess) => guess.field === field);
  const used = new Set(guesses.filter((guess) => guess !== own).flatMap(({ sources }) => sources));
  const candidates = profiles.filter((profile) =>
    stated === undefined ? speaksOf(profile, ["birth"]) && !used.has(profile.name) : profile.name === stated,
  );
  if (stated === undefined && own !== undefined && own.confidence !== "unsure") return null;
  const injury = dated.find(({ when }) => when === "injury");
  for (const profile of candidates) {
    const evidence = birthEvidence(profile, { order, injury });
    if (evidence !== null) return guessOf(field, { profile, evidence, isStated: stated !== undefined });
  }
  return null;
}

function guessOf(
  field: Field,
  {
    profile,
    evidence: { births, passing, ages, isOfBirths },
    isStated,
  }: { readonly profile: Profile; readonly evidence: BirthEvidence; readonly isStated: boolean },
): Guess {
  const { name, filled } = profile;
  const isSure = births === "dates" && isOfBirths;
  return {
    field,
    sources: [name],
    rule: birthRule(profile) ?? {},
    confidence: isStated || isSure ? "sure" : "likely",
    evidence: [
      `header says "${name}"`,
      `${births} of birth in ${passing} of ${counted(filled.length, "cell", "cells")}`,
      ...(ages.length === 0
        ? []
        : [`ages ${Math.min(...ages)} to ${Math.max(...ages)} on the day of the injury`]),
      births === "dates"
        ? "only the completed years on that day are kept"
        : "a year of birth is counted from 1 July, so the age may be wrong by one year",
    ],
  };
}

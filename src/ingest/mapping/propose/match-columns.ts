import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { assign } from "./assign.js";
import type { Confidence, Guess } from "./guess.js";
import { type Pair, pairsOf } from "./pairs.js";
import type { Profile } from "./profile.js";
import { mayShareColumn } from "./splits.js";

/** Which column of the file each field comes from, and what else each column could have been. */
export interface Matching {
  readonly guesses: readonly Guess[];
  /** By name of a column, the fields it could be, best first. */
  readonly couldBe: ReadonlyMap<string, readonly Pair[]>;
  /** By name of a column, the fields that its name speaks of, whatever its cells hold, best first. */
  readonly named: ReadonlyMap<string, readonly Pair[]>;
}

/** By field the column that was already settled, or null where the file has none. */
export type Settled = ReadonlyMap<string, string | null>;

/**
 * Gives each field at most one column so that all together fit best, and says how sure each is: from the fit of name
 * and cells, and from how much worse the next best would be.
 */
export function matchColumns(
  profiles: readonly Profile[],
  { fields, settled }: { readonly fields: readonly Field[]; readonly settled: Settled },
): Matching {
  const settledColumns = new Set([...settled.values()].filter((name) => name !== null));
  const pairs = fields.map((field) =>
    pairsOf(field, profiles).map((pair): Pair => {
      const { profile } = pair;
      const fixed = settled.get(field.name);
      if (fixed === undefined) return settledColumns.has(profile.name) ? { ...pair, total: 0 } : pair;
      return { ...pair, total: fixed === profile.name ? settledTotal : 0 };
    }),
  );
  const given = assign(pairs.map((row) => row.map(({ total }) => total)));
  const guesses = given.flatMap((column, row) =>
    column === null ? [] : [guessOf(pairs[row]![column]!, marginOf(pairs, given, { row, column }))],
  );
  const bestFirst = (by: "total" | "name") =>
    new Map(
      profiles.map((profile, column) => [
        profile.name,
        pairs
          .map((row) => row[column]!)
          .filter((pair) => pair[by] > 0)
          .sort((one, other) => other[by] - one[by]),
      ]),
    );
  return { guesses, couldBe: bestFirst("total"), named: bestFirst("name") };
}

const settledTotal = 10;

/** How much the best other use of this column, or other column for this field, falls behind. */
function marginOf(
  pairs: readonly (readonly Pair[])[],
  given: readonly (number | null)[],
  { row, column }: { readonly row: number; readonly column: number },
): number {
  const { total: own, field } = pairs[row]![column]!;
  const otherFields = pairs
    .map((each, i) => ({ total: each[column]!.total, given: given[i], scores: each }))
    .filter(({ given: theirs, scores, total }, i) => {
      if (i === row || total === 0 || mayShareColumn(field, scores[column]!.field)) return false;
      // a field that has a column as good or better does not compete for this one
      return theirs === null || theirs === undefined || scores[theirs]!.total <= total;
    });
  const otherColumns = pairs[row]!.filter((pair, i) => {
    if (i === column) return false;
    const holder = given.indexOf(i);
    return holder === -1 || pairs[holder]![i]!.total <= pair.total;
  });
  return (
    own - Math.max(0, ...otherFields.map(({ total }) => total), ...otherColumns.map(({ total }) => total))
  );
}

function guessOf({ field, profile, name, content: contentOf, total }: Pair, margin: number): Guess {
  const content = contentOf();
  return {
    field,
    sources: [profile.name],
    rule: { from: profile.name },
    confidence:
      total === settledTotal ? "sure" : confidenceOf({ field, name, share: content.share, total, margin }),
    evidence: [
      ...(name >= 0.3 ? [`header "${profile.name}"`] : ["the header does not show it"]),
      content.share === null
        ? "no cell is filled"
        : `${content.what} in ${content.passing} of ${counted(content.filled, "cell", "cells")}`,
      ...(margin < leastMargin && total !== settledTotal
        ? ["another column or another meaning fits nearly as well"]
        : []),
    ],
  };
}

const leastMargin = 0.08;

/**
 * A date is a date: which of many it is can be told by the name alone, unless every row needs the one. A return is told
 * from these by its name already, however weakly.
 */
const leastNameOfDates = 0.7;
const isDatedByChoice = ({ kind, required }: Field): boolean => !required && kind === "date";

function confidenceOf({
  field,
  name,
  share,
  total,
  margin,
}: {
  field: Field;
  name: number;
  share: number | null;
  total: number;
  margin: number;
}): Confidence {
  if (margin < leastMargin) return "unsure";
  if (name >= 0.84 && share !== null && share >= 0.9 && margin >= 0.12) return "sure";
  if (isDatedByChoice(field) && name < leastNameOfDates) return "unsure";
  return total >= 0.55 || (name < 0.3 && total > 0.4) ? "likely" : "unsure";
}

import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { codedReader } from "../apply/coded-text.js";
import { readPulleys } from "../read-pulleys.js";
import type { Guess } from "./guess.js";
import { countPassing, type Profile } from "./profile.js";

/** A column that also holds another field: the hand beside the finger, the extents beside the pulleys. */
interface Split {
  readonly holder: string;
  readonly also: string;
  /** Share of the cells that must say it. */
  readonly least: number;
  readonly says: (also: Field) => (cell: string) => boolean;
}

const splits: readonly Split[] = [
  { holder: "finger", also: "hand", least: 0.7, says: (field) => readableAs(field) },
  {
    holder: "pulleys",
    also: "pulley_extents",
    least: 0.1,
    says: () => (cell) => (readPulleys(cell)?.extents ?? null) !== null,
  },
];

/** Whether two fields may stand in one column, so that they do not compete for it. */
export const mayShareColumn = (one: Field, other: Field): boolean =>
  splits.some(
    ({ holder, also }) =>
      (holder === one.name && also === other.name) || (holder === other.name && also === one.name),
  );

const readableAs = (field: Field): ((cell: string) => boolean) => {
  const read = codedReader(field);
  return (cell) => read(cell) !== null;
};

/** Further fields that stand in a column that is already given to one. */
export function guessesFromSplits(
  guesses: readonly Guess[],
  { fields, profiles }: { readonly fields: readonly Field[]; readonly profiles: readonly Profile[] },
): readonly Guess[] {
  return splits.flatMap(({ holder, also, least, says }): Guess[] => {
    const field = fields.find(({ name }) => name === also);
    const held = guesses.find((guess) => guess.field.name === holder);
    const profile = profiles.find(({ name }) => name === held?.sources[0]);
    const isGiven = guesses.some((guess) => guess.field.name === also && guess.confidence !== "unsure");
    if (field === undefined || held === undefined || held.rule.from === undefined) return [];
    if (profile === undefined || isGiven || profile.filled.length === 0) return [];
    const passing = countPassing(profile, says(field));
    const share = passing / profile.filled.length;
    if (share < least) return [];
    const evidence = [
      `"${profile.name}" also gives it in ${passing} of ${counted(profile.filled.length, "cell", "cells")}`,
    ];
    const confidence = share >= 0.95 && held.confidence === "sure" ? "sure" : "likely";
    return [{ field, sources: [profile.name], rule: { from: profile.name }, confidence, evidence }];
  });
}

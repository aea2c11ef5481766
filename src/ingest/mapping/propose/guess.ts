import type { Field } from "../../../schema/field.js";
import type { ColumnRule } from "../mapping.js";

export type Confidence = "sure" | "likely" | "unsure";

/** What is proposed for one column of ours, and on what evidence. */
export interface Guess {
  readonly field: Field;
  /** Columns of the file. */
  readonly sources: readonly string[];
  readonly rule: ColumnRule;
  readonly confidence: Confidence;
  /** In words, one piece of evidence an entry. */
  readonly evidence: readonly string[];
}

const lower: Readonly<Record<Confidence, Confidence>> = {
  sure: "likely",
  likely: "unsure",
  unsure: "unsure",
};

/** A step less sure, with the reason. */
export const lessSure = (guess: Guess, reason: string): Guess => ({
  ...guess,
  confidence: lower[guess.confidence],
  evidence: [...guess.evidence, reason],
});

import type { OutcomeRecord } from "../cohort/record.js";
import { type AdjustableNumber, adjustableNumbers, groupFields } from "../schema/covariates.js";
import { fieldsSaying } from "../schema/field.js";
import { injuryRow } from "../schema/injuries.js";
import { labelOf } from "../schema/labels.js";
import type { Adjustable } from "./plan.js";

/** Adjusting fields that hold a number: they enter the hazards regression; the others make strata. */
export type NumericAdjuster = AdjustableNumber;
export type StratumAdjuster = Exclude<Adjustable, NumericAdjuster>;

const isNumeric = (field: Adjustable): field is NumericAdjuster =>
  (adjustableNumbers as readonly string[]).includes(field);

/** Adjusting fields by what becomes of them. */
export function adjustersOf(fields: readonly Adjustable[]): {
  strata: readonly StratumAdjuster[];
  numbers: readonly NumericAdjuster[];
} {
  return {
    strata: fields.filter((field): field is StratumAdjuster => !isNumeric(field)),
    numbers: fields.filter(isNumeric),
  };
}

/** Rows by stratum: codes in the order of their labels, and the label of each code. */
export interface Strata {
  readonly codes: Int32Array;
  readonly labels: readonly string[];
}

/**
 * The stratum of each record: every combination of the fields that occurs, as "grade 3, female".
 * A value that was not recorded makes a stratum of its own, so that no row is lost here.
 */
export function strataOf(records: readonly OutcomeRecord[], fields: readonly StratumAdjuster[]): Strata {
  const named = records.map(({ covariates }) =>
    fields.map((field) => `${wordOf[field]}${covariates[field] ?? "not recorded"}`).join(", "),
  );
  const labels = [...new Set(named)].sort();
  const codes = new Map(labels.map((label, code) => [label, code]));
  return { codes: Int32Array.from(named, (label) => codes.get(label)!), labels };
}

const plain: readonly StratumAdjuster[] = fieldsSaying(injuryRow, { plainTerms: true, covariate: "groups" });
/** Before a term: what it is of, where it does not say so itself. */
const wordOf = Object.fromEntries(
  groupFields.map((field) => [field, plain.includes(field) ? "" : `${labelOf(field)} `]),
) as Readonly<Record<StratumAdjuster, string>>;

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
  /** One entry a record; -1 where a field was not recorded. */
  readonly codes: Int32Array;
  readonly labels: readonly string[];
}

/** What a record is called in which a field was not recorded: it is like none of the others in it. */
const inNone = -1;

/**
 * The stratum of each record: every combination of the fields that occurs, as "grade 3, female".
 * A record without one of the values is in no stratum: taken for one of their own, unlike injuries would be compared.
 */
export function strataOf(records: readonly OutcomeRecord[], fields: readonly StratumAdjuster[]): Strata {
  const named = records.map(({ covariates }) =>
    fields.some((field) => covariates[field] === null)
      ? null
      : fields.map((field) => `${wordOf[field]}${covariates[field]}`).join(", "),
  );
  const labels = [...new Set(named.filter((label) => label !== null))].sort();
  const codes = new Map(labels.map((label, code) => [label, code]));
  return {
    codes: Int32Array.from(named, (label) => (label === null ? inNone : codes.get(label)!)),
    labels,
  };
}

/** Whether the record at a place is in a stratum. */
export const isInStratum = ({ codes }: Strata, row: number): boolean => codes[row] !== inNone;

const plain: readonly StratumAdjuster[] = fieldsSaying(injuryRow, { plainTerms: true, covariate: "groups" });
/** Before a term: what it is of, where it does not say so itself. */
const wordOf = Object.fromEntries(
  groupFields.map((field) => [field, plain.includes(field) ? "" : `${labelOf(field)} `]),
) as Readonly<Record<StratumAdjuster, string>>;

import type { OutcomeRecord } from "../cohort/record.js";
import { columnsOf } from "./columns.js";
import type { PairRows } from "./standardised-pair.js";
import type { NumericAdjuster, Strata } from "./strata.js";

/** What a hazards regression holds equal: strata of a pair's records, and covariates that hold a number. */
export interface HeldEqual {
  readonly strata: Strata | null;
  readonly numbers: readonly NumericAdjuster[];
}

/**
 * The rows a regression can use, those with every covariate, as its columns, and how many rows lack one: the compared group
 * first, then the numbers.
 */
export function hazardRowsOf(pair: PairRows, { strata, numbers }: HeldEqual) {
  const { records, isCompared, columns, codes, missing } = completeRows(pair, { strata, numbers });
  return {
    records,
    isCompared,
    missing,
    columns: {
      ...columns.timeToEvent,
      ...(codes === undefined ? {} : { strata: codes }),
      covariates: {
        names: ["compared", ...numbers],
        columns: [
          isCompared,
          ...numbers.map((field) => Float64Array.from(records, ({ covariates }) => covariates[field]!)),
        ],
      },
    },
  };
}

function completeRows(pair: PairRows, { strata, numbers }: HeldEqual) {
  const { records, isCompared, columns } = pair;
  const isComplete = ({ covariates }: OutcomeRecord) => numbers.every((field) => covariates[field] !== null);
  if (records.every(isComplete)) return { records, isCompared, columns, codes: strata?.codes, missing: 0 };
  const kept = records.flatMap((record, row) => (isComplete(record) ? [row] : []));
  const complete = kept.map((row) => records[row]!);
  return {
    records: complete,
    isCompared: Int32Array.from(kept, (row) => isCompared[row]!),
    columns: columnsOf(complete, pair),
    codes: strata === null ? undefined : Int32Array.from(kept, (row) => strata.codes[row]!),
    missing: records.length - complete.length,
  };
}

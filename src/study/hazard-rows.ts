import { overlappingRows, type PairRows, recordedRows, type UsableRows } from "./pair-rows.js";
import type { Comparison } from "./specification.js";

/**
 * The injuries that an adjusted hazards regression can use: those with everything that is held equal recorded, in strata in
 * which both groups have enough. The same rule binds differences averaged over strata, so that both speak of like people.
 */
export function adjustedHazardRows(
  pair: PairRows,
  { strata, numbers, smallestGroup: smallest }: Pick<Comparison, "strata" | "numbers" | "smallestGroup">,
): UsableRows {
  return overlappingRows(recordedRows(pair, { strata, numbers }), { smallest });
}

/** Columns of a hazards regression: the compared group first, then the covariates that hold a number. */
export function hazardColumns(
  { records, isCompared, columns, strata }: PairRows,
  { numbers }: Pick<Comparison, "numbers">,
) {
  return {
    ...columns.timeToEvent,
    ...(strata === null ? {} : { strata: strata.codes }),
    covariates: {
      names: ["compared", ...numbers],
      columns: [
        isCompared,
        ...numbers.map((field) => Float64Array.from(records, ({ covariates }) => covariates[field]!)),
      ],
    },
  };
}

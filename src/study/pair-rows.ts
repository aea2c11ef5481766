import type { OutcomeRecord } from "../cohort/record.js";
import { type Columns, columnsOf } from "./columns.js";
import type { Members } from "./groups.js";
import type { leftOutReasons } from "./results-parts.js";
import { isInStratum, type NumericAdjuster, type Strata, type StratumAdjuster, strataOf } from "./strata.js";

/** The injuries of two groups in one list. */
export interface PairRows {
  /** Rows of the compared group first, then of the reference. */
  readonly records: readonly OutcomeRecord[];
  /** 1 for the compared group, 0 for the reference; one entry a record. */
  readonly isCompared: Int32Array;
  readonly clustered: boolean;
  readonly columns: Columns;
  /** The stratum of each record by what the study holds equal; null where that makes no strata. */
  readonly strata: Strata | null;
}

/** Injuries that a comparison cannot use, by what keeps them out. */
export interface LeftOut {
  /** A stratum, or the fields that are not recorded. */
  readonly stratum: string;
  readonly n: number;
  readonly reason: (typeof leftOutReasons)[number];
}

/** Injuries that are alike in having what a comparison needs, and those that are not. */
export interface UsableRows {
  readonly rows: PairRows;
  readonly leftOut: readonly LeftOut[];
}

/** The injuries of a group and of its reference, with their strata by these fields. */
export function pairRowsOf(
  { compared, reference }: Readonly<Record<"compared" | "reference", Members>>,
  { clustered, fields }: { readonly clustered: boolean; readonly fields: readonly StratumAdjuster[] },
): PairRows {
  const records = [...compared.records, ...reference.records];
  return {
    records,
    isCompared: new Int32Array(records.length).fill(1, 0, compared.records.length),
    clustered,
    columns: columnsOf(records, { clustered }),
    strata: fields.length === 0 ? null : strataOf(records, fields),
  };
}

/**
 * The injuries in which everything that is held equal was recorded. The others leave the comparison: they are neither
 * like one another nor like the rest in it.
 */
export function recordedRows(
  rows: PairRows,
  {
    strata,
    numbers,
  }: { readonly strata: readonly StratumAdjuster[]; readonly numbers: readonly NumericAdjuster[] },
): UsableRows {
  const { records } = rows;
  const kept = placesOf(
    records,
    ({ covariates }, row) =>
      (rows.strata === null || isInStratum(rows.strata, row)) &&
      numbers.every((field) => covariates[field] !== null),
  );
  const n = records.length - kept.length;
  if (n === 0) return { rows, leftOut: [] };
  const lacking = [...strata, ...numbers].filter((field) =>
    records.some(({ covariates }) => covariates[field] === null),
  );
  return {
    rows: rowsAt(rows, kept),
    leftOut: [{ stratum: lacking.join(" or "), n, reason: "missing-covariate" }],
  };
}

/** The injuries in strata in which each group has at least so many: outside them nothing can be compared with its like. */
export function overlappingRows(
  { rows, leftOut }: UsableRows,
  { smallest }: { readonly smallest: number },
): UsableRows {
  const { strata, isCompared, records } = rows;
  if (strata === null) return { rows, leftOut };
  const counts = strata.labels.map((): [number, number] => [0, 0]);
  for (const [row, code] of strata.codes.entries()) counts[code]![isCompared[row] as 0 | 1]++;
  const isSmall = counts.map((sides) => Math.min(...sides) < smallest);
  const small = strata.labels.flatMap((stratum, code): LeftOut[] => {
    const n = counts[code]![0] + counts[code]![1];
    return isSmall[code] && n > 0 ? [{ stratum, n, reason: "too-few-rows" }] : [];
  });
  if (small.length === 0) return { rows, leftOut };
  const kept = placesOf(records, (_, row) => !isSmall[strata.codes[row]!]);
  return { rows: rowsAt(rows, kept), leftOut: [...leftOut, ...small] };
}

function placesOf(
  records: readonly OutcomeRecord[],
  isKept: (record: OutcomeRecord, row: number) => boolean,
): number[] {
  return records.flatMap((record, row) => (isKept(record, row) ? [row] : []));
}

function rowsAt({ records, isCompared, clustered, strata }: PairRows, kept: readonly number[]): PairRows {
  const own = kept.map((row) => records[row]!);
  return {
    records: own,
    isCompared: Int32Array.from(kept, (row) => isCompared[row]!),
    clustered,
    columns: columnsOf(own, { clustered }),
    strata: strata && { ...strata, codes: Int32Array.from(kept, (row) => strata.codes[row]!) },
  };
}

/** The names of the strata that hold any of these injuries. */
export function strataHeld({ strata }: PairRows): readonly string[] {
  if (strata === null) return [];
  const held = new Set(strata.codes);
  return strata.labels.filter((_, code) => held.has(code));
}

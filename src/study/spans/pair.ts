import type { OutcomeRecord } from "../../cohort/record.js";
import type { Covariates } from "../../statistics/index.js";
import { adjustedHazardRows } from "../hazard-rows.js";
import { type LeftOut, type PairRows, strataHeld } from "../pair-rows.js";
import type { ReasonCode } from "../results-parts.js";
import type { Comparison, Specification } from "../specification.js";
import { type Modelled, type ModelledDifference, modelled } from "./model.js";

/** Two groups with everything that the study holds equal set alike under the model of spans. */
export interface AdjustedSpans {
  /** The fields held equal. */
  readonly fields: readonly string[];
  readonly strata: readonly string[];
  readonly leftOut: readonly LeftOut[];
  readonly records: Readonly<Record<"compared" | "reference", readonly OutcomeRecord[]>>;
  /** The compared group, then the reference; both with the strata and numbers of all these injuries. */
  readonly model: Modelled;
  /** The stratum of each of these injuries, in the order of the model's groups; null where only numbers are held equal. */
  readonly cells: readonly number[] | null;
}

/** A comparison of two groups under the model of spans. */
export interface SpansOfPair {
  readonly crude: ModelledDifference | ReasonCode;
  /** The model of all groups, and which of its groups these two are. */
  readonly model: Modelled;
  readonly places: Readonly<Record<"compared" | "reference", number>>;
  /** Null where the study holds nothing equal. */
  readonly adjusted: AdjustedSpans | null;
}

type Asked = Pick<Specification, "comparison" | "landmarks" | "horizonDay" | "level" | "shareBack">;

/**
 * Both groups at one mix of strata and numbers (g-formula), among the injuries that have all of these recorded, in strata with enough of
 * both groups in which somebody returned; null where the study holds nothing equal.
 */
export function adjustedSpans(pair: PairRows, asked: Asked): AdjustedSpans | null {
  const { comparison } = asked;
  if (comparison.adjustFor.length === 0) return null;
  const { rows, leftOut } = adjustedHazardRows(pair, comparison);
  const { kept, without } = withReturns(rows);
  const strata = strataHeld({
    ...rows,
    strata: rows.strata && { ...rows.strata, codes: pick(rows.strata.codes, kept) },
  });
  const sideOf = (side: 0 | 1) => kept.filter((row) => rows.isCompared[row] === side);
  const places = [...sideOf(1), ...sideOf(0)];
  const of = (side: 0 | 1) => sideOf(side).map((row) => rows.records[row]!);
  const records = { compared: of(1), reference: of(0) };
  const members = [{ records: records.compared }, { records: records.reference }];
  return {
    cells: rows.strata === null ? null : places.map((row) => rows.strata!.codes[row]!),
    fields: [...comparison.strata, ...comparison.numbers],
    strata,
    leftOut: [...leftOut, ...without],
    records,
    model: modelled(members, {
      ...asked,
      clustered: pair.clustered,
      covariates: covariatesOf({ rows, places, strata }, comparison),
    }),
  };
}

const pick = (codes: Int32Array, rows: readonly number[]): Int32Array =>
  Int32Array.from(rows, (row) => codes[row]!);

/** Strata in which nobody returned have no time to a return that could be modelled. */
function withReturns({ records, strata }: PairRows): { kept: number[]; without: LeftOut[] } {
  const every = Array.from(records.keys());
  if (strata === null) return { kept: every, without: [] };
  const returned = new Set(
    every.flatMap((row) => (records[row]!.end === "milestone" ? [strata.codes[row]!] : [])),
  );
  const kept = every.filter((row) => returned.has(strata.codes[row]!));
  const without = strata.labels.flatMap((stratum, code): LeftOut[] => {
    const n = strata.codes.filter((own) => own === code).length;
    return n > 0 && !returned.has(code) ? [{ stratum, n, reason: "no-events" }] : [];
  });
  return { kept, without };
}

/** One column a stratum but the first, and one a number. */
function covariatesOf(
  {
    rows,
    places,
    strata: held,
  }: { readonly rows: PairRows; readonly places: readonly number[]; readonly strata: readonly string[] },
  { numbers }: Pick<Comparison, "numbers">,
): Covariates {
  const { strata, records } = rows;
  const others = strata === null ? [] : held.slice(1).map((label) => strata.labels.indexOf(label));
  return {
    names: [...held.slice(1), ...numbers],
    columns: [
      ...others.map((code) => places.map((row) => Number(strata!.codes[row] === code))),
      ...numbers.map((field) => places.map((row) => records[row]!.covariates[field]!)),
    ],
  };
}

import type { OutcomeRecord } from "../cohort/record.js";
import { columnsOf } from "./columns.js";
import type { Group, Grouping } from "./groups.js";
import type { Specification } from "./specification.js";
import { type PairRows, type StandardisedPair, standardisedPair } from "./standardised-pair.js";
import { strataOf } from "./strata.js";

/** A group set against the reference group, with what curves, tests and effects of the two start from. */
export interface Pair extends PairRows {
  readonly compared: Group;
  readonly reference: Group;
  /** Like for like; null where the study holds no strata equal. */
  readonly standardised: StandardisedPair | null;
}

/** Every other group against the reference, in the order of the study file. */
export function pairsOf(
  { groups, clustered }: Grouping,
  asked: Pick<Specification, "comparison" | "landmarks" | "horizonDay" | "level">,
): readonly Pair[] {
  const { strata: fields } = asked.comparison;
  const reference = groups.find(({ label }) => label === asked.comparison.reference)!;
  return groups
    .filter((group) => group !== reference)
    .map((compared) => {
      const records = [...compared.records, ...reference.records];
      const isCompared = new Int32Array(records.length).fill(1, 0, compared.records.length);
      const strata = fields.length === 0 ? null : strataOf(records, fields);
      const rows = { records, isCompared, clustered, columns: columnsOf(records, { clustered }), strata };
      return { ...rows, compared, reference, standardised: standardisedPair(rows, asked) };
    });
}

/** Injuries on each side of a comparison. */
export type BothSides = Readonly<Record<"compared" | "reference", readonly OutcomeRecord[]>>;

/** How many there are on both sides, and how many of them reached the milestone. */
export function countsOf({ compared, reference }: BothSides) {
  const reached = (records: readonly OutcomeRecord[]) =>
    records.reduce((sum, { end }) => sum + (end === "milestone" ? 1 : 0), 0);
  return {
    n: { compared: compared.length, reference: reference.length },
    events: { compared: reached(compared), reference: reached(reference) },
  };
}

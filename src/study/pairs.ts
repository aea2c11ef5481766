import type { OutcomeRecord } from "../cohort/record.js";
import type { Group, Grouping } from "./groups.js";
import type { Plan } from "./plan.js";

/** A group set against the reference group. */
export interface Pair {
  readonly compared: Group;
  readonly reference: Group;
  /** Rows of the compared group first, then of the reference. */
  readonly records: readonly OutcomeRecord[];
  /** 1 for the compared group, 0 for the reference; one entry a record. */
  readonly isCompared: Int32Array;
  readonly clustered: boolean;
}

/** Every other group against the reference, in the order of the plan. */
export function pairsOf({ groups, clustered }: Grouping, { compare }: Plan): readonly Pair[] {
  const reference = groups.find(({ label }) => label === compare.reference)!;
  return groups
    .filter((group) => group !== reference)
    .map((group) => ({
      compared: group,
      reference,
      records: [...group.records, ...reference.records],
      isCompared: Int32Array.from([...group.records.map(() => 1), ...reference.records.map(() => 0)]),
      clustered,
    }));
}

/** How many of both groups, and how many of them reached the milestone. */
export function countsOf({ compared, reference }: Pair) {
  const reached = ({ records }: Group) => records.filter(({ end }) => end === "milestone").length;
  return {
    n: { compared: compared.records.length, reference: reference.records.length },
    events: { compared: reached(compared), reference: reached(reference) },
  };
}

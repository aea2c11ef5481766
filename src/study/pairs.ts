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
export function pairsOf(grouping: Grouping, { compare }: Plan): readonly Pair[] {
  const before = made.get(grouping);
  if (before?.reference === compare.reference) return before.pairs;
  const pairs = pairsWith(compare.reference, grouping);
  made.set(grouping, { reference: compare.reference, pairs });
  return pairs;
}

/** Pairs made before: curves, tests and effects look at the same, and share what is made from their records. */
const made = new WeakMap<Grouping, { readonly reference: string; readonly pairs: readonly Pair[] }>();

function pairsWith(label: string, { groups, clustered }: Grouping): readonly Pair[] {
  const reference = groups.find((group) => group.label === label)!;
  return groups
    .filter((group) => group !== reference)
    .map((group) => ({
      compared: group,
      reference,
      records: [...group.records, ...reference.records],
      isCompared: new Int32Array(group.records.length + reference.records.length).fill(
        1,
        0,
        group.records.length,
      ),
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

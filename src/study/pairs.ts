import type { OutcomeRecord } from "../cohort/record.js";
import type { Group, Grouping } from "./groups.js";
import { type PairRows, pairRowsOf } from "./pair-rows.js";
import { adjustedSpans, type SpansOfPair } from "./spans/pair.js";
import type { Specification } from "./specification.js";
import { type StandardisedPair, standardisedPair } from "./standardised-pair.js";

/** A group set against the reference group, with what curves, tests and effects of the two start from. */
export interface Pair extends PairRows {
  readonly compared: Group;
  readonly reference: Group;
  /** Like for like; null where the study holds no strata equal. */
  readonly standardised: StandardisedPair | null;
  /** Under the model of spans; null where every return stands on a day. */
  readonly spans: SpansOfPair | null;
}

/** Every other group against the reference, in the order of the study file. */
export function pairsOf(
  { groups, clustered, modelled }: Grouping,
  asked: Pick<Specification, "comparison" | "landmarks" | "horizonDay" | "level" | "shareBack">,
): readonly Pair[] {
  const { strata: fields } = asked.comparison;
  const reference = groups.find(({ label }) => label === asked.comparison.reference)!;
  return groups
    .filter((group) => group !== reference)
    .map((compared) => {
      const rows = pairRowsOf({ compared, reference }, { clustered, fields });
      const both = { ...rows, compared, reference };
      if (modelled === null) return { ...both, standardised: standardisedPair(rows, asked), spans: null };
      const places = { compared: groups.indexOf(compared), reference: groups.indexOf(reference) };
      const crude = modelled.difference(places.compared, places.reference);
      const spans = { crude, model: modelled, places, adjusted: adjustedSpans(rows, asked) };
      return { ...both, standardised: null, spans };
    });
}

/** Injuries on each side of a comparison. */
export type BothSides = Readonly<Record<"compared" | "reference", readonly OutcomeRecord[]>>;

/** Until when returns are counted: up to this day, or during all of the follow-up where it is null. */
interface Until {
  readonly day: number | null;
  /** Whether returns stay between two days: one is counted where it is known to have come by the day. */
  readonly inSpans: boolean;
}

/** How many there are on both sides, and how many of them had reached the milestone by then. */
export function countsOf({ compared, reference }: BothSides, { day, inSpans }: Until) {
  const last = day ?? Number.POSITIVE_INFINITY;
  const isBack = ({ end, milestone, time }: OutcomeRecord) =>
    end === "milestone" && (inSpans ? milestone.right! : time) <= last;
  const back = (records: readonly OutcomeRecord[]) => records.filter(isBack).length;
  return {
    n: { compared: compared.length, reference: reference.length },
    events: { compared: back(compared), reference: back(reference) },
  };
}

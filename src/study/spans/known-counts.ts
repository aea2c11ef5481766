import { causeOf } from "../../cohort/columns.js";
import type { OutcomeRecord } from "../../cohort/record.js";
import type { ShareBack } from "../plan.js";
import { knownOf } from "./span-columns.js";

/** How many are known by a day: whoever is between two visits is in none of these counts until the second. */
export interface KnownCounts {
  /** Followed and known to be without an end. */
  readonly atRisk: (day: number) => number;
  /** Known to be back. */
  readonly back: (day: number) => number;
  /** Known to have come to another end. */
  readonly competing: (day: number) => number;
  /** Last seen by then, without any end. */
  readonly censored: (day: number) => number;
}

/** Counts of records by a day, from what is known of their ends. */
export function knownCounts(
  records: readonly OutcomeRecord[],
  asked: { readonly shareBack: ShareBack },
): KnownCounts {
  const milestone = causeOf("milestone");
  const known = records.map((record) => ({ ...knownOf(record, asked), entry: record.entry }));
  const count = (holds: (one: (typeof known)[number]) => boolean): number => known.filter(holds).length;
  return {
    atRisk: (day) => count(({ entry, left }) => (entry < day || (day === 0 && entry <= 0)) && left >= day),
    back: (day) => count(({ end, right }) => end === milestone && right !== null && right <= day),
    competing: (day) => count(({ end, right }) => end > milestone && right !== null && right <= day),
    censored: (day) => count(({ end, left }) => end === 0 && left <= day),
  };
}

import { causeOf } from "../../cohort/columns.js";
import type { OutcomeRecord } from "../../cohort/record.js";
import { incidenceBounds, intervalIncidence } from "../../statistics/survival/between-visits/index.js";
import type { ExactCurve } from "../exact-results.js";
import type { Specification } from "../specification.js";
import { type SpanColumns, spanColumnsOf } from "./span-columns.js";

type Alone = NonNullable<ExactCurve["alone"]>;

/** What the data alone say of a share back, without any law: the bounds between which it lies, day by day and at the landmarks. */
export function aloneOf(
  records: readonly OutcomeRecord[],
  asked: Pick<Specification, "landmarks" | "shareBack">,
): Alone {
  const { landmarks } = asked;
  const incidence = intervalIncidence(alikeOnce(spanColumnsOf(records, asked)));
  const end = causeOf("milestone");
  const own = incidence.ends.find((one) => one.end === end);
  const edges = [...(own?.from ?? []), ...(own?.to ?? []), ...incidence.open.from];
  const days = [...new Set([0, ...edges.filter((day) => day !== null && day > 0)])].sort(
    (a, b) => a! - b!,
  ) as number[];
  const at = (times: readonly number[]) => incidenceBounds(incidence, { end, times });
  const closed = at(days);
  // between two days of which one opens an interval the share may already have risen
  const begun = at(days.map((day) => day + 0.5));
  const marks = at(landmarks.map(({ day }) => day));
  return {
    bounds: days.flatMap((day, i) => {
      const [{ lower }, { upper }] = [closed[i]!, begun[i]!];
      return lower === null || upper === null ? [] : [{ day, lower, upper }];
    }),
    landmarks: landmarks.map(({ week, day }, i) => {
      const { lower, upper } = marks[i]!;
      return { week, day, lower, upper };
    }),
    reason: incidence.reason,
  };
}

/** Rows that are alike once, with how many there are: the estimate is the same, and large cohorts have few different ones. */
function alikeOnce({
  left,
  right,
  ends,
  entries,
}: SpanColumns): SpanColumns & { readonly weights: number[] } {
  const places = new Map<string, number>();
  const first: number[] = [];
  const weights: number[] = [];
  for (let row = 0; row < left.length; row++) {
    const key = [left[row], right[row], ends[row], entries?.[row]].join(" ");
    const place = places.get(key) ?? first.push(row) - 1;
    places.set(key, place);
    weights[place] = (weights[place] ?? 0) + 1;
  }
  return {
    left: Float64Array.from(first, (row) => left[row]!),
    right: first.map((row) => right[row]!),
    ends: Int32Array.from(first, (row) => ends[row]!),
    weights,
    ...(entries === undefined ? {} : { entries: Float64Array.from(first, (row) => entries[row]!) }),
  };
}

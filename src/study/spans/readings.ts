import type { InexactDates } from "../../cohort/question.js";
import type { OutcomeRecord } from "../../cohort/record.js";
import { singleDay } from "../../cohort/time.js";
import { incidenceCurve } from "../../statistics/index.js";
import { countedFor } from "../columns.js";
import { shareBackAt } from "../estimates.js";
import type { ExactResults } from "../exact-results.js";
import type { Group, Grouping } from "../groups.js";
import type { Specification } from "../specification.js";
import { aloneOf } from "./alone.js";

/** A group's shares by landmark under each reading. */
export type Reading = ExactResults["known_returns"]["readings"][number];

type Asked = Pick<Specification, "landmarks" | "level" | "shareBack"> & Pick<Reading, "family">;

/** Each group with its returns on the first, the middle and the last day on which they can have been, and as the spans alone have it. */
export function readingsOf({ groups }: Grouping, { family, ...asked }: Asked): Reading[] {
  const { landmarks, level, shareBack } = asked;
  const curveBy = ({ records, columns }: Group, rule: InexactDates) => {
    const times = Float64Array.from(records, (record) => dayBy(record, rule));
    const [competing, timeToEvent] = [
      { ...columns.competing, times },
      { ...columns.timeToEvent, times },
    ];
    return incidenceCurve(countedFor({ competing, timeToEvent }, shareBack), { level });
  };
  return groups.map((group) => {
    const { label, records } = group;
    const [earliest, midpoint, latest] = [
      curveBy(group, "earliest"),
      curveBy(group, "midpoint"),
      curveBy(group, "latest"),
    ];
    const alone = aloneOf(records, asked);
    return {
      family,
      label,
      landmarks: landmarks.map(({ week, day }, i) => {
        const { lower, upper } = alone.landmarks[i]!;
        return {
          week,
          day,
          earliest: shareBackAt(earliest, { day, level }).estimate,
          midpoint: shareBackAt(midpoint, { day, level }).estimate,
          latest: shareBackAt(latest, { day, level }).estimate,
          alone: { lower, upper },
        };
      }),
    };
  });
}

/** The day of a record's end, a return on the day that a rule takes; never on the day of its entry or before. */
function dayBy({ end, span, entry, time }: OutcomeRecord, rule: InexactDates): number {
  if (end !== "milestone" || span.right === null) return time;
  return Math.max(singleDay({ left: span.left, right: span.right }, rule), entry + 1);
}

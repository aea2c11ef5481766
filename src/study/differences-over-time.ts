import type { Curve, GroupedInStrata } from "../statistics/index.js";
import { differenceBand } from "../statistics/survival/bands/index.js";
import { countedFor } from "./columns.js";
import type { ExactDifference } from "./exact-results.js";
import type { Pair } from "./pairs.js";
import type { Specification } from "./specification.js";
import { daysOfCurve } from "./standardised-pair.js";

type Asked = Pick<Specification, "comparison" | "landmarks" | "horizonDay" | "level" | "shareBack" | "seed">;

/** The difference over time of each group from the reference: of the groups as they are, then, where strata are held equal, standardised. */
export function differencesOverTime(pairs: readonly Pair[], asked: Asked): ExactDifference[] {
  return pairs.flatMap((pair) => [...crudeOf(pair, asked), ...adjustedOf(pair, asked)]);
}

/** Up to the horizon, or as far as both groups are followed. */
function crudeOf(pair: Pair, asked: Asked): ExactDifference[] {
  const { records, isCompared, columns, compared, reference } = pair;
  const last = Math.min(asked.horizonDay, followedTo(compared.curve), followedTo(reference.curve));
  if (!(last > 0)) return [];
  const grouped = {
    ...countedFor(columns, asked.shareBack),
    groups: isCompared,
    strata: new Int32Array(records.length),
  };
  const found = bandOf(grouped, { days: daysOfCurve(records, asked), last, smallest: 1, asked });
  const n = { compared: compared.records.length, reference: reference.records.length };
  return [{ ...named(pair), adjusted_for: [], strata_used: [], n, last_day: last, ...found }];
}

function adjustedOf(pair: Pair, asked: Asked): ExactDifference[] {
  const { standardised } = pair;
  if (standardised === null || standardised.curves.shares === null) return [];
  const { grouped, days, strata, records } = standardised;
  const { comparison, horizonDay: last } = asked;
  const found = bandOf(grouped, { days, last, smallest: comparison.smallestGroup, asked });
  const n = { compared: records.compared.length, reference: records.reference.length };
  const held = { adjusted_for: [...comparison.strata], strata_used: [...strata] };
  return [{ ...named(pair), ...held, n, last_day: last, ...found }];
}

const named = ({ compared, reference, clustered }: Pair) => ({
  compared: compared.label,
  reference: reference.label,
  clustered,
});

/** Last day of which a curve tells; a complete one tells of every day. */
const followedTo = ({ complete, lastTime }: Curve): number =>
  complete ? Number.POSITIVE_INFINITY : (lastTime ?? 0);

function bandOf(
  grouped: GroupedInStrata,
  {
    days,
    last,
    smallest,
    asked: { level, seed },
  }: {
    readonly days: readonly number[];
    readonly last: number;
    readonly smallest: number;
    readonly asked: Asked;
  },
): Pick<ExactDifference, "points" | "critical_value" | "p" | "draws" | "reason"> {
  const times = days.filter((day) => day <= last);
  const band = differenceBand(grouped, { times, horizon: last, smallest, level, seed });
  return {
    points: band.points.map(({ time, difference, lower, upper, bandLower, bandUpper }) => ({
      day: time,
      difference,
      lower,
      upper,
      band_lower: bandLower,
      band_upper: bandUpper,
    })),
    critical_value: band.criticalValue,
    p: band.p,
    draws: band.draws,
    reason: band.reason,
  };
}

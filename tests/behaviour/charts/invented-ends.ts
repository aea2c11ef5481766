import type { Plan } from "../../../src/study/plan.js";
import type {
  AfterReturnGroup,
  CurveFamily,
  DifferenceOverTime,
  Estimate,
  OtherEnd,
} from "../../../src/study/results.js";
import type { AfterLossShown } from "../../../src/words/figures/after-loss.js";

/** SYNTHETIC ends, invented for the tests of the drawings; their numbers stand for nothing. */

/** A family whose curves come to these shares of each end, one a curve; a curve without a share has none. */
export const withOtherEnds = (
  family: CurveFamily,
  shares: Partial<Record<OtherEnd["end"], readonly number[]>>,
): CurveFamily => ({
  ...family,
  curves: family.curves.map((curve, i) => ({
    ...curve,
    other_ends: (Object.keys(shares) as OtherEnd["end"][]).flatMap((end) => {
      const share = shares[end]![i] ?? 0;
      return share === 0 ? [] : [endOf(end, share)];
    }),
  })),
});

const endOf = (end: OtherEnd["end"], share: number): OtherEnd => ({
  end,
  n: 3,
  points: [
    { day: 40, share: share / 2, lower: share / 5, upper: share },
    { day: 95, share, lower: share / 2, upper: Math.min(1, share * 1.8) },
  ],
  landmarks: [
    { week: 13, day: 91, share: { value: share / 2, lower: share / 5, upper: share, reason: null } },
  ],
});

/** A group of which so many ruptured again, half of them by day 100. */
export function inventedAfter(label: string, n: number, ruptured: number): AfterReturnGroup {
  const point = (day: number, ever: number, again: number) => ({
    day,
    not_yet: 0.9 - ever,
    back_and_well: ever - again,
    ruptured_again: again,
    ended_before: 0.1,
    ended_after: 0,
  });
  const share = n === 0 ? 0 : ruptured / n;
  const limits = { lower: 0.2, upper: 0.8, reason: null };
  return {
    family: "compared",
    label,
    n,
    returned: Math.floor(n * 0.8),
    ruptured_again: ruptured,
    operated: 0,
    person_months: n,
    rate: { value: share, lower: 0, upper: 1, reason: null },
    landmarks: [13, 26].map((week) => ({
      week,
      day: 7 * week,
      back_and_well: { value: n === 0 ? null : 0.5, ...limits },
      ruptured_again: { value: n === 0 ? null : share, ...limits },
    })),
    over_time: {
      last_day: n === 0 ? 0 : 260,
      points:
        n === 0
          ? []
          : [point(0, 0, 0), point(50, 0.4, 0), point(100, 0.8, share / 2), point(200, 0.8, share)],
      number_followed: n === 0 ? [] : [0, 56, 112].map((day) => ({ day, not_yet: n, back_and_well: n })),
    },
    level: { below: 0, same: 0, above: 0, not_recorded: n },
    complications: {
      asked: 0,
      found: 0,
      share: { value: null, lower: null, upper: null, reason: "no-rows" },
    },
  };
}

/** A difference, or the share of all, by what is supposed of those lost; perhaps known at its ends alone. */
export function inventedLoss({
  compared,
  reference = "",
  plan,
  only,
}: {
  readonly compared: string | null;
  readonly reference?: string;
  readonly plan: Plan;
  readonly only?: "ends";
}): AfterLossShown {
  const estimate = (value: number): Estimate => ({
    value,
    lower: value - 0.2,
    upper: value + 0.2,
    reason: null,
  });
  const none: Estimate = { value: null, lower: null, upper: null, reason: "beyond-follow-up" };
  const figure = (value: number) => (only === "ends" ? none : estimate(value));
  const points = [1 / 8, 1 / 2, 1, 2, 8].map((factor) => ({
    factor,
    figure: figure(0.4 + Math.log2(factor) / 20),
  }));
  const common = { as_followed: figure(0.4), points };
  const tips = { from: "above", to: "across", factor: 0.42, holds_at_bounds: false } as const;
  return {
    plan,
    bounds: { week: 13, day: 91, line: 0.5, widest_factor: 100, shares: [], differences: [] },
    shown:
      compared === null
        ? {
            ...common,
            family: "all",
            label: "all injuries",
            n: 60,
            lost: 7,
            none_back: estimate(0.2),
            all_back: estimate(0.7),
            line: tips,
          }
        : {
            ...common,
            compared,
            reference,
            adjusted_for: ["grade"],
            lost: { compared: 3, reference: 4 },
            lowest: estimate(-0.1),
            highest: estimate(0.6),
            tipping: tips,
          },
  };
}

/** The first two curves of a family. */
export const twoOf = (family: CurveFamily): CurveFamily => ({ ...family, curves: family.curves.slice(0, 2) });

/** A difference that rises to 20 points, with a band. */
export const inventedDifference = (compared: string, reference: string): DifferenceOverTime => ({
  compared,
  reference,
  adjusted_for: [],
  strata_used: [],
  n: { compared: 64, reference: 58 },
  last_day: 182,
  points: [40, 60, 91, 150].map((day, i) => ({
    day,
    difference: i * 0.07,
    lower: i * 0.07 - 0.15,
    upper: i * 0.07 + 0.15,
    band_lower: i * 0.07 - 0.23,
    band_upper: i * 0.07 + 0.23,
  })),
  critical_value: 2.9,
  p: 0.2,
  draws: 1000,
  clustered: false,
  reason: null,
});

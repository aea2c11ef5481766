import { describe, expect, it } from "vitest";
import { seededGenerator } from "../../../src/statistics/index.js";
import { incidenceAfterLoss } from "../../../src/statistics/survival/between-visits/index.js";

/** Two groups of injuries with visits at days of their own: back, given up or lost between them, some with late entry and some with two a person. */
function drawn(seed: number) {
  const { uniform } = seededGenerator(4711, seed);
  const late = seed % 2 === 0;
  const rows = Array.from({ length: 30 + 5 * (seed % 7) }, (_, row) => {
    const entry = late ? Math.floor(12 * uniform()) : 0;
    const group = Number(uniform() < 0.5);
    const end = entry + Math.ceil(120 * (1 - 0.3 * group) * uniform());
    const kind = uniform() < 0.2 ? 2 : 1;
    const lostAt = uniform() < 0.4 ? entry + Math.ceil(110 * uniform()) : Number.POSITIVE_INFINITY;
    const gap = uniform() < 0.3 ? 0 : 7 + Math.floor(28 * uniform());
    const common = { entry, group, cell: Number(uniform() < 0.4), person: Math.floor(row / 1.4) };
    if (lostAt < end) return { ...common, left: lostAt, right: null, end: 0, lost: 1 };
    const left = Math.max(entry, end - Math.floor(gap * uniform()));
    return { ...common, left, right: left + gap, end: kind, lost: 0 };
  });
  const column = <Key extends keyof (typeof rows)[number]>(key: Key) => rows.map((row) => row[key]);
  return {
    left: column("left"),
    right: column("right"),
    ends: column("end"),
    groups: column("group"),
    lost: column("lost"),
    ...(late ? { entries: column("entry") } : {}),
    ...(seed % 3 === 0 ? { clusters: column("person") } : {}),
    ...(seed % 4 === 0
      ? { cells: column("cell"), covariates: { names: ["cell"], columns: [column("cell")] } }
      : {}),
  };
}

const factors = [1 / 4, 1, 4];
const seeds = Array.from({ length: 24 }, (_, seed) => seed);
const found = seeds.map((seed) =>
  incidenceAfterLoss(drawn(seed), { time: 60, factors, laws: ["log-normal", "weibull"] }),
);
const isRising = (values: readonly (number | null)[]): boolean =>
  values.every((value, i) => i === 0 || value! >= values[i - 1]! - 1e-12);

describe("shares from visits after loss", () => {
  it("most of these cohorts have figures, and all that have none say why", () => {
    expect(found.filter(({ groups }) => groups.length === 2).length).toBeGreaterThan(20);
    for (const { groups, reason } of found) expect(groups.length === 0).toBe(reason !== null);
  });

  it.each(seeds)(
    "worst case, factors and best case come in that order, shares and differences: cohort %i",
    (seed) => {
      const { groups, differences } = found[seed]!;
      for (const { none, points, all } of groups)
        expect(isRising([none, ...points, all].map(({ estimate }) => estimate))).toBe(true);
      for (const { lowest, points, highest } of differences)
        expect(isRising([lowest, ...points, highest].map(({ estimate }) => estimate))).toBe(true);
    },
  );

  it.each(seeds)(
    "limits lie around each share within 0 and 1, and bounds lie apart by no more than all of those lost: cohort %i",
    (seed) => {
      for (const { none, points, all, lost, n } of found[seed]!.groups) {
        for (const { estimate, lower, upper } of [none, ...points, all]) {
          if (lower === null || upper === null) continue;
          expect(0 <= lower && lower <= estimate! && estimate! <= upper && upper <= 1).toBe(true);
        }
        // late entry gives a row that is lost early the weight of those who came too late to be seen
        if (seed % 2 === 1) expect(all.estimate! - none.estimate!).toBeLessThanOrEqual(lost / n + 0.1);
      }
    },
  );

  it("swapping the groups turns the differences round, factors to their inverses", () => {
    const columns = drawn(5);
    const asked = { time: 60, factors, laws: ["log-normal"] as const };
    const [one] = incidenceAfterLoss(columns, asked).differences;
    const [other] = incidenceAfterLoss(
      { ...columns, groups: columns.groups.map((group) => 1 - group) },
      asked,
    ).differences;
    expect(one!.lowest.estimate).toBeCloseTo(-other!.highest.estimate!, 8);
    expect(one!.points[0]!.lower).toBeCloseTo(-other!.points[2]!.upper!, 6);
    expect(one!.lost.group).toBe(other!.lost.against);
  });

  it("rows in another order have the same figures", () => {
    const columns = drawn(3);
    const order = columns.left.map((_, row) => row).toReversed();
    const turned = Object.fromEntries(
      Object.entries(columns).map(([name, values]) => [name, order.map((row) => (values as number[])[row]!)]),
    ) as unknown as typeof columns;
    const asked = { time: 60, factors, laws: ["log-normal"] as const };
    const [one, other] = [incidenceAfterLoss(columns, asked), incidenceAfterLoss(turned, asked)];
    expect(one.groups[0]!.none.lower).toBeCloseTo(other.groups[0]!.none.lower!, 8);
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { daysBetween } from "../../../src/schema/dates.js";
import type { LinkedTableName } from "../../../src/schema/table-names.js";
import { tables } from "../../../src/schema/tables.js";
import {
  completeScenario,
  drawCohort,
  inventCohort,
  type Scenario,
  type SyntheticCohort,
  singleSheetRows,
  trueEffects,
} from "../../../src/synthetic/index.js";

const linked = ["injuries", "treatments", "imaging", "visits", "sites"] as const satisfies LinkedTableName[];
const base = { name: "law", title: "SYNTHETIC", seed: 5, injuries: 80, sites: [{ id: "site-a" }] };

/** Scenarios from mild to absurd. */
const scenarios: fc.Arbitrary<Scenario> = fc
  .record({
    seed: fc.nat(),
    injuries: fc.integer({ min: 1, max: 40 }),
    lost: fc.double({ min: 0, max: 0.2, noNaN: true }),
    gaveUp: fc.double({ min: 0, max: 0.2, noNaN: true }),
    rupture: fc.double({ min: 0, max: 0.2, noNaN: true }),
    twice: fc.double({ min: 0, max: 1, noNaN: true }),
    weeks: fc.double({ min: 0, max: 0.5, noNaN: true }),
    between: fc.double({ min: 0, max: 0.5, noNaN: true }),
    delay: fc.double({ min: 0.5, max: 60, noNaN: true }),
    median: fc.double({ min: 0.5, max: 40, noNaN: true }),
    byCourse: fc.double({ min: -3, max: 3, noNaN: true }),
    afterReturn: fc.double({ min: 0, max: 20, noNaN: true }),
    complicated: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map((drawn) =>
    completeScenario({
      ...base,
      seed: drawn.seed,
      injuries: drawn.injuries,
      sites: [
        {
          id: "site-a",
          referral_delay: { median_days: drawn.delay, log_sd: 1, longest_days: 60 },
          dates: { week_share: drawn.weeks, month_share: 0, between_visits_share: drawn.between },
          visit_weeks_by_treatment: { ring: [6, 12, 24] },
        },
        { id: "site-b", dates: { week_share: 0, month_share: 0.9, between_visits_share: 0 } },
      ],
      persons: { several_injuries_share: drawn.twice },
      ends: {
        lost_per_week: drawn.lost,
        gave_up_per_week: drawn.gaveUp,
        new_rupture_per_week: drawn.rupture,
        lost_by_course: drawn.byCourse,
        gave_up_by_course: -drawn.byCourse,
        new_rupture_after_return: drawn.afterReturn,
        complication_share: { tape: drawn.complicated, ring: drawn.complicated, surgery: 0.5, none: 0 },
      },
      return: {
        median_weeks: { "1": drawn.median, "2": drawn.median, "3": drawn.median, "4a": 20, "4b": 26 },
      },
    }),
  );
const runs = { seed: 2024, numRuns: 60 };

/** Every law below is asked of the same scenarios: each is drawn once. */
const drawn = new Map<string, SyntheticCohort>();
function cohortOf(scenario: Scenario): SyntheticCohort {
  const key = JSON.stringify(scenario);
  const cohort = drawn.get(key) ?? drawCohort(scenario);
  drawn.set(key, cohort);
  return cohort;
}

describe("laws of a drawn cohort", () => {
  it("as many injuries as asked for, each id once, in order of their date", () => {
    fc.assert(
      fc.property(scenarios, (scenario) => {
        const { injuries } = cohortOf(scenario);
        expect(injuries).toHaveLength(scenario.injuries);
        expect(new Set(injuries.map(({ injury_id }) => injury_id)).size).toBe(scenario.injuries);
        const dates = injuries.map(({ injury_date }) => injury_date);
        expect(dates).toEqual([...dates].sort());
      }),
      runs,
    );
  });

  it("each row of each table, and of the single sheet, fits its schema", () => {
    fc.assert(
      fc.property(scenarios, (scenario) => {
        const cohort = cohortOf(scenario);
        for (const table of linked)
          for (const row of cohort[table]) expect(tables[table].row.safeParse(row).error).toBeUndefined();
        for (const row of singleSheetRows(cohort))
          expect(tables.single_sheet.row.safeParse(row).error).toBeUndefined();
      }),
      runs,
    );
  });

  it("injury < easy <= full <= previous <= last contact <= close of the data, however roughly dated", () => {
    fc.assert(
      fc.property(scenarios, (scenario) => {
        const { injuries, closedOn } = cohortOf(scenario);
        for (const row of injuries) {
          const days = (["easy_climbing", "full_climbing", "previous_level"] as const)
            .map((milestone) => row[`${milestone}_date`] ?? row[`${milestone}_not_after`])
            .filter((date) => date !== null);
          const inOrder = [...days, row.last_contact_date, closedOn];
          expect(inOrder).toEqual([...inOrder].sort());
          if (days[0] !== undefined) expect(daysBetween(row.injury_date, days[0])).toBeGreaterThan(0);
        }
      }),
      runs,
    );
  });

  it("treatments, readings and visits lie between the injury and the last contact, and the first visit and the last contact are visits", () => {
    fc.assert(
      fc.property(scenarios, (scenario) => {
        const { injuries, treatments, imaging, visits } = cohortOf(scenario);
        const injury = new Map(injuries.map((row) => [row.injury_id, row]));
        const dated = [
          ...treatments.map(({ injury_id, start_date }) => [injury_id, start_date!] as const),
          ...treatments.flatMap(({ injury_id, end_date }) =>
            end_date ? [[injury_id, end_date] as const] : [],
          ),
          ...[...imaging, ...visits].map(({ injury_id, date }) => [injury_id, date] as const),
        ];
        for (const [id, date] of dated) {
          expect(date >= injury.get(id)!.injury_date!).toBe(true);
          expect(date <= injury.get(id)!.last_contact_date!).toBe(true);
        }
        for (const row of injuries) {
          const days = visits.filter(({ injury_id }) => injury_id === row.injury_id).map(({ date }) => date);
          expect(days[0]).toBe(row.first_visit_date);
          expect(days.at(-1)).toBe(row.last_contact_date);
          expect(new Set(days).size).toBe(days.length);
        }
      }),
      runs,
    );
  });

  it("a visit says yes from the day of a milestone on and no before it", () => {
    fc.assert(
      fc.property(scenarios, (scenario) => {
        const { injuries, visits } = cohortOf(scenario);
        const injury = new Map(injuries.map((row) => [row.injury_id, row]));
        for (const visit of visits)
          for (const milestone of ["easy_climbing", "full_climbing", "previous_level"] as const) {
            const row = injury.get(visit.injury_id);
            const reached = row?.[`${milestone}_date`] ?? row?.[`${milestone}_not_after`] ?? "9999";
            expect(visit[milestone]).toBe(visit.date >= reached ? "yes" : "no");
          }
      }),
      runs,
    );
  });
});

describe("seeds and streams", () => {
  const scenario = completeScenario(base);
  const bytes = (options: { seed?: number; stream?: number }) =>
    JSON.stringify(drawCohort(scenario, options));

  it("the same seed and stream give the same bytes, and the same files", () => {
    expect(bytes({})).toBe(bytes({ seed: 5, stream: 0 }));
    expect(inventCohort(scenario, { draws: 500 })).toEqual(inventCohort(scenario, { draws: 500 }));
  });

  it("another stream, and another seed, give another cohort", () => {
    expect(bytes({ stream: 1 })).not.toBe(bytes({ stream: 0 }));
    expect(bytes({ seed: 6 })).not.toBe(bytes({ seed: 5 }));
  });

  it("all streams are as good as each other: the shares of the operated spread over 100 streams as chance has it", () => {
    const shares = Array.from({ length: 100 }, (_, stream) => {
      const { treatments } = drawCohort(scenario, { stream });
      return new Set(treatments.filter((t) => t.treatment === "surgery").map((t) => t.injury_id)).size / 80;
    });
    const mean = shares.reduce((a, b) => a + b, 0) / 100;
    const sd = Math.sqrt(shares.reduce((sum, share) => sum + (share - mean) ** 2, 0) / 99);
    // Binomial in 80 injuries: neither nil (streams alike) nor more (some streams odd).
    const binomial = Math.sqrt((mean * (1 - mean)) / 80);
    expect(sd / binomial).toBeGreaterThan(0.75);
    expect(sd / binomial).toBeLessThan(1.35);
  });
});

describe("laws of the truth", () => {
  const draws = 12_000;
  const withRatio = (ring: number) =>
    completeScenario({ ...base, return: { hazard_ratio: { ring, surgery: 0.8, none: 0.9 } } });

  const asWritten = trueEffects(withRatio(1.35), { draws });

  it("a hazard ratio of 1 gives no difference, within Monte Carlo error", () => {
    const { standardised, by_grade } = trueEffects(withRatio(1), { draws });
    for (const contrast of [standardised, ...by_grade.flatMap(({ contrast }) => contrast ?? [])]) {
      const figures = [
        ...(contrast?.landmark_differences ?? []).map(({ difference }) => difference),
        contrast?.restricted_mean_difference_days,
      ];
      for (const figure of figures)
        expect(Math.abs(figure!.value!)).toBeLessThanOrEqual(4 * figure!.standard_error! + 2 / draws);
    }
  });

  it("a ratio above 1 brings people back sooner at each landmark, one below 1 later", () => {
    for (const [ratio, sign] of [
      [2, 1],
      [0.5, -1],
    ] as const) {
      const { standardised } = trueEffects(withRatio(ratio), { draws });
      for (const { difference } of standardised?.landmark_differences ?? [])
        expect(Math.sign(difference.value)).toBe(sign);
      expect(Math.sign(standardised!.restricted_mean_difference_days.value!)).toBe(-sign);
    }
  });

  it("the standardised contrast is the mean of the grades by their weights, which sum to 1", () => {
    const { standardised, by_grade } = asWritten;
    expect(by_grade.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    const mean = by_grade.reduce(
      (sum, { weight, contrast }) => sum + weight * (contrast?.restricted_mean_difference_days.value ?? 0),
      0,
    );
    expect(standardised?.restricted_mean_difference_days.value).toBeCloseTo(mean, 10);
  });

  it("competing ends only take away: the share back is never above the one if there were none", () => {
    for (const { landmarks } of asWritten.cells)
      for (const { returned, returned_if_no_competing_end } of landmarks)
        expect(returned.value).toBeLessThanOrEqual(returned_if_no_competing_end.value);
  });

  it("four times the draws halve the standard error", () => {
    const of = (n: number) =>
      trueEffects(withRatio(1.35), { draws: n }).standardised!.restricted_mean_difference_days
        .standard_error!;
    expect(of(5000) / of(20_000)).toBeCloseTo(2, 1);
  });
});

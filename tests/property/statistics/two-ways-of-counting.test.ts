import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cumulativeIncidence, logRank, productLimit } from "../../../src/statistics/index.js";

/** Days and untied times, few rows and many: they are counted in different ways. */
const row = fc.record({
  day: fc.integer({ min: 0, max: 60 }),
  part: fc.double({ min: 0, max: 1, noNaN: true }),
  cause: fc.integer({ min: 0, max: 2 }),
  group: fc.integer({ min: 0, max: 2 }),
  person: fc.integer({ min: 0, max: 30 }),
});
const rowsOf = fc.oneof(
  fc.array(row, { minLength: 1, maxLength: 20 }),
  fc.array(row, { minLength: 256, maxLength: 600, size: "max" }),
);
const settings = { seed: 20_260_103, numRuns: 40 } as const;

const columnsOf = (rows: readonly (typeof row extends fc.Arbitrary<infer Row> ? Row : never)[]) => ({
  events: rows.map(({ cause }) => Math.min(1, cause)),
  causes: rows.map(({ cause }) => cause),
  groups: rows.map(({ group }) => group),
  persons: rows.map(({ person }) => person),
  ones: rows.map(() => 1),
});

describe.each([
  ["whole days", (day: number) => day],
  ["untied times", (day: number, part: number) => day + part],
] as const)("%s", (_, timeOf) => {
  const law = (holds: (times: number[], columns: ReturnType<typeof columnsOf>) => void) =>
    fc.assert(
      fc.property(rowsOf, (rows) =>
        holds(
          rows.map(({ day, part }) => timeOf(day, part)),
          columnsOf(rows),
        ),
      ),
      settings,
    );

  it("a curve is the same where every row has weight 1", () => {
    law((times, { events, ones }) => {
      const weighted = productLimit({ times, events, weights: ones }, { variance: "greenwood" });
      expect(productLimit({ times, events })).toEqual(weighted);
    });
  });

  it("cumulative incidence is the same where every row enters before time 0", () => {
    law((times, { causes, ones }) => {
      const { entered: _entered, ...late } = cumulativeIncidence({
        times,
        causes,
        entries: ones.map((one) => -one),
      });
      expect(cumulativeIncidence({ times, causes })).toMatchObject(late);
    });
  });

  it("a log-rank test is the same within a single stratum", () => {
    law((times, { events, groups, ones }) => {
      const { reason: _reason, ...stratified } = logRank({ times, events, groups, strata: ones });
      expect(logRank({ times, events, groups })).toMatchObject(stratified);
    });
  });

  it("the robust variance does not ask how far apart the numbers of the clusters lie", () => {
    law((times, { events, persons }) => {
      const far = persons.map((person) => (person - 7) * 1e9);
      const [near, apart] = [persons, far].map((clusters) => productLimit({ times, events, clusters }));
      expect(near).toEqual(apart);
    });
  });
});

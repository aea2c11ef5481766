import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  hazardsRegression,
  incidenceCurve,
  logRank,
  productLimit,
} from "../../../../src/statistics/index.js";
import {
  addRiskSetTables,
  binnedRows,
  coarserTable,
  hazardsOfTable,
  incidenceOfTable,
  logRankOfTable,
  productLimitOfTable,
  riskSetTable,
  type SortedTable,
  type TableRows,
} from "../../../../src/statistics/pooling/tables/index.js";

/** Rows by days, some of which come under observation late. */
const row = fc.record({
  day: fc.integer({ min: 0, max: 120 }),
  cause: fc.integer({ min: 0, max: 2 }),
  late: fc.integer({ min: -60, max: 60 }),
  group: fc.integer({ min: 0, max: 2 }),
  stratum: fc.integer({ min: 0, max: 2 }),
  band: fc.integer({ min: 0, max: 3 }),
});
type Row = typeof row extends fc.Arbitrary<infer One> ? One : never;

const some = fc.array(row, { minLength: 0, maxLength: 40 });
const many = fc.array(row, { minLength: 60, maxLength: 200, size: "max" });
const settings = { seed: 20_261_128, numRuns: 60 } as const;

const rowsFrom = (rows: readonly Row[]): TableRows => ({
  times: rows.map(({ day }) => day),
  causes: rows.map(({ cause }) => cause),
  entries: rows.map(({ day, late }) => (late < 0 ? -1 : Math.min(late, day - 1))),
  groups: rows.map(({ group }) => group),
  strata: rows.map(({ stratum }) => stratum),
  covariates: {
    names: ["group 1", "group 2", "band"],
    columns: [
      rows.map(({ group }) => Number(group === 1)),
      rows.map(({ group }) => Number(group === 2)),
      rows.map(({ band }) => band),
    ],
  },
});

const weeks = Array.from({ length: 18 }, (_, week) => 7 * (week + 1));
const binned = (rows: readonly Row[]) => binnedRows(rowsFrom(rows), { ends: weeks });

/** The same rows as those of a single event. */
const ofCause = ({ causes, groups: _, covariates: __, strata: ___, ...rest }: TableRows, cause: number) => ({
  ...rest,
  events: Array.from(causes, (one) => Number(one === cause)),
});

/** Numbers that agree to a part in 1e8 or better, texts and reasons exactly. */
function expectAlike(found: unknown, wanted: unknown, at = ""): void {
  if (typeof wanted === "number" && typeof found === "number") {
    const apart = Math.abs(found - wanted);
    if (apart <= 1e-11 || apart <= 1e-9 * Math.abs(wanted)) return;
    expect(found, at).toBe(wanted);
  } else if (typeof wanted === "object" && wanted !== null) {
    expect(Object.keys(found as object), at).toEqual(Object.keys(wanted));
    for (const [name, value] of Object.entries(wanted))
      expectAlike((found as Record<string, unknown>)[name], value, `${at}.${name}`);
  } else expect(found, at).toEqual(wanted);
}

describe("a table of risk sets gives what its rows give", () => {
  it("cumulative incidence and product-limit curve, by group and of all", () => {
    fc.assert(
      fc.property(some, fc.constantFrom(1, 2), (rows, cause) => {
        const columns = binned(rows);
        const table = riskSetTable(columns);
        const { groups: _, strata: __, covariates: ___, ...causes } = columns;
        const { entered, ...curve } = incidenceCurve(causes, { cause });
        expect(incidenceOfTable(table, { cause })).toMatchObject(curve);
        const { entered: ___2, ...limit } = productLimit(ofCause(columns, cause));
        expect(productLimitOfTable(table, { cause })).toMatchObject(limit);
        const seconds = rows.filter(({ group }) => group === 1);
        const ofGroup = productLimit(ofCause(binned(seconds), cause));
        const found = productLimitOfTable(table, { cause, group: 1 });
        expect({ ...found, entered: null }).toEqual({ ...ofGroup, entered: null });
      }),
      settings,
    );
  });

  it("log-rank test within strata, by every weight", () => {
    const weights = ["equal", "at-risk", "peto-prentice", { rho: 1, gamma: 1 }] as const;
    fc.assert(
      fc.property(some, fc.constantFrom(...weights), (rows, weight) => {
        const columns = binned(rows);
        const { causes, covariates: _, groups, ...rest } = columns;
        const events = Array.from(causes, (cause) => Number(cause === 1));
        const wanted = logRank({ ...rest, events, groups: groups ?? [] }, { weight });
        expectAlike(logRankOfTable(riskSetTable(columns), { weight }), wanted);
      }),
      settings,
    );
  });

  it.each(["efron", "breslow"] as const)("hazards regression in strata, %s ties", (ties) => {
    fc.assert(
      fc.property(many, (rows) => {
        const columns = binned(rows);
        const { causes, groups: _, ...rest } = columns;
        const events = Array.from(causes, (cause) => Number(cause === 1));
        const wanted = hazardsRegression(
          { ...rest, covariates: rest.covariates ?? { names: [], columns: [] }, events },
          { ties },
        );
        const found = hazardsOfTable(riskSetTable(columns), { ties });
        // how many steps were taken, and what was left of the gradient, say how a maximum was found
        const known = ({ iterations: _i, finalGradient: _g, ...fit }: typeof found) => fit;
        expectAlike(known(found), known(wanted));
      }),
      settings,
    );
  });

  it("also where a ratio is infinite: nobody of group 2 has the event", () => {
    fc.assert(
      fc.property(many, (rows) => {
        const columns = binned(
          rows.map((one) => ({ ...one, cause: one.group === 2 ? 0 : one.cause, late: -1 })),
        );
        const { causes, groups: _, covariates, ...rest } = columns;
        const events = Array.from(causes, (cause) => Number(cause === 1));
        const wanted = hazardsRegression({
          ...rest,
          covariates: covariates ?? { names: [], columns: [] },
          events,
        });
        const found = hazardsOfTable(riskSetTable(columns));
        expect(found.status).toBe(wanted.status);
        expect(found.hazardRatios[1]).toEqual(wanted.hazardRatios[1]);
        expect(found.logLikelihood).toBeCloseTo(wanted.logLikelihood ?? Number.NaN, 7);
        for (const j of [0, 2])
          expect(found.coefficients[j]).toBeCloseTo(wanted.coefficients[j] ?? Number.NaN, 7);
      }),
      settings,
    );
  });
});

describe("tables add", () => {
  const table = fc.array(row, { maxLength: 25 }).map((rows) => riskSetTable(binned(rows)));
  const add = (...tables: readonly SortedTable[]) => addRiskSetTables(tables);

  it("in any order and by any steps", () => {
    fc.assert(
      fc.property(table, table, table, (a, b, c) => {
        expect(add(b, a)).toEqual(add(a, b));
        expect(add(add(a, b), c)).toEqual(add(a, add(b, c)));
        expect(add(a, b, c)).toEqual(add(add(c, b), a));
        expect(add(a)).toEqual(a);
      }),
      settings,
    );
  });

  it("to the table of all rows together", () => {
    fc.assert(
      fc.property(some, some, (one, other) => {
        const whole = riskSetTable(binned([...one, ...other]));
        expect(add(riskSetTable(binned(one)), riskSetTable(binned(other)))).toEqual(whole);
      }),
      settings,
    );
  });
});

it("coarser bins of a table are those of its rows", () => {
  const ends = [14, 42, 70, 126];
  fc.assert(
    fc.property(some, (rows) => {
      const straight = riskSetTable(binnedRows(rowsFrom(rows), { ends }));
      expect(coarserTable(riskSetTable(binned(rows)), { ends })).toEqual(straight);
    }),
    settings,
  );
});

it("the share back at the end of a week counts the events by days where nobody leaves early", () => {
  fc.assert(
    fc.property(some, (rows) => {
      const all = rows.map((one) => ({ ...one, cause: Math.max(1, one.cause), late: -1 }));
      const byWeeks = incidenceOfTable(riskSetTable(binned(all)));
      byWeeks.times.forEach((end, i) => {
        const back = all.filter(({ day, cause }) => cause === 1 && day <= end).length;
        expect(1 - byWeeks.notYet[i]!).toBeCloseTo(back / all.length, 12);
      });
    }),
    settings,
  );
});

import { describe, expect, it } from "vitest";
import {
  conditionalOddsRatio,
  fisher,
  fourCellsChiSquare,
  oddsRatio,
  pairedDifference,
  pairedOddsRatio,
  pairedTest,
  proportionInterval,
  proportionsTest,
  proportionTrend,
  riskDifference,
  riskRatio,
} from "../../../../src/statistics/proportions/index.js";
import { type Expected, expectAllClose, expectClose, referenceCase } from "../reference-data.js";

const rel = 1e-9;

/** "Infinity" and "NaN" of the file have no value here. */
const numberOf = (expected: Expected): number | null => (typeof expected === "number" ? expected : null);

describe("one proportion, Newcombe 1998, Stat Med 17:857, and made-up edges, against R 4.2.2", () => {
  const methods = {
    wilson: "wilson",
    wilson_continuity: "wilson-continuity",
    clopper_pearson: "exact",
    agresti_coull: "agresti-coull",
    jeffreys: "jeffreys",
    wald: "wald",
  } as const;
  it.each(Object.entries(methods))("%s", (name, method) => {
    for (const row of referenceCase("proportions", "single_proportions").expected) {
      const found = proportionInterval({ successes: row.x, n: row.n }, { method });
      if (name === "wald" && [0, row.n].includes(row.x)) {
        // the formula's limits are one point, which no reader may take for an interval
        expect(found).toMatchObject({ lower: null, upper: null, reason: "no-variance" });
        continue;
      }
      expectAllClose([found.estimate, found.lower, found.upper], [row.estimate, ...row[name]], {
        rel,
        what: `${row.x} of ${row.n}`,
      });
    }
  });
});

describe("four cells against R 4.2.2: Newcombe 1998, Fisher 1935, Agresti 2002, made-up edges", () => {
  const cases: Expected[] = referenceCase("proportions", "two_by_two").expected;
  it.each(cases)("$name", (expected) => {
    const [[a, b], [c, d]] = expected.table;
    const cells = { a, b, c, d };
    const exact = fisher(cells);
    const f = expected.fisher;
    expectAllClose(
      [exact.twoSided, exact.less, exact.greater, exact.midP],
      [f.p_two_sided, f.p_less, f.p_greater, f.p_mid],
      { rel, abs: 0, what: "Fisher" },
    );
    const conditional = conditionalOddsRatio(cells);
    if (f.ci95_conditional) {
      // solved numerically on both sides
      const how = { rel: 1e-8, what: "conditional" };
      const estimate = f.conditional_odds_ratio;
      expectClose(conditional.estimate, estimate === 0 ? null : numberOf(estimate), how);
      expectAllClose([conditional.lower, conditional.upper], f.ci95_conditional.map(numberOf), how);
    } else expect(conditional.estimate).toBeNull();
    for (const [found, wanted] of [
      [oddsRatio(cells), expected.odds_ratio],
      [oddsRatio(cells, { cells: "add-half" }), expected.odds_ratio_half_added],
      [riskRatio(cells), expected.risk_ratio],
    ] as const) {
      const known = typeof wanted.se_log === "number";
      expectAllClose(
        [found.estimate, found.logStandardError, found.lower, found.upper],
        known ? [wanted.estimate, wanted.se_log, ...wanted.ci95] : [null, null, null, null],
        { rel, what: "ratio" },
      );
      if (!known) {
        const limits: Expected = { 0: "zero", Infinity: "infinity", NaN: null };
        expect(found.limit).toBe(limits[wanted.estimate]);
      }
    }
    const difference = riskDifference(cells);
    const r = expected.risk_difference;
    expectAllClose(
      [
        difference.estimate,
        difference.standardError,
        ...(difference.wald ?? []),
        difference.lower,
        difference.upper,
      ],
      [r.estimate, r.se_wald, ...r.ci95_wald, ...r.ci95_newcombe],
      { rel, what: "difference" },
    );
    expectClose(difference.numberNeeded, numberOf(r.number_needed), { rel, what: "number needed" });
    const chi = fourCellsChiSquare(cells);
    const x = expected.chi_square;
    expectAllClose(
      [chi.plain.statistic, chi.plain.p, chi.continuity.statistic, chi.continuity.p, chi.lessOne.statistic],
      [x.uncorrected, x.p, x.continuity, x.p_continuity, x.n_minus_1].map(numberOf),
      { rel, what: "chi-square" },
    );
  });
});

describe("pairs against R 4.2.2: Agresti 2002 (approval), made-up edges", () => {
  const cases: Expected[] = referenceCase("proportions", "paired_binary").expected;
  it.each(cases)("$name", (expected) => {
    const [both, firstOnly, secondOnly, neither] = expected.table;
    const pairs = { both, firstOnly, secondOnly, neither };
    const test = pairedTest(pairs);
    const m = expected.mcnemar;
    expectAllClose(
      [test.chiSquare, test.p, test.chiSquareContinuity, test.pContinuity, test.exact, test.midP],
      [m.chisq, m.p, m.chisq_continuity, m.p_continuity, m.p_exact, m.p_mid].map(numberOf),
      { rel, what: "test" },
    );
    const found = pairedDifference(pairs);
    const e = expected.difference;
    expectAllClose(
      [
        found.estimate,
        found.standardError,
        ...(found.wald ?? []),
        found.lower,
        found.upper,
        found.correctedPhi,
      ],
      [e.estimate, e.se_wald, ...e.ci95_wald, ...e.ci95_newcombe_method10, e.phi_corrected],
      { rel, what: "difference" },
    );
    const odds = pairedOddsRatio(pairs);
    const [lower, upper] = expected.odds_ratio.ci95_exact;
    expectAllClose(
      [odds.estimate, odds.lower, odds.upper],
      [numberOf(expected.odds_ratio.estimate), lower, numberOf(upper)],
      { rel, what: "odds ratio" },
    );
  });
});

describe("several groups", () => {
  // R 4.2.2: prop.test(c(83, 90, 129, 70), c(86, 93, 136, 82)); prop.trend.test of the same, scores 1:4 and c(1, 2, 4, 8)
  const smokers = { events: [83, 90, 129, 70], n: [86, 93, 136, 82] };
  it("smokers among patients in four studies, Fleiss 1981, p. 139, as in the R documentation, against R 4.2.2", () => {
    const found = proportionsTest(smokers);
    expectAllClose([found.statistic, found.df, found.p], [12.60041129712764, 3, 0.00558547666162702], {
      rel: 1e-9,
      what: "chi-square",
    });
  });

  it("trend over the same four, against R 4.2.2", () => {
    const even = proportionTrend(smokers);
    expectAllClose([even.z! ** 2, even.p], [8.224922285197739, 0.00413189747764142], {
      rel: 1e-9,
      what: "0 to 3",
    });
    const uneven = proportionTrend(smokers, { scores: [1, 2, 4, 8] });
    expectAllClose([uneven.z! ** 2, uneven.p], [11.3568981859413, 0.000751682570996498], {
      rel: 1e-9,
      what: "1 2 4 8",
    });
  });
});

describe("counts near a thousand million", () => {
  const large = { a: 300_010_000, b: 699_990_000, c: 300_000_000, d: 700_000_000 };
  it("the exact test agrees with chi-square corrected for continuity, and nothing overflows", () => {
    const chi = fourCellsChiSquare(large);
    expectClose(fisher(large).twoSided, chi.continuity.p, { rel: 1e-3, what: "p" });
    expectClose(conditionalOddsRatio(large).lower, oddsRatio(large).lower, { rel: 1e-7, what: "lower" });
  });

  it("exact limits of 0 of 1e9: 1 - 0.025^(1/1e9) by hand", () => {
    const found = proportionInterval({ successes: 0, n: 1e9 }, { method: "exact" });
    expectClose(found.upper, -Math.expm1(Math.log(0.025) / 1e9), { rel: 1e-12, abs: 0, what: "upper" });
  });
});

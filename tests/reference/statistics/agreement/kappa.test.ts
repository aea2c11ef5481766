import { describe, expect, it } from "vitest";
import {
  agreementShares,
  kappaOfTable,
  severalRatersKappa,
} from "../../../../src/statistics/agreement/index.js";
import { seededGenerator } from "../../../../src/statistics/index.js";
import { expectAllClose, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

const rel = 1e-9;

describe("kappa of two raters against R 4.2.2 and R package vcd 1.4.11", () => {
  const cases = [
    { id: "kappa_ms", file: "ms_winnipeg.csv", printed: "Landis & Koch 1977" },
    { id: "kappa_satisfaction", file: "satisfaction.csv", printed: "Hout et al. 1987" },
  ].flatMap((one) =>
    (["unweighted", "linear", "quadratic"] as const).map((weights) => ({ ...one, weights })),
  );

  it.each(cases)("$printed, $weights", ({ id, file, weights }) => {
    const expected = referenceCase("agreement", id).expected[weights];
    const rows = referenceRows("agreement", file);
    const columns = ["c1", "c2", "c3", "c4"].map((name) => numbers(rows, name));
    const counts = columns.map((_, i) => columns.map((column) => column[i]!));
    const found = kappaOfTable({ categories: ["a", "b", "c", "d"], counts }, { weights });
    expectClose(found.observedAgreement, expected.observed_agreement, { rel, what: "observed" });
    expectClose(found.chanceAgreement, expected.chance_agreement, { rel, what: "chance" });
    expectClose(found.kappa, expected.kappa, { rel, what: "kappa" });
    expectClose(found.standardError, expected.se, { rel, what: "error" });
    expectClose(found.standardErrorNull, expected.se_null, { rel, what: "error under chance" });
    expectClose(found.z, expected.z, { rel, what: "z" });
    expectAllClose([found.lower, found.upper], expected.ci95, { rel, what: "limits" });
  });

  it("two tables with 85 % agreement, Feinstein & Cicchetti 1990, J Clin Epidemiol 43:543 (from memory): kappa .70 and .32", () => {
    const categories = ["yes", "no"];
    const even = kappaOfTable({
      categories,
      counts: [
        [40, 9],
        [6, 45],
      ],
    });
    const skewed = kappaOfTable({
      categories,
      counts: [
        [80, 10],
        [5, 5],
      ],
    });
    expectClose(even.kappa, 0.7, { rel: 0, abs: 0.005, what: "even" });
    expectClose(skewed.kappa, 0.32, { rel: 0, abs: 0.005, what: "skewed" });
    // Byrt, Bishop & Carlin 1993: both become 2 x .85 - 1
    expectAllClose([even.withEvenMargins, skewed.withEvenMargins], [0.7, 0.7], { rel, what: "even margins" });
    expectClose(skewed.prevalenceIndex, 0.75, { rel, what: "prevalence index" });
    expect(skewed.notes).toContain("one-category-dominates");
    expect(even.notes).not.toContain("one-category-dominates");
  });

  it("agreement by category of the skewed table, by hand: 160 of 175 and 10 of 25", () => {
    const shares = agreementShares({
      categories: ["yes", "no"],
      counts: [
        [80, 10],
        [5, 5],
      ],
    });
    expectClose(shares.exact.estimate, 0.85, { rel, what: "exact" });
    const byCategory = shares.byCategory.map(({ share }) => share.value);
    expectAllClose(byCategory, [160 / 175, 10 / 25], { rel, what: "by category" });
  });

  it("shares of a table of three grades, by hand", () => {
    const counts = [
      [4, 2, 1],
      [3, 5, 0],
      [0, 2, 3],
    ];
    const shares = agreementShares({ categories: ["2", "3", "4a"], counts });
    const estimates = [shares.exact, shares.withinOne, shares.secondHigher, shares.secondLower];
    const found = estimates.map(({ estimate }) => estimate);
    expectAllClose(found, [12 / 20, 19 / 20, 3 / 20, 5 / 20], { rel, what: "shares" });
  });

  it("several raters: the widely printed example of 10 subjects, 14 raters, 5 categories (from memory): kappa 0.210", () => {
    const rows = [
      [0, 0, 0, 0, 14],
      [0, 2, 6, 4, 2],
      [0, 0, 3, 5, 6],
      [0, 3, 9, 2, 0],
      [2, 2, 8, 1, 1],
      [7, 7, 0, 0, 0],
      [3, 2, 6, 3, 0],
      [2, 5, 3, 2, 2],
      [6, 5, 2, 1, 0],
      [0, 2, 2, 3, 7],
    ];
    const categories = ["1", "2", "3", "4", "5"];
    const counts = categories.map((_, c) => rows.map((row) => row[c]!));
    const found = severalRatersKappa({ categories, counts });
    expectClose(found.observedAgreement, 0.378, { rel: 0, abs: 5e-4, what: "observed" });
    expectClose(found.chanceAgreement, 0.213, { rel: 0, abs: 5e-4, what: "chance" });
    expectClose(found.kappa, 0.21, { rel: 0, abs: 5e-4, what: "kappa" });
  });

  it("several raters: the error under chance is the spread of kappa over 4,000 draws without agreement, to 5 %", () => {
    const generator = seededGenerator(17, 0);
    const categories = ["1", "2", "3"];
    const draw = () => {
      const counts = categories.map(() => new Array<number>(40).fill(0));
      for (let subject = 0; subject < 40; subject++)
        for (let rater = 0; rater < 4; rater++) {
          const u = generator.uniform();
          counts[u < 0.2 ? 0 : u < 0.5 ? 1 : 2]![subject]! += 1;
        }
      return severalRatersKappa({ categories, counts });
    };
    const draws = Array.from({ length: 4000 }, draw);
    const mean = draws.reduce((sum, { kappa }) => sum + kappa! / 4000, 0);
    const spread = Math.sqrt(draws.reduce((sum, { kappa }) => sum + (kappa! - mean) ** 2, 0) / 3999);
    const error = draws.reduce((sum, { standardErrorNull }) => sum + standardErrorNull! / 4000, 0);
    expectClose(error, spread, { rel: 0.05, what: "error under chance" });
  });
});

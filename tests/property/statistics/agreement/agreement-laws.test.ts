import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  agreementTable,
  concordanceCorrelation,
  intraclassCorrelation,
  kappa,
  kappaOfTable,
  limitsOfAgreement,
  limitsOfRepeatedPairs,
  limitsOfReplicates,
  measurementError,
  proportionalBias,
  raterComponents,
  repeatability,
  severalRatersKappa,
} from "../../../../src/statistics/agreement/index.js";
import { settings } from "../cohorts.js";

/** For laws whose every run is an iteration or an integral. */
const fewer = { ...settings, numRuns: 50 };

const reading = fc.integer({ min: 0, max: 60 }).map((tenths) => tenths / 10);
/** Rows are subjects, columns raters. */
const table = fc
  .tuple(fc.integer({ min: 3, max: 12 }), fc.integer({ min: 2, max: 4 }))
  .chain(([n, k]) =>
    fc.array(fc.array(reading, { minLength: k, maxLength: k }), { minLength: n, maxLength: n }),
  );
const ratings = (rows: readonly (readonly number[])[]) => ({
  raters: rows[0]!.map((_, j) => rows.map((row) => row[j]!)),
});
const long = (rows: readonly (readonly number[])[]) => ({
  values: rows.flat(),
  subjects: rows.flatMap((row, i) => row.map(() => i)),
  raters: rows.flatMap((row) => row.map((_, j) => j)),
});

function close(a: number | null | undefined, b: number | null | undefined, within = 1e-8): void {
  if (typeof a !== "number" || typeof b !== "number") expect(a ?? null).toBe(b ?? null);
  else expect(Math.abs(a - b)).toBeLessThanOrEqual(within * Math.max(1, Math.abs(b)));
}

const estimatesOf = (rows: readonly (readonly number[])[]) => {
  const { oneWay, agreement, consistency } = intraclassCorrelation(ratings(rows));
  return [oneWay, agreement, consistency].flatMap(({ single, average }) => [
    single.estimate,
    single.lower,
    single.upper,
    average.estimate,
  ]);
};

describe("laws of the intraclass correlation", () => {
  it("order of subjects and raters, unit and zero of the scale do not matter", () => {
    fc.assert(
      fc.property(table, (rows) => {
        const moved = rows.map((row) => row.map((value) => 3 * value - 20).reverse()).reverse();
        const after = estimatesOf(moved);
        estimatesOf(rows).forEach((value, at) => {
          close(after[at], value, 1e-6);
        });
      }),
      settings,
    );
  });

  it("a rater who reads higher throughout leaves consistency alone", () => {
    fc.assert(
      fc.property(table, (rows) => {
        const shifted = rows.map(([first, ...rest]) => [first! + 5, ...rest]);
        const before = intraclassCorrelation(ratings(rows)).consistency.single;
        const after = intraclassCorrelation(ratings(shifted)).consistency.single;
        close(after.estimate, before.estimate, 1e-6);
      }),
      settings,
    );
  });

  it("the error of measurement by two readings is the within-subject deviation", () => {
    fc.assert(
      fc.property(table, (rows) => {
        const pairs = rows.map((row) => row.slice(0, 2));
        const { oneWay } = measurementError(ratings(pairs));
        const { values, subjects } = long(pairs);
        const within = repeatability({ values, subjects });
        close(oneWay?.sem, within.withinSubjectDeviation);
        close(oneWay?.semUpper, within.upper);
      }),
      settings,
    );
  });

  it("complete tables: restricted likelihood gives the mean squares' answer where all their variances are positive", () => {
    let compared = 0;
    fc.assert(
      fc.property(table, (rows) => {
        const squares = intraclassCorrelation(ratings(rows)).meanSquares!;
        const { betweenSubjects: b, betweenRaters: j, residual: e, withinSubjects: w } = squares;
        if (e > 0 && b > e && j > e) {
          compared++;
          const found = raterComponents(long(rows));
          close(found.variances?.residual, e, 1e-7);
          close(found.variances?.subjects, (b - e) / squares.raters, 1e-7);
          close(found.variances?.raters, (j - e) / squares.subjects, 1e-7);
        }
        if (w > 0 && b > w) {
          const found = raterComponents(long(rows), { model: "one-way" });
          close(found.variances?.residual, w, 1e-7);
          close(found.agreement.estimate, (b - w) / (b + (squares.raters - 1) * w), 1e-7);
        }
      }),
      settings,
    );
    expect(compared).toBeGreaterThan(10);
  });

  it("missing readings: order of rows does not matter, and the interval holds the estimate", () => {
    fc.assert(
      fc.property(table, fc.array(fc.boolean(), { minLength: 48, maxLength: 48 }), (rows, kept) => {
        const all = long(rows);
        const places = all.values.map((_, at) => at).filter((at) => kept[at] === true);
        const pick = (order: readonly number[]) => ({
          values: order.map((at) => all.values[at]!),
          subjects: order.map((at) => all.subjects[at]!),
          raters: order.map((at) => all.raters[at]!),
        });
        const found = raterComponents(pick(places));
        const turned = raterComponents(pick(places.slice().reverse()));
        expect(turned.reason).toBe(found.reason);
        close(turned.logLikelihood, found.logLikelihood, 1e-7);
        const { estimate, lower, upper } = found.agreement;
        if (lower === null || upper === null) return;
        expect(lower).toBeLessThanOrEqual(estimate!);
        expect(upper).toBeGreaterThanOrEqual(estimate!);
        expect(upper).toBeLessThanOrEqual(1);
      }),
      fewer,
    );
  });
});

const pairs = fc.array(fc.tuple(reading, reading), { minLength: 3, maxLength: 20 });
const columns = (rows: readonly (readonly [number, number])[]) => ({
  first: rows.map(([one]) => one),
  second: rows.map(([, two]) => two),
});

describe("laws of limits of agreement", () => {
  it("swapping the methods mirrors bias, limits and exact intervals", () => {
    fc.assert(
      fc.property(pairs, (rows) => {
        const { first, second } = columns(rows);
        const one = limitsOfAgreement({ first, second });
        const two = limitsOfAgreement({ first: second, second: first });
        close(two.bias, -one.bias!);
        close(two.lower?.estimate, -one.upper!.estimate);
        if (one.upper!.exact !== null) close(two.lower?.exact?.lower, -one.upper!.exact.upper);
        const slope = proportionalBias({ first, second });
        const turned = proportionalBias({ first: second, second: first });
        close(turned.slope, slope.slope === null ? null : -slope.slope);
        close(turned.correlation, slope.correlation === null ? null : -slope.correlation);
        if (slope.slope !== null) expect(Math.sign(slope.correlation!)).toBe(Math.sign(slope.slope));
      }),
      fewer,
    );
  });

  it("one pair a subject: repeated pairs and replicates both give the plain limits", () => {
    fc.assert(
      fc.property(pairs, (rows) => {
        const { first, second } = columns(rows);
        const subjects = rows.map((_, at) => at + 7);
        const plain = limitsOfAgreement({ first, second });
        const paired = limitsOfRepeatedPairs({ first, second, subjects });
        const apart = limitsOfReplicates({
          first: { values: first, subjects },
          second: { values: second, subjects },
        });
        for (const found of [paired, apart]) {
          close(found.lower?.estimate, plain.lower?.estimate);
          close(found.biasUpper, plain.biasUpper);
          expect(found.reason).toBe(plain.reason);
        }
      }),
      fewer,
    );
  });
});

const rated = fc.array(fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 3 })), {
  minLength: 1,
  maxLength: 40,
});
const categories = ["1", "2", "3", "4"];
const weightings = ["unweighted", "linear", "quadratic"] as const;

describe("laws of kappa", () => {
  it("swapping the raters changes nothing; doubling the subjects only divides the errors by root two", () => {
    fc.assert(
      fc.property(rated, fc.constantFrom(...weightings), (rows, weights) => {
        const { first, second } = columns(rows);
        const one = kappa({ first, second }, { categories, weights });
        const swapped = kappa({ first: second, second: first }, { categories, weights });
        const twice = kappa(columns([...rows, ...rows]), { categories, weights });
        close(swapped.kappa, one.kappa);
        close(swapped.standardError, one.standardError);
        close(swapped.maximum, one.maximum);
        close(twice.kappa, one.kappa);
        if (one.standardError !== null) close(twice.standardError, one.standardError / Math.SQRT2);
      }),
      settings,
    );
  });

  it("never above the maximum that the margins allow, which pairing in order reaches", () => {
    fc.assert(
      fc.property(rated, fc.constantFrom(...weightings), (rows, weights) => {
        const { first, second } = columns(rows);
        const one = kappa({ first, second }, { categories, weights });
        if (one.kappa === null) return;
        expect(one.kappa).toBeLessThanOrEqual(one.maximum! + 1e-12);
        if (weights === "unweighted") return;
        const sorted = { first: first.slice().sort(), second: second.slice().sort() };
        close(kappa(sorted, { categories, weights }).kappa, one.maximum);
      }),
      settings,
    );
  });

  it("with quadratic weights it is the concordance of the category numbers, Fleiss & Cohen 1973, Educ Psychol Meas 33:613", () => {
    fc.assert(
      fc.property(rated, (rows) => {
        const { first, second } = columns(rows);
        const weighted = kappa({ first, second }, { categories, weights: "quadratic" });
        if (rows.length > 1) close(weighted.kappa, concordanceCorrelation({ first, second }).estimate);
      }),
      settings,
    );
  });

  it("two categories: the weights are all the same", () => {
    fc.assert(
      fc.property(rated, (rows) => {
        const two = columns(rows.map(([a, b]) => [a % 2, b % 2] as const));
        const counted = agreementTable(two, { categories: ["no", "yes"] });
        const [plain, linear, quadratic] = weightings.map((weights) => kappaOfTable(counted, { weights }));
        close(linear?.kappa, plain?.kappa);
        close(quadratic?.standardError, plain?.standardError);
      }),
      settings,
    );
  });

  it("several raters who all agree give 1, whatever they say, once two categories are used", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 2, maxLength: 20 }), (chosen) => {
        const counts = categories.map((_, c) => chosen.map((one) => (one === c ? 3 : 0)));
        const found = severalRatersKappa({ categories, counts });
        if (new Set(chosen).size > 1) close(found.kappa, 1);
        else expect(found.reason).toBe("no-variance");
      }),
      settings,
    );
  });
});

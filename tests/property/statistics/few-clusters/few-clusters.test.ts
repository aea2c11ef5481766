import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clusteredHazardRatios } from "../../../../src/statistics/hazards/clusters/clustered-ratios.js";
import {
  cumulativeIncidence,
  linearRegression,
  productLimit,
  welch,
} from "../../../../src/statistics/index.js";

interface Row {
  readonly time: number;
  readonly cause: number;
  readonly late: number;
  readonly person: number;
  readonly group: number;
  readonly value: number;
  readonly stratum: number;
}

const row = fc.record<Row>({
  time: fc.integer({ min: 1, max: 20 }),
  cause: fc.constantFrom(0, 1, 1, 2),
  late: fc.integer({ min: 0, max: 5 }),
  person: fc.integer({ min: 0, max: 11 }),
  group: fc.constantFrom(0, 1),
  value: fc.integer({ min: -20, max: 20 }),
  stratum: fc.constantFrom(0, 1),
});
const rows = fc.array(row, { minLength: 8, maxLength: 40 });
const how = { seed: 20240613, numRuns: 150 };

const of = (list: readonly Row[], name: keyof Row) => list.map((one) => one[name]);
const competing = (list: readonly Row[]) => ({
  times: of(list, "time"),
  causes: of(list, "cause"),
  entries: list.map(({ time, late }) => Math.min(late, time - 1)),
  clusters: of(list, "person"),
});
const hazards = (list: readonly Row[]) => ({
  times: of(list, "time"),
  events: of(list, "cause").map((cause) => (cause === 1 ? 1 : 0)),
  strata: of(list, "stratum"),
  clusters: of(list, "person"),
  covariates: { names: ["group"], columns: [of(list, "group")] },
});

/** Equal but for rounding, which grows where a difference of large sums is small. */
function close(a: number | null, b: number | null, relative = 1e-8): void {
  if (a === null || b === null) expect(a).toBe(b);
  else expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 + relative * Math.abs(b));
}

describe("cumulative incidence with variance summed within persons", () => {
  test("with one cause it is that of the product-limit curve", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const alone = list.map((one) => ({ ...one, cause: Math.min(1, one.cause) }));
        const { causes: cause, ...rest } = competing(alone);
        const curve = productLimit({ ...rest, events: cause });
        const own = cumulativeIncidence(competing(alone)).causes.find((one) => one.cause === 1);
        own?.standardError.forEach((error, at) => {
          // where the curve has come to 0 its own error has no value
          if (curve.standardError[at] !== null && curve.notYet[at]! > 0)
            close(error, curve.standardError[at]!, 1e-6);
        });
      }),
      how,
    );
  });

  test("listing every row twice in its cluster changes nothing", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const once = cumulativeIncidence(competing(list));
        const twice = cumulativeIncidence(competing([...list, ...list]));
        once.causes.forEach(({ standardError }, k) => {
          standardError.forEach((error, at) => {
            close(twice.causes[k]!.standardError[at]!, error, 1e-6);
          });
        });
      }),
      how,
    );
  });

  test("the order of rows and the numbers of the clusters are immaterial", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const turned = [...list].reverse().map((one) => ({ ...one, person: 100 - 3 * one.person }));
        const [a, b] = [cumulativeIncidence(competing(list)), cumulativeIncidence(competing(turned))];
        a.causes.forEach(({ standardError }, k) => {
          standardError.forEach((error, at) => {
            close(b.causes[k]!.standardError[at]!, error, 1e-6);
          });
        });
      }),
      how,
    );
  });

  test("the error of the share without any event is at most the sum of the errors of the causes", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const { causes: cause, ...rest } = competing(list);
        const curve = productLimit({ ...rest, events: cause.map((one) => Math.min(1, one)) });
        const { causes } = cumulativeIncidence(competing(list));
        curve.standardError.forEach((error, at) => {
          const sum = causes.reduce((total, { standardError }) => total + standardError[at]!, 0);
          if (error !== null && curve.notYet[at]! > 0) expect(error).toBeLessThanOrEqual(sum + 1e-7);
        });
      }),
      how,
    );
  });
});

describe("hazard ratios with few clusters", () => {
  test("swapping the groups turns the ratio and its limits round", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const swapped = list.map((one) => ({ ...one, group: 1 - one.group }));
        const [a] = clusteredHazardRatios(hazards(list)).hazardRatios;
        const [b] = clusteredHazardRatios(hazards(swapped)).hazardRatios;
        if (a!.lower === null || b!.upper === null || a!.estimate === null) return;
        close(1 / b!.upper, a!.lower, 1e-5);
        close(a!.p, b!.p, 1e-5);
      }),
      how,
    );
  });

  test("the order of rows is immaterial, and so is the unit of a covariate", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const turned = [...list].reverse();
        const given = hazards(turned);
        const thousands = { names: ["group"], columns: [of(turned, "group").map((x) => 1000 * x)] };
        const [a] = clusteredHazardRatios(hazards(list)).hazardRatios;
        const [b] = clusteredHazardRatios({ ...given, covariates: thousands }).hazardRatios;
        close(a!.standardError, b!.standardError === null ? null : 1000 * b!.standardError, 1e-5);
      }),
      how,
    );
  });

  test("an interval, where there is one, holds its estimate and is wider than the normal one of the same error", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const { hazardRatios, df } = clusteredHazardRatios(hazards(list));
        const { estimate, lower, upper, standardError } = hazardRatios[0]!;
        if (estimate === null || lower === null || upper === null || standardError === null) return;
        expect(lower).toBeLessThanOrEqual(estimate);
        expect(upper).toBeGreaterThanOrEqual(estimate);
        expect(Math.log(estimate / lower)).toBeGreaterThan(1.96 * standardError * (1 - 1e-9));
        expect(df).toBeGreaterThan(0);
      }),
      how,
    );
  });
});

describe("linear regression with bias-reduced clustered variance", () => {
  const fitOf = (list: readonly Row[], names: readonly ("group" | "late")[]) =>
    linearRegression(
      {
        response: of(list, "value"),
        covariates: { names, columns: names.map((name) => of(list, name)) },
        clusters: of(list, "person"),
      },
      { variance: "reduced-bias" },
    );

  test("a mean: sum of n_g^2 (mean_g - mean)^2 / (1 - n_g / N), over N^2, and its degrees of freedom in closed form", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const byPerson = new Map<number, number[]>();
        for (const { person, value } of list) byPerson.set(person, [...(byPerson.get(person) ?? []), value]);
        if (byPerson.size < 2) return;
        const total = list.length;
        const mean = of(list, "value").reduce((sum, value) => sum + value, 0) / total;
        let [variance, a, b, c] = [0, 0, 0, 0];
        for (const values of byPerson.values()) {
          const n = values.length;
          const sum = values.reduce((part, value) => part + value - mean, 0);
          variance += sum ** 2 / (1 - n / total) / total ** 2;
          a += n ** 2 / (total - n) ** 2;
          b += n ** 3 / (total - n) ** 2;
          c += n ** 2 / (total - n);
        }
        const fit = fitOf(list, []);
        close(fit.standardErrors[0]!, Math.sqrt(variance));
        close(fit.termDf[0]!, total ** 2 / (total ** 2 * a - 2 * total * b + c ** 2));
      }),
      how,
    );
  });

  test("two groups, each row its own cluster: the error is Welch's", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const own = list.map((one, person) => ({ ...one, person }));
        const sides = [1, 0].map((side) =>
          of(
            own.filter(({ group }) => group === side),
            "value",
          ),
        );
        if (sides.some((side) => side.length < 2)) return;
        close(fitOf(own, ["group"]).standardErrors[1]!, welch(sides[0]!, sides[1]!).standardError);
      }),
      how,
    );
  });

  test("degrees of freedom lie between 0 and the number of clusters", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const clusters = new Set(of(list, "person")).size;
        for (const df of fitOf(list, ["group", "late"]).termDf)
          if (df !== null) expect(df > -1e-9 && df <= clusters + 1e-9).toBe(true);
      }),
      how,
    );
  });
});

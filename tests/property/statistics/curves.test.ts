import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Curve,
  cumulativeIncidence,
  productLimit,
  quantileTime,
  restrictedMean,
  shareAt,
  standardisedCurves,
} from "../../../src/statistics/index.js";
import { allNear, type CohortRow, cohort, columns, largeCohort, near, settings } from "./cohorts.js";

const law = (property: fc.IPropertyWithHooks<[CohortRow[]]> | fc.IProperty<[CohortRow[]]>) =>
  fc.assert(property, settings);

const sameCurve = (a: Curve, b: Curve): boolean =>
  allNear(a.times, b.times) && allNear(a.notYet, b.notYet) && allNear(a.standardError, b.standardError);

describe("product-limit curve", () => {
  test("the order of rows is immaterial", () => {
    law(
      fc.property(cohort, (rows) => {
        const turned = [...rows].reverse();
        return sameCurve(productLimit(columns(rows)), productLimit(columns(turned)));
      }),
    );
  });

  test("listing every row twice leaves the curve where it was and divides the variance by two", () => {
    law(
      fc.property(cohort, (rows) => {
        const once = productLimit(columns(rows));
        const twice = productLimit(columns([...rows, ...rows]));
        const halved = once.standardError.map((error) => (error === null ? null : error / Math.SQRT2));
        return allNear(once.notYet, twice.notYet) && allNear(halved, twice.standardError);
      }),
    );
  });

  test("weight 2 is the row listed twice (Greenwood)", () => {
    law(
      fc.property(cohort, (rows) => {
        const weights = rows.map((one) => 1 + one.group);
        const repeated = rows.flatMap((one) => (one.group === 1 ? [one, one] : [one]));
        return sameCurve(
          productLimit({ ...columns(rows), weights }, { variance: "greenwood" }),
          productLimit(columns(repeated), { variance: "greenwood" }),
        );
      }),
    );
  });

  test("robust: rows listed twice in one cluster are one row of weight 2", () => {
    law(
      fc.property(cohort, (rows) => {
        const clusters = rows.map((_, at) => at);
        const weighted = productLimit({ ...columns(rows), clusters, weights: rows.map(() => 2) });
        const listed = productLimit({ ...columns([...rows, ...rows]), clusters: [...clusters, ...clusters] });
        return allNear(weighted.standardError, listed.standardError, 1e-7);
      }),
    );
  });

  test("without censoring it is the share of those still waiting, robust and Greenwood errors both binomial", () => {
    law(
      fc.property(cohort, (rows) => {
        const all = rows.map((one) => ({ ...one, event: 1 }));
        const curve = productLimit(columns(all));
        const robust = productLimit(columns(all), { variance: "robust" });
        const shares = curve.times.map((time) => all.filter((one) => one.time > time).length / all.length);
        const errors = shares.map((share) =>
          share === 0 ? null : Math.sqrt((share * (1 - share)) / all.length),
        );
        return (
          allNear(curve.notYet, shares) &&
          allNear(curve.standardError, errors) &&
          allNear(robust.standardError, errors, 1e-7)
        );
      }),
    );
  });

  test("falls only, within 0 and 1; limits enclose it and are within 0 and 1 on every scale", () => {
    law(
      fc.property(cohort, (rows) =>
        (["log-log", "plain", "log", "logit", "arcsine"] as const).every((interval) => {
          const curve = productLimit(columns(rows), { interval });
          return curve.notYet.every((share, at) => {
            const lower = curve.lower[at] ?? share;
            const upper = curve.upper[at] ?? share;
            const before = at === 0 ? 1 : curve.notYet[at - 1]!;
            return share <= before && 0 <= lower && lower <= share && share <= upper && upper <= 1;
          });
        }),
      ),
    );
  });

  test("a row split into start-stop pieces at any time changes nothing", () => {
    law(
      fc.property(cohort, (rows) => {
        const late = rows.map((one) => ({ ...one, time: one.time + 2 }));
        const pieces = late.flatMap((one) => [
          { time: 1, event: 0, entry: -1 },
          { time: one.time, event: one.event, entry: 1 },
        ]);
        const whole = productLimit(columns(late));
        const split = productLimit({
          times: pieces.map((one) => one.time),
          events: pieces.map((one) => one.event),
          entries: pieces.map((one) => one.entry),
        });
        return whole.times.every((time, at) => {
          const k = split.times.indexOf(time);
          return near(split.notYet[k], whole.notYet[at]) && near(split.atRisk[k], whole.atRisk[at]);
        });
      }),
    );
  });

  test("delayed entry at the start of everybody is no delayed entry, robust error too", () => {
    law(
      fc.property(cohort, (rows) => {
        const entries = rows.map(() => -1);
        return (["greenwood", "robust"] as const).every((variance) =>
          sameCurve(
            productLimit(columns(rows), { variance }),
            productLimit({ ...columns(rows), entries }, { variance }),
          ),
        );
      }),
    );
  });

  test("frozen columns are left alone, typed arrays give the same", () => {
    law(
      fc.property(cohort, (rows) => {
        const frozen = {
          times: Object.freeze(rows.map((one) => one.time)),
          events: Object.freeze(rows.map((one) => one.event)),
        };
        const typed = { times: Int32Array.from(frozen.times), events: Uint8Array.from(frozen.events) };
        return sameCurve(productLimit(frozen), productLimit(typed));
      }),
    );
  });

  test("times that are no whole numbers are sorted as whole ones are", () => {
    law(
      fc.property(cohort, (rows) => {
        const halves = { ...columns(rows), times: rows.map((one) => one.time / 2 + 0.25) };
        return allNear(productLimit(columns(rows)).notYet, productLimit(halves).notYet);
      }),
    );
  });
});

describe("quantiles", () => {
  test("sizes 2 to 200 without censoring: the half is the lower middle value for even n, however the products round", () => {
    for (let n = 2; n <= 200; n++) {
      const times = Array.from({ length: n }, (_, at) => at + 1);
      const curve = productLimit({ times, events: times.map(() => 1) });
      expect(quantileTime(curve, 0.5).estimate).toEqual({ value: Math.ceil(n / 2) });
      const middle = n % 2 === 0 ? n / 2 + 0.5 : Math.ceil(n / 2);
      expect(quantileTime(curve, 0.5, { flatStep: "middle" }).estimate).toEqual({ value: middle });
    }
  });

  test("quarters of sizes 4 to 200 without censoring, and of each size doubled", () => {
    for (let n = 4; n <= 200; n += 4)
      for (const p of [0.25, 0.75]) {
        const times = Array.from({ length: n }, (_, at) => at + 1);
        const doubled = [...times, ...times];
        const value = { value: n * p };
        expect(quantileTime(productLimit({ times, events: times.map(() => 1) }), p).estimate).toEqual(value);
        expect(
          quantileTime(productLimit({ times: doubled, events: doubled.map(() => 1) }), p).estimate,
        ).toEqual(value);
      }
  });

  test("lower <= estimate <= upper where all are reached, for rising p later times", () => {
    law(
      fc.property(cohort, (rows) => {
        const curve = productLimit(columns(rows));
        const found = [0.25, 0.5, 0.75].map((p) => quantileTime(curve, p));
        const ordered = found.every(
          ({ estimate, lower, upper }) =>
            (lower.value ?? -1) <= (estimate.value ?? Number.POSITIVE_INFINITY) &&
            (estimate.value ?? -1) <= (upper.value ?? Number.POSITIVE_INFINITY),
        );
        const times = found.map(({ estimate }) => estimate.value ?? Number.POSITIVE_INFINITY);
        return ordered && times[0]! <= times[1]! && times[1]! <= times[2]!;
      }),
    );
  });
});

describe("restricted mean", () => {
  test("days to weeks divides it and its error by seven", () => {
    law(
      fc.property(cohort, (rows) => {
        const days = restrictedMean(columns(rows), { horizon: 35 });
        const weeks = restrictedMean(
          { ...columns(rows), times: rows.map((one) => one.time / 7) },
          { horizon: 5 },
        );
        return near(days.estimate, weeks.estimate! * 7) && near(days.standardError, weeks.standardError! * 7);
      }),
    );
  });

  test("without censoring it is the mean of the times cut at the horizon, both errors those of that mean", () => {
    law(
      fc.property(cohort, (rows) => {
        const all = rows.map((one) => ({ ...one, event: 1 }));
        const cut = all.map((one) => Math.min(one.time, 25));
        const mean = cut.reduce((sum, time) => sum + time, 0) / cut.length;
        const squares = cut.reduce((sum, time) => sum + (time - mean) ** 2, 0);
        const error = Math.sqrt(squares) / cut.length;
        const found = restrictedMean(columns(all), { horizon: 25 });
        const robust = restrictedMean(columns(all), { horizon: 25, variance: "robust" });
        return (
          near(found.estimate, mean) &&
          near(found.standardError, error, 1e-7) &&
          near(robust.standardError, error, 1e-7)
        );
      }),
    );
  });

  test("is the area under what shareAt says, day by day", () => {
    law(
      fc.property(cohort, (rows) => {
        const curve = productLimit(columns(rows));
        const horizon = Math.max(1, curve.lastTime!);
        let area = 0;
        for (let day = 0; day < horizon; day++) area += shareAt(curve, day).notYet!;
        return near(restrictedMean(columns(rows), { horizon }).estimate, area);
      }),
    );
  });
});

describe("cumulative incidence", () => {
  const withCauses = (rows: readonly CohortRow[]) => ({
    times: rows.map((one) => one.time),
    causes: rows.map((one) => (one.event === 0 ? 0 : 1 + one.group)),
  });

  test("all causes and the share without any event add up to 1 at every time", () => {
    law(
      fc.property(cohort, (rows) => {
        const curves = cumulativeIncidence(withCauses(rows));
        return curves.times.every((_, at) => {
          const sum = curves.causes.reduce((total, one) => total + one.incidence[at]!, 0);
          return near(sum + curves.eventFree[at]!, 1);
        });
      }),
    );
  });

  test("a single cause is 1 - product-limit, with Greenwood's error", () => {
    law(
      fc.property(cohort, (rows) => {
        const curve = productLimit(columns(rows));
        const curves = cumulativeIncidence({
          times: rows.map((one) => one.time),
          causes: rows.map((one) => one.event),
        });
        const own = curves.causes[0];
        if (own === undefined) return curve.totalEvents === 0;
        return (
          allNear(
            own.incidence,
            curve.notYet.map((share) => 1 - share),
          ) &&
          curve.standardError.every((error, at) => error === null || near(own.standardError[at], error, 1e-7))
        );
      }),
    );
  });

  test("rises only, and less than counting the other cause as censoring would say", () => {
    law(
      fc.property(cohort, (rows) => {
        const curves = cumulativeIncidence(withCauses(rows));
        return curves.causes.every((one) => {
          const events = withCauses(rows).causes.map((cause) => (cause === one.cause ? 1 : 0));
          const wrong = productLimit({ times: rows.map((own) => own.time), events });
          return one.incidence.every(
            (share, at) =>
              share >= (at === 0 ? 0 : one.incidence[at - 1]!) - 1e-12 &&
              share <= 1 - wrong.notYet[at]! + 1e-12,
          );
        });
      }),
    );
  });
});

describe("standardised curves", () => {
  const grouped = (rows: readonly CohortRow[]) => ({
    ...columns(rows),
    groups: rows.map((one) => one.group),
    strata: rows.map((one) => one.stratum),
  });

  test("with a single stratum they are the crude curves and restricted means", () => {
    law(
      fc.property(largeCohort, (rows) => {
        const one = rows.map((own) => ({ ...own, stratum: 0 }));
        const found = standardisedCurves(grouped(one), { horizon: 10, times: [3, 10], smallest: 1 });
        if (found.shares === null || found.restrictedMean === null) return found.reason === "no-overlap";
        return ([0, 1] as const).every((group) => {
          const own = columns(one.filter((row) => row.group === group));
          const crude = restrictedMean(own, { horizon: 10 });
          const curve = productLimit(own);
          return (
            near(found.restrictedMean?.groups[group].estimate, crude.estimate) &&
            near(found.restrictedMean?.groups[group].standardError, crude.standardError) &&
            found.shares?.every(({ time, returned }) =>
              near(returned[group].estimate, shareAt(curve, time).returned),
            )
          );
        });
      }),
    );
  });

  test("swapping the groups turns the sign of each difference", () => {
    law(
      fc.property(largeCohort, (rows) => {
        const turned = rows.map((one) => ({ ...one, group: 1 - one.group }));
        const ask = { horizon: 8, times: [5], smallest: 2 };
        const a = standardisedCurves(grouped(rows), ask);
        const b = standardisedCurves(grouped(turned), ask);
        if (a.shares === null) return b.shares === null;
        return (
          near(a.shares[0]?.difference.difference ?? null, -(b.shares?.[0]?.difference.difference ?? 0)) &&
          near(a.restrictedMean?.difference.standardError, b.restrictedMean?.difference.standardError)
        );
      }),
    );
  });

  test("robust with every row its own cluster is Greenwood where nobody is censored", () => {
    law(
      fc.property(largeCohort, (rows) => {
        const all = rows.map((one) => ({ ...one, event: 1 }));
        const ask = { horizon: 20, times: [10], smallest: 2 };
        const plain = standardisedCurves(grouped(all), ask);
        const robust = standardisedCurves({ ...grouped(all), clusters: all.map((_, at) => at) }, ask);
        if (plain.shares === null) return robust.shares === null;
        return (
          near(
            plain.shares[0]?.difference.standardError,
            robust.shares?.[0]?.difference.standardError,
            1e-7,
          ) &&
          near(
            plain.restrictedMean?.difference.standardError,
            robust.restrictedMean?.difference.standardError,
            1e-7,
          )
        );
      }),
    );
  });
});

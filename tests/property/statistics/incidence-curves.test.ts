import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type CompetingEvents,
  cumulativeIncidence,
  incidenceAt,
  incidenceCurve,
  productLimit,
  quantileTime,
  restrictedIncidenceMean,
  restrictedMean,
  shareAt,
  standardisedCurves,
  type TimeToEvent,
} from "../../../src/statistics/index.js";
import { allNear, near, settings } from "./cohorts.js";

/** Ties, late entries, persons with several rows, three kinds of ends. */
const row = fc.record({
  time: fc.integer({ min: 0, max: 30 }),
  end: fc.integer({ min: 0, max: 3 }),
  early: fc.integer({ min: 1, max: 40 }),
  person: fc.integer({ min: 0, max: 9 }),
  group: fc.integer({ min: 0, max: 1 }),
  stratum: fc.integer({ min: 0, max: 1 }),
});
const rows = fc.array(row, { minLength: 1, maxLength: 40 });
type Rows = readonly (typeof row extends fc.Arbitrary<infer One> ? One : never)[];

const kinds = fc.record({ late: fc.boolean(), together: fc.boolean() });
type Kinds = typeof kinds extends fc.Arbitrary<infer One> ? One : never;

const partsOf = (drawn: Rows, { late, together }: Kinds) => ({
  times: drawn.map(({ time }) => time),
  ...(late && { entries: drawn.map(({ time, early }) => Math.max(-1, time - early)) }),
  ...(together && { clusters: drawn.map(({ person }) => person) }),
});
const causesOf = (drawn: Rows, how: Kinds): CompetingEvents => ({
  ...partsOf(drawn, how),
  causes: drawn.map(({ end }) => Math.max(0, end - 1)),
});
const oneEventOf = (drawn: Rows, how: Kinds): { asEvents: TimeToEvent; asCauses: CompetingEvents } => {
  const events = drawn.map(({ end }) => (end > 1 ? 1 : 0));
  const parts = partsOf(drawn, how);
  return { asEvents: { ...parts, events }, asCauses: { ...parts, causes: events } };
};

const law = (holds: (drawn: Rows, how: Kinds) => boolean): void =>
  fc.assert(fc.property(rows, kinds, holds), settings);

/** A standard error that is rounding, or one whose variance is. */
const sameError = (a: number | null, b: number | null): boolean =>
  near(a, b, 1e-7) || (a! < 1e-8 && b! < 1e-8);

describe("without competing ends an incidence curve is the product-limit curve", () => {
  test("shares to the last digit, errors and limits to rounding, counts and flags", () => {
    law((drawn, how) => {
      const { asEvents, asCauses } = oneEventOf(drawn, how);
      const [curve, incidence] = [productLimit(asEvents), incidenceCurve(asCauses)];
      const { standardError, lower, upper, competing, ...rest } = incidence;
      expect(competing!.every((count) => count === 0)).toBe(true);
      expect(curve).toMatchObject(rest);
      return (
        curve.standardError.every((error, at) => sameError(error, standardError[at]!)) &&
        curve.lower.every(
          (limit, at) => sameError(curve.standardError[at]!, 0) || near(limit, lower[at], 1e-7),
        ) &&
        curve.upper.every(
          (limit, at) => sameError(curve.standardError[at]!, 0) || near(limit, upper[at], 1e-7),
        )
      );
    });
  });

  test("the restricted mean is that of the product-limit curve to the last digit", () => {
    law((drawn, how) => {
      const { asEvents, asCauses } = oneEventOf(drawn, how);
      expect(restrictedIncidenceMean(asCauses, { horizon: 20 })).toEqual(
        restrictedMean(asEvents, { horizon: 20 }),
      );
      return true;
    });
  });

  test("standardised curves are those of events to the last digit", () => {
    law((drawn, how) => {
      const { asEvents, asCauses } = oneEventOf(drawn, how);
      const placed = { groups: drawn.map(({ group }) => group), strata: drawn.map(({ stratum }) => stratum) };
      const options = { horizon: 15, times: [5, 15], smallest: 1 };
      expect(standardisedCurves({ ...asCauses, ...placed }, options)).toEqual(
        standardisedCurves({ ...asEvents, ...placed }, options),
      );
      return true;
    });
  });
});

describe("with competing ends", () => {
  test("1 - notYet is the cumulative incidence, with its delta or robust error", () => {
    law((drawn, how) => {
      const columns = causesOf(drawn, how);
      const [curve, all] = [incidenceCurve(columns), cumulativeIncidence(columns)];
      const own = all.causes.find(({ cause }) => cause === 1);
      if (own === undefined) return curve.notYet.every((share) => share === 1);
      return (
        allNear(
          curve.notYet,
          own.incidence.map((share) => 1 - share),
        ) &&
        curve.standardError.every(
          (error, at) => error === null || sameError(error, own.standardError[at]!),
        ) &&
        curve.notYet.every((share, at) => share <= (curve.notYet[at - 1] ?? 1))
      );
    });
  });

  test("shareAt says what incidenceAt says, at any time, and why it does not", () => {
    law((drawn, how) => {
      const columns = causesOf(drawn, how);
      const [curve, all] = [incidenceCurve(columns), cumulativeIncidence(columns)];
      return [0, 3, 12, 30, 31].every((time) => {
        const [share, wanted] = [shareAt(curve, time), incidenceAt(all, { time, cause: 1 })];
        expect(share.reason).toBe(wanted.reason);
        expect(share.atRisk).toBe(wanted.atRisk);
        expect(share.cumulativeEvents).toBe(wanted.cumulativeEvents);
        return near(share.returned, wanted.incidence);
      });
    });
  });

  test("a share that is not reached when everybody had some end is not reached, and at the end the curve is known for ever", () => {
    law((drawn, { together }) => {
      const ended = drawn.map((one) => ({ ...one, end: Math.max(2, one.end) }));
      const curve = incidenceCurve(causesOf(ended, { late: false, together }));
      const back = ended.filter(({ end }) => end === 2).length / ended.length;
      expect(curve.complete).toBe(true);
      expect(shareAt(curve, 1000).returned).toBeCloseTo(back, 12);
      expect(shareAt(curve, 1000).limitsReason === "all-returned").toBe(back === 1);
      const half = quantileTime(curve, 0.5).estimate;
      return back < 0.5 - 1e-9 ? half.value === null && half.reason === "not-reached" : half.value !== null;
    });
  });

  test("nobody censored: shares and means are those of people, a competing end counting as the horizon; errors binomial", () => {
    law((drawn, { together }) => {
      const ended = drawn.map((one) => ({ ...one, end: Math.max(2, one.end) }));
      const columns = causesOf(ended, { late: false, together: false });
      const variance = together ? ("robust" as const) : ("greenwood" as const);
      const times = ended.map(({ time, end }) => (end === 2 ? Math.min(20, time) : 20));
      const mean = times.reduce((sum, time) => sum + time, 0) / times.length;
      const squares = times.reduce((sum, time) => sum + (time - mean) ** 2, 0);
      const found = restrictedIncidenceMean(columns, { horizon: 20, variance });
      const back = ended.filter(({ time, end }) => end === 2 && time <= 12).length / ended.length;
      const share = shareAt(incidenceCurve(columns, { variance }), 12);
      return (
        near(found.estimate, mean) &&
        sameError(found.standardError, Math.sqrt(squares) / times.length) &&
        near(share.returned, back) &&
        (share.notYet === 0 || sameError(share.standardError, Math.sqrt((back * (1 - back)) / ended.length)))
      );
    });
  });

  test("the restricted mean is the area under the curve day by day, and the means of all causes add up", () => {
    law((drawn, how) => {
      const columns = causesOf(drawn, how);
      const curve = incidenceCurve(columns);
      const horizon = Math.max(1, curve.lastTime!);
      let area = 0;
      for (let day = 0; day < horizon; day++) area += shareAt(curve, day).notYet!;
      const [first, second] = [1, 2].map(
        (cause) => restrictedIncidenceMean(columns, { horizon, cause }).estimate!,
      );
      const all = { ...columns, causes: Array.from(columns.causes, (cause) => Math.min(1, cause)) };
      const free = restrictedIncidenceMean(all, { horizon }).estimate!;
      return near(first!, area) && near(horizon - free, horizon - first! + (horizon - second!));
    });
  });

  test("in one stratum a standardised share and mean are those of the group, error too", () => {
    law((drawn, { together }) => {
      const columns = causesOf(drawn, { late: false, together });
      const placed = { groups: drawn.map(({ group }) => group), strata: drawn.map(() => 4) };
      const found = standardisedCurves({ ...columns, ...placed }, { horizon: 9, times: [6], smallest: 1 });
      if (found.shares === null) return found.reason === "no-overlap";
      return ([0, 1] as const).every((group) => {
        const own = causesOf(
          drawn.filter((one) => one.group === group),
          { late: false, together },
        );
        const share = shareAt(incidenceCurve(own), 6);
        const mean = restrictedIncidenceMean(own, { horizon: 9 });
        const [value, area] = [found.shares![0]!.returned[group], found.restrictedMean!.groups[group]];
        return (
          near(value.estimate, share.returned) &&
          (share.notYet === 0 || sameError(value.standardError, share.standardError)) &&
          near(area.estimate, mean.estimate) &&
          sameError(area.standardError, mean.standardError)
        );
      });
    });
  });
});

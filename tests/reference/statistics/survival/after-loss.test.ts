import { describe, expect, it } from "vitest";
import {
  incidenceCurve,
  shareAt,
  shareDifference,
  standardisedCurves,
} from "../../../../src/statistics/index.js";
import { differenceAfterLoss, shareAfterLoss } from "../../../../src/statistics/survival/after-loss/index.js";
import { type Expected, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

const fingers = referenceRows("competing_means", "fingers.csv");
const isLost = (row: number) => row % 4 === 3;
const entered = numbers(fingers, "entry");
/** Every fourth row is lost after three fifths of its time, as in the script. */
const columns = {
  times: numbers(fingers, "time").map((time, row) =>
    isLost(row) ? Math.max(entered[row]! + 1, Math.ceil(0.6 * time)) : time,
  ),
  causes: numbers(fingers, "cause").map((cause, row) => (isLost(row) ? 0 : cause)),
  lost: fingers.map((_, row) => (isLost(row) ? 1 : 0)),
};
const clusters = numbers(fingers, "person");
const groups = numbers(fingers, "group");
const rel = 1e-9;
const factorOf = (factor: Expected): number => (factor === "Infinity" ? Number.POSITIVE_INFINITY : factor);

describe.each([
  ["fingers", {}],
  ["fingers_late_entry", { entries: entered }],
] as const)("shares after loss, by matrices in base R: %s", (id, late) => {
  it.each(referenceCase("after_loss", id).expected as Expected[])(
    "by day $time",
    ({ time, lost, points, crosses_half }) => {
      const finite = points.map(({ factor }: Expected) => factorOf(factor)).filter(Number.isFinite);
      const found = shareAfterLoss({ ...columns, ...late }, { time, factors: finite });
      const alike = shareAfterLoss({ ...columns, ...late, clusters }, { time, factors: finite });
      expect(found.lost).toBe(lost);
      points.forEach((point: Expected, at: number) => {
        const what = `factor ${point.factor}`;
        const [own, clustered] = [found, alike].map((one) => one.points[at] ?? one.all);
        expectClose(own!.returned, point.share, { rel, what });
        expectClose(own!.standardError, point.se_delta, { rel, what: `${what}: error` });
        expectClose(clustered!.standardError, point.se_clusters, { rel, what: `${what}: error in persons` });
        expectClose(own!.lower, point.loglog_from_se_delta[0], { rel, what: `${what}: lower` });
        expectClose(own!.upper, point.loglog_from_se_delta[1], { rel, what: `${what}: upper` });
      });
      expect(found.points[0]).toEqual({ factor: 0, ...found.none });
      expectClose(found.crossing?.factor, crosses_half, { rel, what: "crosses one half" });
    },
  );
});

describe("differences after loss, by matrices in base R", () => {
  it.each(referenceCase("after_loss", "fingers_difference").expected as Expected[])(
    "by day $time",
    ({ time, points, tips }) => {
      const factors = points.map(({ factor }: Expected) => factor);
      const found = differenceAfterLoss({ ...columns, groups }, { time, factors });
      points.forEach((point: Expected, at: number) => {
        for (const figure of ["difference", "lower", "upper"] as const)
          expectClose(found.points[at]?.[figure], point[figure], {
            rel,
            what: `factor ${point.factor}: ${figure}`,
          });
      });
      expectClose(found.tipping?.factor, tips, {
        rel,
        what: "factor at which 0 leaves or enters the interval",
      });
    },
  );
});

describe("where nothing is supposed, and at the bounds, the figures are those of other functions", () => {
  const time = 60;
  const own = { ...columns, entries: entered, clusters };
  const { lost, ...followed } = own;
  const early = (row: number) => lost[row] === 1 && own.times[row]! < time;

  it.each([
    ["as followed", 1, (cause: number) => cause],
    ["none back", 0, (cause: number, row: number) => (early(row) ? 9 : cause)],
  ] as const)("%s: the curve of incidence", (_, factor, causeOf) => {
    const at = shareAt(incidenceCurve({ ...followed, causes: own.causes.map(causeOf) }), time);
    const found = shareAfterLoss(own, { time, factors: [factor] }).points[0]!;
    expectClose(found.returned, at.returned, { rel: 1e-12, what: "share" });
    expectClose(found.standardError, at.standardError, { rel, what: "error" });
    expectClose(found.lower, at.returnedLower, { rel, what: "lower" });
    expectClose(found.upper, at.returnedUpper, { rel, what: "upper" });
  });

  it("all back: the curve with loss as the event", () => {
    const causes = own.causes.map((cause, row) => (early(row) ? 1 : cause));
    const at = shareAt(incidenceCurve({ ...followed, causes }), time);
    const found = shareAfterLoss(own, { time }).all;
    expectClose(found.returned, at.returned, { rel: 1e-12, what: "share" });
    expectClose(found.standardError, at.standardError, { rel, what: "error" });
  });

  it("as followed, difference as they are", () => {
    const sideOf = (group: number) => {
      const rows = groups.flatMap((one, row) => (one === group ? [row] : []));
      const part = (values: readonly number[]) => rows.map((row) => values[row]!);
      const curve = incidenceCurve({
        times: part(own.times),
        causes: part(own.causes),
        entries: part(entered),
        clusters: part(clusters),
      });
      const at = shareAt(curve, time);
      return { ...at, returned: at.returned!, n: curve.n };
    };
    const expected = shareDifference(sideOf(1), sideOf(0));
    const found = differenceAfterLoss({ ...own, groups }, { time, factors: [1] }).points[0]!;
    expectClose(found.difference, expected.estimate, { rel, what: "difference" });
    expectClose(found.lower, expected.lower, { rel, what: "lower" });
    expectClose(found.upper, expected.upper, { rel, what: "upper" });
  });

  it("as followed, like for like", () => {
    const strata = numbers(fingers, "grade");
    const options = { horizon: time, smallest: 3 };
    const expected = standardisedCurves({ ...followed, groups, strata }, { ...options, times: [time] });
    const found = differenceAfterLoss({ ...own, groups, strata }, { ...options, time, factors: [1] });
    const { difference, lower, upper } = expected.shares![0]!.difference;
    expectClose(found.points[0]?.difference, difference, { rel, what: "difference" });
    expectClose(found.points[0]?.lower, lower, { rel, what: "lower" });
    expectClose(found.points[0]?.upper, upper, { rel, what: "upper" });
  });
});

describe("by hand: ten injuries, two lost on day 3 after two of ten had returned, six followed to day 9", () => {
  const hand = {
    times: [1, 2, 3, 3, 4, 5, 9, 9, 9, 9],
    causes: [1, 1, 0, 0, 1, 1, 0, 0, 0, 0],
    lost: [0, 0, 1, 1, 0, 0, 0, 0, 0, 0],
  };

  it("4 of 10 if neither is back by day 6, 6 of 10 if both are", () => {
    const found = shareAfterLoss(hand, { time: 6 });
    expectClose(found.none.returned, 0.4, { rel: 1e-12, what: "none" });
    expectClose(found.all.returned, 0.6, { rel: 1e-12, what: "all" });
  });

  it("twice the hazard: of those lost 1 - (5/6)^2 (4/5)^2 are back by day 6", () => {
    const found = shareAfterLoss(hand, { time: 6, factors: [2] }).points[0];
    const ofLost = 1 - (5 / 6) ** 2 * (4 / 5) ** 2;
    expectClose(found?.returned, 0.2 + 0.2 * ofLost + 0.6 * (1 / 3), { rel: 1e-12, what: "twice" });
  });

  it("half are back by day 6 where one of the two lost is: 0.2 + 0.2 / 2 + 0.2, with (2/3)^factor = 1/2", () => {
    const { crossing } = shareAfterLoss(hand, { time: 6 });
    expectClose(crossing?.factor, Math.log(2) / Math.log(1.5), { rel: 1e-9, what: "factor" });
    expect(crossing).toMatchObject({ from: -1, to: 1, holdsAtBounds: false });
  });

  it("nobody lost: bounds are the share itself, and there is nothing to cross", () => {
    const found = shareAfterLoss({ ...hand, lost: hand.lost.map(() => 0) }, { time: 6, factors: [0, 9] });
    expect(found.crossing).toBeNull();
    expect(
      new Set([found.none, found.all, ...found.points].map(({ returned }) => returned?.toFixed(12))).size,
    ).toBe(1);
  });
});
